"""Printed sheets: questions, answers, marking sheets, what there is to cut out; each a PDF file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from ...choice.stages.sheet_model import SheetSet
from ...safe_write import write_files
from ...sentences.sheets import SheetKind, sheet_title
from ...words.messages import speaking
from .document import Pictures, page_html, pdf_bytes
from .sheets_body import body_of, css_of

__all__ = ["FILE_NAMES", "write_sheets"]

FILE_NAMES = {
    SheetKind.QUESTION: "questions",
    SheetKind.ANSWER: "answers",
    SheetKind.MARKING: "marking",
    SheetKind.CUTOUT: "cutout",
}


def write_sheets(sets: Sequence[SheetSet], folder: Path) -> tuple[Path, ...]:
    """NAME.questions.pdf, NAME.answers.pdf, NAME.marking.pdf, NAME.cutout.pdf, those that a set has; all or none.

    With versions their number stands before the kind, as in NAME.version-2.answers.pdf; what is to be cut out has none.

    Raises : OutputError if they cannot be written, FontError for a character that the typeface lacks
    """
    files: dict[str, bytes | str] = {}
    for sheets in sets:
        for kind in SheetKind:
            if _has(sheets, kind):
                version = None if kind is SheetKind.CUTOUT else sheets.version
                infix = f"version-{version}." if version else ""
                files[f"{sheets.name}.{infix}{FILE_NAMES[kind]}.pdf"] = _pdf(sheets, kind)
    return write_files(folder, files)


def _has(sheets: SheetSet, kind: SheetKind) -> bool:
    of_kind: dict[SheetKind, tuple[object, ...]] = {
        SheetKind.QUESTION: sheets.questions,
        SheetKind.ANSWER: sheets.answers,
        SheetKind.MARKING: sheets.marking,
        SheetKind.CUTOUT: sheets.cut_outs,
    }
    return bool(of_kind[kind])


def _pdf(sheets: SheetSet, kind: SheetKind) -> bytes:
    with speaking(sheets.language):
        return _pdf_in_its_language(sheets, kind)


def _pdf_in_its_language(sheets: SheetSet, kind: SheetKind) -> bytes:
    pictures = Pictures()
    body = body_of(sheets, kind, pictures)
    is_to_cut = kind is SheetKind.CUTOUT
    html = page_html(
        title=sheets.cut_outs_title if is_to_cut else sheet_title(sheets.title, kind, sheets.version),
        language=sheets.language,
        css=css_of(sheets),
        body=body,
        author=sheets.imprint.credit,
    )
    return pdf_bytes(html, pictures)

"""The handout: the steps of a lesson on paper, one, two or four a page, with lines for notes."""

from __future__ import annotations

from html import escape
from pathlib import Path

from ...errors import OutputError
from ...figure.paper import LINE_HEIGHT, MM_PER_PT, Paper, Picture, Printing, wrapped_lines
from ...safe_write import write_bytes
from ...sentences.published import credit_lines
from ...storyboard.model import Storyboard
from ...storyboard.timeline import Timeline
from ...typeface.faces import FAMILY
from ...words.messages import speaking
from ..shared.steps import bookmark, drawn_part, picture_of, step_heading, terms_of, undecorated
from .document import Pictures, page_css, page_html, pdf_bytes

__all__ = ["DEFAULT_PER_PAGE", "PER_PAGE", "write_handout"]

PER_PAGE = (1, 2, 4)
DEFAULT_PER_PAGE = 2
_PICTURE_MM = {1: 180.0, 2: 158.0, 4: 92.0}  # its width; with four the lines stand beside it, else below
_LINES = {1: 13, 2: 3, 4: 5}
_LINE_MM = 8.5
_HEADING_MM = 8.0
_BETWEEN_MM = 3.0
_PT = 11.0


def write_handout(
    timeline: Timeline, folder: Path, *, per_page: int = DEFAULT_PER_PAGE, printing: Printing | None = None
) -> tuple[Path, ...]:
    """NAME.handout.pdf in the folder, tagged as PDF/UA-1, with a bookmark a chapter.

    per_page : steps on a page; with four there is no room for their words
    printing : the paper, A4 where none is given
    Raises   : OutputError where it cannot be written or there are not so many a page, FontError for a character that
               the typeface lacks
    """
    if per_page not in PER_PAGE:
        raise OutputError(f"a handout has 1, 2 or 4 steps a page, not {per_page}")
    board, on = timeline.storyboard, printing or Printing(paper=Paper.A4)
    pictures = Pictures()
    with speaking(board.language):
        html = page_html(
            title=board.title,
            language=board.language,
            css=_css(board, per_page, on),
            body=_body(board, per_page, on, pictures),
            author=board.imprint.credit,
            about=terms_of(board.imprint),
        )
    return (write_bytes(folder / f"{board.name}.handout.pdf", pdf_bytes(html, pictures)),)


def _body(board: Storyboard, per_page: int, printing: Printing, pictures: Pictures) -> str:
    parts, chapter = [], ""
    lines = _LINES[per_page] * '<div class="line"></div>'
    for number, step in enumerate(board.steps):
        figure = undecorated(picture_of(step))
        box = drawn_part(figure)
        said = " ".join(step.narration) if per_page < 4 else ""
        unit = min(
            _PICTURE_MM[per_page] / box.width, _picture_height_mm(said, per_page, printing) / box.height
        )  # millimetres of a stage unit
        picture = Picture(figure=figure, box=box, mm_per_unit=unit)
        words = f"<p>{escape(said)}</p>" if said else ""
        starts = step.chapter != chapter
        new_page = " page" if number and number % per_page == 0 else ""
        parts.append(
            f'<section class="step{" chapter" if starts else ""}{new_page}"{bookmark(step.chapter if starts else "")}>'
            f"{step_heading(step, first=number == 0)}"
            f'<div class="row">{pictures.img(picture)}<div class="lines">{lines if per_page == 4 else ""}</div></div>'
            f"{words}{lines if per_page < 4 else ''}</section>"
        )
        chapter = step.chapter
    return "".join(parts)


def _picture_height_mm(said: str, per_page: int, printing: Printing) -> float:
    """What heading, words and lines leave to the picture of a step."""
    size = _PT * MM_PER_PT
    words = wrapped_lines(said, size, printing.width_mm) * size * LINE_HEIGHT + 2.0 if said else 0.0
    lines = _LINES[per_page] * _LINE_MM if per_page < 4 else 0.0
    return printing.height_mm / per_page - _HEADING_MM - words - lines - _BETWEEN_MM - 2.0


def _css(board: Storyboard, per_page: int, printing: Printing) -> str:
    imprint = board.imprint
    credit = (*credit_lines(imprint.credit, imprint.licence), imprint.draft)
    step_mm = printing.height_mm / per_page - _BETWEEN_MM - 1.0
    return f"""{page_css(printing, type_pt=_PT, credit=credit)}
html {{ font: {_PT}pt/{LINE_HEIGHT} "{FAMILY}"; color: #000; background: #fff }}
body, h1, h2, p {{ margin: 0; padding: 0 }}
h1, h2 {{ font-size: 14pt; line-height: 1.2; margin-bottom: 2mm; bookmark-level: 2 }}
.step {{ break-inside: avoid; min-height: {step_mm:.2f}mm; margin-bottom: {_BETWEEN_MM}mm }}
.page {{ break-before: page }}
.row {{ display: flex; gap: 6mm; align-items: flex-start }}
.lines {{ flex: 1; margin-top: 0 }}
img {{ display: block }}
.line {{ border-bottom: 0.25mm solid #000; height: {_LINE_MM}mm }}
p {{ margin-top: 2mm }}
.chapter {{ bookmark-level: 1; bookmark-label: attr(data-chapter) }}
"""

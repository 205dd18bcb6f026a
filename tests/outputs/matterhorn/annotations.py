"""Failure conditions of annotations: links, fields, remarks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from outputs.matterhorn.table import condition
from outputs.pdf_opened import Opened
from pikepdf import Name

# ISO 32000-1:2008, table 169; a widget is a field's, a trap net is not allowed at all
_ANNOTATIONS = {
    "Text", "Link", "FreeText", "Line", "Square", "Circle", "Polygon", "PolyLine", "Highlight", "Underline",
    "Squiggly", "StrikeOut", "Stamp", "Caret", "Ink", "Popup", "FileAttachment", "Sound", "Movie", "Widget", "Screen",
    "PrinterMark", "TrapNet", "Watermark", "3D", "Redact",
}  # fmt: skip


@condition("28-002")
def _note_outside_annot(file: Opened) -> Iterator[str]:
    for _, note in file.annotations:
        kind = _kind(note)
        holder = file.holder_of(note)
        if kind not in ("Widget", "Link", "PrinterMark", "Popup") and (
            holder is None or holder.get("/S") != Name.Annot
        ):
            yield f"an annotation {kind} outside an element Annot"


@condition("28-004")
def _silent_note(file: Opened) -> Iterator[str]:
    for _, note in file.annotations:
        if _kind(note) not in ("Widget", "Popup") and not str(note.get("/Contents", "")) and not _alt_of(file, note):
            yield f"an annotation {_kind(note)} that says nothing"


@condition("28-005")
def _silent_field(file: Opened) -> Iterator[str]:
    for _, note in file.annotations:
        if _kind(note) == "Widget" and not str(note.get("/TU", "")) and not _alt_of(file, note):
            yield "a field that says nothing"


@condition("28-006")
def _unknown_note(file: Opened) -> Iterator[str]:
    yield from (f"an annotation of kind {_kind(n)}" for _, n in file.annotations if _kind(n) not in _ANNOTATIONS)


@condition("28-007")
def _trap_net(file: Opened) -> Iterator[str]:
    yield from ("a trap net" for _, note in file.annotations if _kind(note) == "TrapNet")


@condition("28-008")
def _no_order(file: Opened) -> Iterator[str]:
    yield from ("a page with annotations in no order" for page, _ in file.annotations if "/Tabs" not in page)


@condition("28-009")
def _other_order(file: Opened) -> Iterator[str]:
    yield from ("annotations in another order" for page, _ in file.annotations if page.get("/Tabs", Name.S) != Name.S)


@condition("28-010")
def _field_outside_form(file: Opened) -> Iterator[str]:
    yield from _outside(file, "Widget", "Form")


@condition("28-011")
def _link_outside_link(file: Opened) -> Iterator[str]:
    yield from _outside(file, "Link", "Link")


def _outside(file: Opened, kind: str, tag: str) -> Iterator[str]:
    for _, note in file.annotations:
        holder = file.holder_of(note)
        if _kind(note) == kind and (holder is None or file.role(str(holder.S)[1:]) != tag):
            yield f"a {kind} outside an element {tag}"


@condition("28-012")
def _silent_link(file: Opened) -> Iterator[str]:
    for _, note in file.annotations:
        if _kind(note) == "Link" and not str(note.get("/Contents", "")):
            yield "a link that says nothing"


@condition("28-017")
def _printer_mark(file: Opened) -> Iterator[str]:
    for _, note in file.annotations:
        if _kind(note) == "PrinterMark" and file.holder_of(note) is not None:
            yield "a mark for printers among what is read out"


def _kind(note: Any) -> str:
    return str(note.get("/Subtype", "")).removeprefix("/")


def _alt_of(file: Opened, note: Any) -> str:
    holder = file.holder_of(note)
    return "" if holder is None else str(holder.get("/Alt", ""))

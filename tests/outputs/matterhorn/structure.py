"""Failure conditions of the structure: roles, what may hold what, headings, tables, notes, alternative texts."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import Any

import pikepdf
from outputs.matterhorn.table import Find, condition
from outputs.pdf_opened import Opened

# ISO 32000-1:2008, 14.8.4
STANDARD = {
    "Document", "Part", "Art", "Sect", "Div", "BlockQuote", "Caption", "TOC", "TOCI", "Index", "NonStruct", "Private",
    "P", "H", "H1", "H2", "H3", "H4", "H5", "H6", "L", "LI", "Lbl", "LBody", "Table", "TR", "TH", "TD", "THead",
    "TBody", "TFoot", "Span", "Quote", "Note", "Reference", "BibEntry", "Code", "Link", "Annot", "Ruby", "RB", "RT",
    "RP", "Warichu", "WT", "WP", "Figure", "Formula", "Form",
}  # fmt: skip

# ISO 32000-1:2008, tables 333, 336, 337, 338: what an element may hold, and what may hold it.
_MAY_HOLD: dict[str, dict[str, set[str]]] = {
    "09-004": {
        "Table": {"TR", "THead", "TBody", "TFoot", "Caption"},
        **{key: {"TR"} for key in ("THead", "TBody", "TFoot")},
        "TR": {"TH", "TD"},
    },
    "09-005": {"L": {"L", "LI", "Caption"}, "LI": {"Lbl", "LBody"}},
    "09-006": {"TOC": {"TOC", "TOCI", "Caption"}, "TOCI": {"Lbl", "Reference", "NonStruct", "P", "TOC"}},
    "09-007": {"Ruby": {"RB", "RT", "RP"}},
    "09-008": {"Warichu": {"WT", "WP"}},
}
_HELD_BY: dict[str, dict[str, set[str]]] = {
    "09-004": {
        **{key: {"Table"} for key in ("THead", "TBody", "TFoot")},
        "TR": {"Table", "THead", "TBody", "TFoot"},
        **{key: {"TR"} for key in ("TH", "TD")},
    },
    "09-005": {"LI": {"L"}, "LBody": {"LI"}},
    "09-006": {"TOCI": {"TOC"}},
    "09-007": {key: {"Ruby"} for key in ("RB", "RT", "RP")},
    "09-008": {key: {"Warichu"} for key in ("WT", "WP")},
}


@condition("02-001")
def _leads_nowhere(file: Opened) -> Iterator[str]:
    yield from (f"{n.tag} is no standard type" for n in file.nodes if n.tag not in STANDARD)


@condition("02-003")
def _circles(file: Opened) -> Iterator[str]:
    for start in file.roles:
        seen, tag = {start}, file.roles[start]
        while tag in file.roles and tag not in seen:
            seen.add(tag)
            tag = file.roles[tag]
        if tag in seen:
            yield f"{start} is mapped in a circle"


@condition("02-004")
def _remapped(file: Opened) -> Iterator[str]:
    yield from (f"the standard type {tag} is mapped" for tag in file.roles if tag in STANDARD)


def _grammar(number: str) -> Find:
    may_hold, held_by = _MAY_HOLD[number], _HELD_BY[number]

    def find(file: Opened) -> Iterator[str]:
        for node in file.nodes:
            for kid in node.kids:
                if node.tag in may_hold and kid not in may_hold[node.tag]:
                    yield f"{kid} in {node.tag}"
            holder = node.above[-1] if node.above else "nothing"
            if node.tag in held_by and holder not in held_by[node.tag]:
                yield f"{node.tag} in {holder}"

    return find


for _number in _MAY_HOLD:
    condition(_number)(_grammar(_number))


@condition("13-004")
def _no_alt(file: Opened) -> Iterator[str]:
    yield from ("a figure without words" for n in file.nodes if n.tag == "Figure" and not _said(n.element))


@condition("17-002")
def _no_alt_of_a_formula(file: Opened) -> Iterator[str]:
    yield from (
        "a formula without words" for n in file.nodes if n.tag == "Formula" and not str(n.element.get("/Alt", ""))
    )


def _said(element: Any) -> str:
    return str(element.get("/Alt", "")) or str(element.get("/ActualText", ""))


@condition("14-002")
def _first_heading(file: Opened) -> Iterator[str]:
    levels = _levels(file)
    if levels and levels[0] != 1:
        yield f"the first heading is of level {levels[0]}"


@condition("14-003")
def _skipped(file: Opened) -> Iterator[str]:
    levels = _levels(file)
    yield from (f"from level {a} to {b}" for a, b in itertools.pairwise(levels) if b > a + 1)


def _levels(file: Opened) -> list[int]:
    return [int(n.tag[1]) for n in file.nodes if len(n.tag) == 2 and n.tag[0] == "H" and n.tag[1].isdigit()]


@condition("14-006")
def _many_h(file: Opened) -> Iterator[str]:
    yield from (f"{n.tag} has several headings H" for n in file.nodes if n.kids.count("H") > 1)


@condition("14-007")
def _both(file: Opened) -> Iterator[str]:
    if _levels(file) and any(n.tag == "H" for n in file.nodes):
        yield "headings with and without a level"


@condition("15-003")
def _no_scope(file: Opened) -> Iterator[str]:
    for node in file.nodes:
        if node.tag == "TH":
            attributes = node.element.get("/A", pikepdf.Dictionary())
            rows = list(attributes) if isinstance(attributes, pikepdf.Array) else [attributes]
            if not any("/Scope" in row for row in rows if isinstance(row, pikepdf.Dictionary)):
                yield "a header cell that heads nothing"


@condition("19-003")
def _note_without_id(file: Opened) -> Iterator[str]:
    yield from ("a note without an id" for n in file.nodes if n.tag == "Note" and "/ID" not in n.element)


@condition("19-004")
def _notes_alike(file: Opened) -> Iterator[str]:
    ids = [str(n.element.ID) for n in file.nodes if n.tag == "Note" and "/ID" in n.element]
    if len(set(ids)) < len(ids):
        yield "two notes with one id"

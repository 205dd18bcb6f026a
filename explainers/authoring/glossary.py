"""The keys of each format as remarks of a file: every key with what it means, from the formats' own descriptions."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache
from textwrap import wrap
from typing import Any

from ..choice.question import WarningKind
from ..document.format import Format
from ..intake.schema import FORMATS
from ..item.folder import FileKind
from ..item.lesson_reader import PART
from ..item.model import Manner
from ..item.option_reader import MADE, OPTION
from ..item.ready_outlines import READY
from ..item.ring_reader import RING
from ..kinds.join_and_cut.fields.item_reader import BASE
from ..kinds.join_and_cut.fields.piece_reader import PIECE
from ..kinds.join_and_cut.model import PieceWarning
from ..kinds.join_and_cut.slips.registry import SLIPS
from ..kinds.registry import DEFAULT_KIND, kind_named

__all__ = ["key_remarks", "remarks"]

WIDTH = 100
_TERM = re.compile(r"\s+\S+\s+")  # a key in front of what it means

_MANNERS = {
    Manner.WORKED_EXAMPLE: "the question, then its whole solution",
    Manner.YOUR_TURN: "the question, a pause to try, then the same solution",
    Manner.QUESTION: "the question and the pause, nothing more",
    Manner.SOLUTION: "the solution of a question that was asked elsewhere",
    Manner.QUICK_CHECK: "the finished outline with the options beside it, no pieces",
}

_WARNINGS: dict[str, str] = {
    PieceWarning.NO_TURN: "a piece is shown as it lies",
    PieceWarning.MISREAD_MARK: "a mark such as p, Z or 6 looks like another when the sheet is turned",
    PieceWarning.TWO_WAY_MARK: "a mark could be taken for another one, or for another part of its side",
    PieceWarning.SYMMETRIC_PIECE: "a piece fits with more than one end",
    WarningKind.SYMMETRIC_OUTLINE: "the finished outline looks the same in several turned positions",
    WarningKind.NEARLY_RIGHT: "a wrong option hardly differs from the finished outline",
    WarningKind.FINE_SIDES: "sides of base or pieces are too short to be seen",
    WarningKind.FINE_OPTIONS: "sides of options are",
}


def remarks(lines: Iterable[str]) -> str:
    """Lines as remarks, long ones broken; what is broken off stands below where the words of its line begin."""
    told: list[str] = []
    for line in lines:
        term = _TERM.match(line)
        told += wrap(line, WIDTH, subsequent_indent=" " * (term.end() if term else 0))
    return "\n".join(f"# {line}".rstrip() for line in told)


def _listed(terms: Mapping[Any, str], indent: int = 2) -> list[str]:
    """Terms with what they mean, one below the other."""
    width = max(map(len, terms))
    return [f"{' ' * indent}{term:<{width}}  {meaning}" for term, meaning in terms.items()]


def _keys(table: Format) -> dict[str, str]:
    return {field.key: field.doc for field in table.fields}


def _outline_in_one(keys: Mapping[str, str]) -> dict[str, str]:
    """The keys of an outline told in one line, where they were told one by one before."""
    first, *others = (field.key for field in RING.fields)
    told = f"or {', '.join(others)}: its outline, given as that of the base is"
    return {key: told if key == first else meaning for key, meaning in keys.items() if key not in others}


def _sections(table: Format, below: Mapping[str, list[str]]) -> dict[str, list[str]]:
    """For each top-level key its own meaning, and below it the keys that stand in its value."""
    return {field.key: [f"{field.doc[0].upper()}{field.doc[1:]}.", *below.get(field.key, [])] for field in table.fields}


def _base() -> list[str]:
    ready = {name: f"{kind.example}: {kind.what}" for name, kind in READY.items()}
    return [
        "One of corners, walk and ready gives the outline:",
        *_listed(_keys(BASE)),
        "Ready outlines with their sizes, such as ready: {rectangle: {wide: 4, high: 2}}",
        *_listed(ready),
    ]


def _pieces() -> list[str]:
    return [
        "Each has a marked side, which must meet a marked side of the base or of an earlier piece:",
        *_listed(_outline_in_one(_keys(PIECE))),
    ]


def _options() -> list[str]:
    slips = {
        name: brief + ("" if SLIPS[name].needs_piece else ", which needs no piece:")
        for name, brief in kind_named(DEFAULT_KIND).slips_in_brief().items()
    }
    return [
        "To have wrong ones made: options: {make: 4, seed: 7}",
        *_listed(_keys(MADE)),
        "To say them one by one: a list such as - {outline: result, slip: flipped, turned: 45}",
        *_listed(_outline_in_one(_keys(OPTION))),
        "Slips, each with piece: and a name",
        *_listed(slips),
    ]


def _accepted() -> list[str]:
    return [
        "Any of these kinds, as the command explainers check --certificate tells them:",
        *_listed(_WARNINGS),
    ]


def _parts() -> list[str]:
    return [
        *_listed(_keys(PART)),
        "Ways to show an item, after as:",
        *_listed(_MANNERS),
    ]


@cache
def key_remarks(kind: FileKind) -> Mapping[str, list[str]]:
    """For each top-level key of a format, in order, the lines that tell it and all the keys that stand below it."""
    below = {
        "item": {"base": _base(), "pieces": _pieces(), "options": _options(), "accepted": _accepted()},
        "lesson": {"parts": _parts()},
    }
    return _sections(FORMATS[kind], below.get(kind, {}))

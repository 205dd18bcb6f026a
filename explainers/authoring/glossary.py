"""The keys of each format as remarks of a file: every key with what it means, from the formats' own descriptions."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache
from textwrap import wrap

from ..document.format import Format
from ..intake.item_reader import format_of_kind
from ..intake.lesson_reader import LESSON, PART
from ..item.glossary import Explanation, keys_explained
from ..item.model import Manner
from ..item.option_reader import MADE
from ..item.series_reader import SERIES
from ..kinds.registry import kind_named

__all__ = ["item_remarks", "lesson_remarks", "remarks", "series_remarks"]

WIDTH = 100
_TERM = re.compile(r"\s+\S+\s+")  # a key in front of what it means

_MANNERS: dict[str, str] = {
    Manner.WORKED_EXAMPLE: "the question, then its whole solution",
    Manner.YOUR_TURN: "the question, a pause to try, then the same solution",
    Manner.QUESTION: "the question and the pause, nothing more",
    Manner.HINTS: "the question and the pause, then a hint at a time, never the answer",
    Manner.SOLUTION: "the solution of a question that was asked elsewhere",
    Manner.QUICK_CHECK: "the outline with the options beside it, nothing to work out first",
}


def remarks(lines: Iterable[str]) -> str:
    """Lines as remarks, long ones broken; what is broken off stands below where the words of its line begin."""
    told: list[str] = []
    for line in lines:
        term = _TERM.match(line)
        told += wrap(line, WIDTH, subsequent_indent=" " * (term.end() if term else 0))
    return "\n".join(f"# {line}".rstrip() for line in told)


def _sections(table: Format, below: Mapping[str, Explanation]) -> dict[str, list[str]]:
    """For each top-level key its own meaning, and below it what is told of its value."""
    return {
        field.key: [
            f"{field.doc[0].upper()}{field.doc[1:]}.",
            *(line for told in below.get(field.key, ()) for line in _lines(told)),
        ]
        for field in table.fields
    }


def _lines(told: str | Mapping[str, str]) -> list[str]:
    """A line as it is; terms with what they mean one below the other."""
    if isinstance(told, str):
        return [told]
    width = max(map(len, told))
    return [f"  {term:<{width}}  {meaning}" for term, meaning in told.items()]


@cache
def item_remarks(kind: str) -> Mapping[str, list[str]]:
    """For each top-level key of an item of a kind, in order, the lines that tell it and the keys below it."""
    below = kind_named(kind).key_glossary()
    made: Explanation = ("To have wrong ones made: options: {make: 4, seed: 7}", keys_explained(MADE))
    accepted: Explanation = (
        "Any of these kinds, as the command explainers check --certificate tells them:",
        kind_named(kind).keys.warnings,
    )
    every = {"options": (*made, *below.get("options", ())), "accepted": accepted}
    return _sections(format_of_kind(kind), {**below, **every})


@cache
def lesson_remarks() -> Mapping[str, list[str]]:
    """The remarks of a new lesson, by its keys."""
    return _sections(LESSON, {"parts": (keys_explained(PART), "Ways to show an item, after as:", _MANNERS)})


@cache
def series_remarks() -> Mapping[str, list[str]]:
    """The remarks of a new series, by its keys."""
    return _sections(SERIES, {})

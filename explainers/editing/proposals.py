"""What may mend a fault, found by where the fault stands: a key, a word, a number, an outline that is none.

Nothing here knows what the fault says, nor whether a proposal mends it: each is tried by whoever offers it, and only
one after which the fault is gone is offered. So more may be proposed here than is ever right.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from ..document.laid_out import Collection, Leaf
from ..geometry.rigid_motion import Ring
from ..geometry.rings import sides
from ..geometry.simple import meeting
from .outlines import ring_at
from .sheet import CannotEdit, Sheet

__all__ = ["Proposal", "leaf_text", "likest", "proposals_at", "slug_of"]

_NUMBER = re.compile(r"[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)")
_RING = re.compile(r"(.*?)(?:\.?(?:corners|walk|ready)(?:\[(\d+)\])?)?$")
_HOLE = re.compile(r"(.*holes)\[(\d+)\]")
_NO_SLUG = re.compile(r"[^a-z0-9]+")
_MOST_CORNERS = 16  # of an outline of which each corner is taken out in turn
_LIKE = 0.5

Command = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """Commands as a page asks for them, and what their button says."""

    words: str
    commands: tuple[Command, ...]
    group: str = ""  # of several ways to the same end, the first that works is offered
    plain: bool = False  # where it works it is what was meant: nothing else is offered
    alone: bool = False  # of its group none is offered where another one works too: nobody could say which is meant


def likest(word: str, known: Sequence[str], most: int = 2) -> list[str]:
    """Those of some words that are like a misspelt one, the likest first."""
    return get_close_matches(word.strip().lower().replace("_", "-"), known, n=most, cutoff=_LIKE)


def slug_of(text: str) -> str:
    """A text as a name: lower-case letters, digits, hyphens."""
    return _NO_SLUG.sub("-", text.lower()).strip("-")[:40].strip("-")


def leaf_text(sheet: Sheet, path: str) -> str:
    """The word, number or text at a field; "" for anything else."""
    try:
        found = sheet.value(path)
    except CannotEdit:
        return ""
    return found.text if isinstance(found, Leaf) else ""


def proposals_at(sheet: Sheet, field: str, words: Mapping[str, Sequence[str]]) -> Iterator[Proposal]:
    """What may mend a fault of any kind of question at a field.

    words : what may be written after a key
    """
    yield from _of_a_key(sheet, field)
    key = field.rpartition(".")[2]
    text = leaf_text(sheet, field)
    if key in words and text not in words[key]:
        yield from (_set(field, word, f"Write {word}", "word") for word in likest(text, words[key]))
    if text and (number := _NUMBER.search(text)) and number.group() != text:
        yield _set(field, number.group().replace(",", "."), f"Write {number.group()}", "number")
    if key in ("item", "name") and (name := slug_of(text)) and name != text:
        yield _set(field, name, f"Call it {name}", "name")
    yield from _of_an_outline(sheet, field)


def _set(field: str, value: str | float | None, words: str, group: str = "") -> Proposal:
    return Proposal(words=words, commands=({"do": "set", "at": field, "value": value},), group=group, plain=True)


def _of_a_key(sheet: Sheet, field: str) -> Iterator[Proposal]:
    """A key that there is not: the one that is like it, else none."""
    around, _, key = field.rpartition(".")
    try:
        known, entry, owner = sheet.keys_at(around), sheet.entry(field), sheet.value(around)
    except CannotEdit:
        return
    if entry is None or key in known or not known or key.endswith("]"):
        return
    there = {each.key.text for each in owner.entries if each.key} if isinstance(owner, Collection) else set()
    for near in likest(key, [each for each in known if each not in there]):
        yield Proposal(
            words=f"Write {near} for {key}",
            commands=({"do": "rename-key", "at": field, "key": near},),
            group="key",
            plain=True,
        )
    yield Proposal(words=f"Take {key} out", commands=({"do": "take-key-out", "at": field},), group="key")


def _of_an_outline(sheet: Sheet, field: str) -> Iterator[Proposal]:
    if hole := _HOLE.match(field):
        yield Proposal(words="Take the hole out", commands=({"do": "remove", "at": hole.group()},))
        at, corner = hole.group(), re.search(r"\]\[(\d+)\]$", field)
        number = corner.group(1) if corner else None
    else:
        match = _RING.match(field)
        assert match is not None  # everything in it may be missing
        at, number = match.group(1), match.group(2)
    try:
        ring = ring_at(sheet, at) if at else None
    except CannotEdit:
        return
    if ring is None:
        return
    if number is not None:
        yield _without(at, int(number), "corner")
    yield from _in_order(at, ring)
    if 3 < len(ring) <= _MOST_CORNERS:
        yield from (_without(at, each, "corner", alone=number is None) for each in range(len(ring)))


def _without(at: str, corner: int, group: str, *, alone: bool = False) -> Proposal:
    return Proposal(
        words=f"Take corner {corner + 1} out",
        commands=({"do": "remove-corner", "at": at, "corner": corner},),
        group=group,
        plain=not alone,
        alone=alone,
    )


def _in_order(at: str, ring: Ring) -> Iterator[Proposal]:
    """Two sides that cross no longer do so where the corners between them are gone round the other way."""
    if len(ring) > 4 * _MOST_CORNERS:
        return
    every = sides(ring)
    found = 0
    for first in range(len(every)):
        for second in range(first + 2, len(every)):
            if (second + 1) % len(every) == first or meeting(every[first], every[second], 1e-9) is None:
                continue
            order = (*ring[: first + 1], *reversed(ring[first + 1 : second + 1]), *ring[second + 1 :])
            yield Proposal(
                words="Put its corners in the order of a walk round it",
                commands=({"do": "set-corners", "at": at, "corners": [list(point) for point in order]},),
                group="order",
            )
            found += 1
            if found == 3:
                return

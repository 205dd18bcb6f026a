"""The sizes by which a walk or a ready outline is given: what each is, and how the corners move when it grows.

So a page can offer a grip for each, and the outline stays a walk or a ready one. Every size moves the corners in
proportion, but for counts, which have no grip.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ..document.fields import Faults, Table, number_of
from ..document.nodes import MapNode, Node, ScalarNode
from ..geometry.rigid_motion import Ring
from ..item.ready_outlines import READY
from ..item.ring_reader import ring_in
from ..item.walk_reader import DIRECTIONS, walk_of
from .numbers import number_text

__all__ = ["DrawnSize", "sizes_of", "walk_with"]

_LENGTH = r"(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?"
_WAY = "|".join(sorted(DIRECTIONS, key=len, reverse=True))
_STEP = re.compile(rf"(?<![\w.])({_WAY}|[-+]?{_LENGTH}\s*(?:deg|degrees|°))\s+({_LENGTH})")
_GROWN = 0.01  # of a size, to see how the corners move: in proportion, so that it does not matter by how much
_MOST = 40  # sizes of one outline; more grips than that nobody could tell apart


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnSize:
    """One number of a walk or a ready outline."""

    at: str  # the field of the outline
    name: str  # as the command calls it: the size of a ready outline, or which length of a walk, from 1
    words: str  # what it is
    value: float
    counts: bool = False
    moves: Ring = ()  # by how much each corner moves for each 1 that the size grows; () for a count
    hole: int | None = None

    def told(self) -> dict[str, Any]:
        """As JSON has it."""
        return {
            "at": self.at,
            "name": self.name,
            "words": self.words,
            "value": self.value,
            "counts": self.counts,
            "moves": [[round(x, 9) + 0.0, round(y, 9) + 0.0] for x, y in self.moves],
            "hole": self.hole,
        }


def sizes_of(node: Node | None, at: str, *, hole: int | None = None) -> Iterator[DrawnSize]:
    """The sizes of an outline that can be read whole; nothing for one whose corners are listed."""
    if not isinstance(node, MapNode):
        return
    typed = ring_in(Table(node, at, Faults()))
    if typed is None:
        return
    if "walk" in node.entries:
        yield from _of_walk(node.entries["walk"].value, at, hole)
    elif "ready" in node.entries:
        yield from _of_ready(node.entries["ready"].value, at, hole)


def walk_with(walk: str, name: str, value: str) -> str | None:
    """A walk with another length; None where it has no such one."""
    found = list(_STEP.finditer(walk))
    number = int(name) - 1 if name.isascii() and name.isdigit() and len(name) < 5 else -1
    if not 0 <= number < len(found):
        return None
    start, end = found[number].span(2)
    return walk[:start] + value + walk[end:]


def _of_walk(node: Node, at: str, hole: int | None) -> Iterator[DrawnSize]:
    if not isinstance(node, ScalarNode):
        return
    now = _walked(node.text)
    for number, step in enumerate(_STEP.finditer(node.text), start=1):
        if number > _MOST or now is None:
            return
        value = float(step[2])
        grown = value * (1 + _GROWN)
        other = _walked(walk_with(node.text, str(number), number_text(grown, 9)) or "")
        if value > 0 and other is not None and len(other) == len(now):
            moves = _moves(now, other, grown - value)
            yield DrawnSize(at=at, name=str(number), words=step[1], value=value, moves=moves, hole=hole)


def _walked(text: str) -> Ring | None:
    return walk_of(ScalarNode(text, True, 0), "", Faults(), start=(0.0, 0.0))


def _of_ready(node: Node, at: str, hole: int | None) -> Iterator[DrawnSize]:
    if not isinstance(node, MapNode) or len(node.entries) != 1:
        return
    name, entry = next(iter(node.entries.items()))
    kind = READY.get(name)
    if kind is None or not isinstance(entry.value, MapNode):
        return
    sizes = {key: number_of(each.value, "", Faults()) for key, each in entry.value.entries.items()}
    known: Mapping[str, float] = {key: value for key, value in sizes.items() if value is not None}
    now = kind.corners(known)
    for size in kind.sizes:
        if size.name not in known:
            continue
        value = known[size.name]
        if size.counts:
            yield DrawnSize(at=at, name=size.name, words=size.what, value=value, counts=True, hole=hole)
            continue
        grown = value * (1 + _GROWN)
        moves = _moves(now, kind.corners({**known, size.name: grown}), grown - value)
        yield DrawnSize(at=at, name=size.name, words=size.what, value=value, moves=moves, hole=hole)


def _moves(now: Ring, other: Ring, by: float) -> Ring:
    return tuple(((x - a) / by, (y - b) / by) for (a, b), (x, y) in zip(now, other, strict=True))

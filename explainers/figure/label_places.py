"""Room for labels that speak of a place and may stand anywhere near it: numbers of corners and sides, badges.

Each label has a few places in the order of liking; it takes the first that is clear of the labels placed before it and
of the lines drawn, or else the least bad one. Stage units, y up. (The letters of marks, which must stay free however
their piece is turned, are placed by ``letters``.)
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import TypeVar

from ..geometry.rigid_motion import Point, Side
from .layout import Box

__all__ = ["LabelPlaces", "around"]


_Thing = TypeVar("_Thing")
_Cells = dict[tuple[int, int], list[_Thing]]

_HIDDEN = 1e5  # what covering another label costs, a square unit
_CROSSED = 150.0  # what lying on a line costs, a unit of the line
_OUTSIDE = 1500.0  # what reaching over the edge costs, a unit
_LATER = 0.6  # what a less liked place costs
_APART = 0.02  # kept free between two labels
_CELL = 0.5


class LabelPlaces:
    """The labels of one picture, as they are placed."""

    def __init__(self, room: Box) -> None:
        """room : what may be written on"""
        self._room = room
        self._lines: _Cells[Side] = defaultdict(list)
        self._taken: _Cells[Box] = defaultdict(list)

    def cross(self, lines: Iterable[Side]) -> None:
        """Lines that labels had better not lie on."""
        for line in lines:
            (ax, ay), (bx, by) = line
            for cell in _cells(Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))):
                self._lines[cell].append(line)

    def take(self, box: Box) -> None:
        """Room that no label may have from then on."""
        for cell in _cells(box):
            self._taken[cell].append(box)

    def place(self, places: Sequence[Point], width: float, height: float) -> Point:
        """The middle of a label of that size, at the best of some places; it is taken from then on."""
        best, least = places[0], math.inf
        for rank, place in enumerate(places):
            if least <= _LATER * rank:
                break  # no later place can cost less
            cost = self._cost(place, width, height, least) + _LATER * rank
            if cost < least:
                best, least = place, cost
        self.take(_box(best, width + _APART, height + _APART))
        return best

    def _cost(self, at: Point, width: float, height: float, enough: float) -> float:
        """What a place costs, or any number that is enough to pass it over."""
        box, room = _box(at, width, height), self._room
        over = (room.left - box.left, room.bottom - box.bottom, box.right - room.right, box.top - room.top)
        cost = _OUTSIDE * max(0.0, *over)
        cells = tuple(_cells(box))
        # Once each, though one may reach over several cells; in a fixed order, so that sums come out the same.
        for other in dict.fromkeys(other for cell in cells for other in self._taken.get(cell, ())):
            if cost >= enough:
                return cost
            cost += _HIDDEN * _shared(box, other)
        for line in dict.fromkeys(line for cell in cells for line in self._lines.get(cell, ())):
            if cost >= enough:
                return cost
            cost += _CROSSED * _inside(line, box)
        return cost


def _cells(box: Box) -> Iterator[tuple[int, int]]:
    """The squares of a coarse grid that a box touches: only what shares one with a label can be in its way."""
    left, bottom, right, top = (math.floor(edge / _CELL) for edge in (box.left, box.bottom, box.right, box.top))
    return ((column, row) for column in range(left, right + 1) for row in range(bottom, top + 1))


def around(at: Point, towards: Point, distances: Iterable[float], leans_deg: Iterable[float]) -> tuple[Point, ...]:
    """Places about a point, nearer ones first: in a direction, then leaning away from it to either side.

    towards : a vector of any length but 0
    """
    bearing = math.atan2(towards[1], towards[0])
    leans = tuple(leans_deg)
    return tuple(
        (at[0] + distance * math.cos(bearing + lean), at[1] + distance * math.sin(bearing + lean))
        for distance in distances
        for lean in map(math.radians, leans)
    )


def _box(at: Point, width: float, height: float) -> Box:
    return Box(at[0] - width / 2, at[1] - height / 2, at[0] + width / 2, at[1] + height / 2)


def _shared(one: Box, other: Box) -> float:
    across = min(one.right, other.right) - max(one.left, other.left)
    up = min(one.top, other.top) - max(one.bottom, other.bottom)
    return across * up if across > 0.0 and up > 0.0 else 0.0


def _inside(line: Side, box: Box) -> float:
    """How much of a line lies in a box: clipped to each of its four edges in turn (Liang and Barsky 1984)."""
    (ax, ay), (bx, by) = line
    dx, dy = bx - ax, by - ay
    start, end = 0.0, 1.0
    for step, gap in ((-dx, ax - box.left), (dx, box.right - ax), (-dy, ay - box.bottom), (dy, box.top - ay)):
        if step == 0.0:
            if gap < 0.0:
                return 0.0
        elif step < 0.0:
            start = max(start, gap / step)
        else:
            end = min(end, gap / step)
    return math.hypot(dx, dy) * (end - start) if end > start else 0.0

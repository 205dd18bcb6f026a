"""Ways round an outline: along which ring, from where, and what comes on it.

A way goes clockwise from a place that there is only once, so that it is found again however the outline is turned. It
goes round the outer edge, or round a hole that is known by itself: the only one, the largest, the smallest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring, Side
from ..geometry.rings import centroid, sides
from .sieves.corner_kinds import Corner, CornerKind
from .walk_places import (
    LEAST_SEEN,
    LEAST_WALKED,
    LONGER,
    NEARER,
    Looks,
    Round,
    beside,
    hole_meant,
    holes_meant,
    is_apart,
    long_beside,
    nearest,
    off_side,
    only,
    outstanding,
    sharpest,
)

__all__ = [
    "ALONG_A_SIDE", "GOALS", "MOST", "ORDINALS", "Feature", "Start", "Telling", "Way", "features", "tellings", "way",
]  # fmt: skip

MOST = 3  # features named on a way


class Start(StrEnum):
    """Where a way begins: what there is only one of."""

    INWARD = "inward"
    SHARP = "sharp"
    RIGHT = "right"
    WIDE = "wide"
    LONGEST = "longest"  # walked along first
    SHORTEST = "shortest"  # walked along first
    SHARPEST = "sharpest"
    AT_HOLE = "at-hole"  # the corner of the outer edge that is nearest to the only hole
    AT_LARGEST = "at-largest-hole"
    AT_SMALLEST = "at-smallest-hole"
    AT_TRIANGLE = "at-triangular-hole"
    AT_ANY = "at-a-hole"  # that is nearest to any of several
    BY_HOLE = "by-hole"  # along the side of the outer edge that is nearest to the only hole
    BY_LARGEST = "by-largest-hole"
    BY_SMALLEST = "by-smallest-hole"
    BY_TRIANGLE = "by-triangular-hole"
    BY_ANY = "by-a-hole"
    LONG_BY_HOLE = "long-by-hole"  # along that of the two longest sides which is the nearer to the only hole


class Feature(StrEnum):
    """What comes on a way."""

    INWARD = "inward"
    SHARP = "sharp"
    RIGHT = "right"
    WIDE = "wide"
    LONGER = "longer"  # the longer of the two sides at the start
    SHORTER = "shorter"
    NEARER = "nearer"  # the nearer of these two to the hole that is spoken of
    FARTHER = "farther"
    NEXT_LONGER = "next-longer"  # the longer of the two sides beside the one that is walked along first
    NEXT_SHORTER = "next-shorter"
    NEXT_NEARER = "next-nearer"  # the nearer of these two to the only hole
    NEXT_FARTHER = "next-farther"
    FIRST = "1st"  # how many corners on the goal comes
    SECOND = "2nd"
    THIRD = "3rd"
    FOURTH = "4th"
    FIFTH = "5th"


ORDINALS = (Feature.FIRST, Feature.SECOND, Feature.THIRD, Feature.FOURTH, Feature.FIFTH)


class Telling(StrEnum):
    """By what a way is told."""

    CORNERS = "corners"
    LENGTHS = "lengths"
    HOLE = "hole"
    NEXT_LENGTHS = "next-lengths"
    NEXT_HOLE = "next-hole"
    REACH = "reach"  # how many corners on another place comes that there is once


# The hole from which a corner or a side is told.
_NEAREST_TO = {
    Start.AT_HOLE: Round.HOLE,
    Start.AT_LARGEST: Round.LARGEST,
    Start.AT_SMALLEST: Round.SMALLEST,
    Start.AT_TRIANGLE: Round.TRIANGLE,
    Start.AT_ANY: Round.ANY,
}
_BESIDE = {
    Start.BY_HOLE: Round.HOLE,
    Start.BY_LARGEST: Round.LARGEST,
    Start.BY_SMALLEST: Round.SMALLEST,
    Start.BY_TRIANGLE: Round.TRIANGLE,
    Start.BY_ANY: Round.ANY,
}
ALONG_A_SIDE = frozenset({Start.LONGEST, Start.SHORTEST, Start.LONG_BY_HOLE, *_BESIDE})
GOALS = tuple(start for start in Start if start not in ALONG_A_SIDE)  # corners that a way may lead to


@dataclass(frozen=True, slots=True)
class Way:
    """Corners in the order in which they come, the start first; what each is seen to be; the hole spoken of, if any."""

    points: tuple[Point, ...]
    corners: tuple[Corner, ...]
    hole: Ring | None = None
    goal: Point | None = None  # the corner that it leads to, if any
    only: Ring | None = None  # the only hole, if the way goes along the outer edge

    @property
    def ends(self) -> tuple[Side, Side]:
        """The side along which it starts, and the one on the other side of its start."""
        return (self.points[0], self.points[1]), (self.points[0], self.points[-1])

    @property
    def beside(self) -> tuple[Side, Side]:
        """Of a way that begins along a side: the side that comes next, and the one on the other side of it."""
        return (self.points[1], self.points[2]), (self.points[0], self.points[-1])


def way(outline: Outline, along: Round, start: Start, looks: Looks, goal: Start | None = None) -> Way | None:
    """Clockwise from the start; None where there is no such ring, start or goal, or more, or it is not clear."""
    led = None if goal is None else way(outline, along, goal, looks)
    if goal is not None and led is None:
        return None
    ring = outline.exterior if along is Round.EDGE else hole_meant(outline, along, LEAST_WALKED)
    if ring is None or (along is not Round.EDGE and (start in _NEAREST_TO or start in _BESIDE)):
        return None
    corners = looks.corners(Outline.of(ring))[::-1]
    if along is not Round.EDGE and any(corner.kind is CornerKind.INWARD for corner in corners):
        return None  # what points into a hole is not what points into the shape
    points = tuple(corner.at for corner in corners)
    found: tuple[int, Ring | None] | None
    if start in _NEAREST_TO:
        found = nearest(points, holes_meant(outline, _NEAREST_TO[start]), looks)
    elif start in _BESIDE:
        found = beside(sides(points), holes_meant(outline, _BESIDE[start]), looks)
    elif start is Start.LONG_BY_HOLE:
        found = long_beside(points, holes_meant(outline, Round.HOLE), looks) if along is Round.EDGE else None
    elif start is Start.SHARPEST:
        found = sharpest(points[::-1], looks)
        found = None if found is None else (len(points) - 1 - found[0], None)
    elif start in ALONG_A_SIDE:
        found = outstanding(points, longest=start is Start.LONGEST)
    else:
        found = only(corners, CornerKind(start.value))
    if found is None:
        return None
    at, hole = found
    at_start = (at, (at + 1) % len(corners)) if start in ALONG_A_SIDE else (at,)
    if not all(corners[index].is_clear for index in at_start):
        return None
    end = None if led is None else led.points[0]
    alone = hole_meant(outline, Round.HOLE, LEAST_SEEN) if along is Round.EDGE else None
    return Way(points[at:] + points[:at], corners[at:] + corners[:at], hole, end, alone)


def features(found: Way, telling: Telling, count: int, looks: Looks) -> tuple[Feature, ...] | None:
    """What comes on a way; None where that is not plain at a glance.

    count : how many corners
    """
    match telling:
        case Telling.CORNERS:
            named = [corner.looks for corner in found.corners[1 : count + 1]]
            return None if None in named else tuple(Feature(kind.value) for kind in named if kind is not None)
        case Telling.LENGTHS if _are_clear(found, 0, 1, -1):
            return _of_two(_longer(found.ends), Feature.LONGER, Feature.SHORTER)
        case Telling.NEXT_LENGTHS if _are_clear(found, 0, 1, 2, -1):
            return _of_two(_longer(found.beside), Feature.NEXT_LONGER, Feature.NEXT_SHORTER)
        case Telling.HOLE if found.hole is not None and _are_clear(found, 0, 1, -1):
            return _of_two(_nearer(found.ends, found.hole, looks), Feature.NEARER, Feature.FARTHER)
        case Telling.NEXT_HOLE if found.only is not None and _are_clear(found, 0, 1, 2, -1):
            return _of_two(_nearer(found.beside, found.only, looks), Feature.NEXT_NEARER, Feature.NEXT_FARTHER)
        case Telling.REACH:
            at = found.points.index(found.goal) if found.goal is not None else 0
            if not 1 <= at <= len(ORDINALS) or not all(corner.is_clear for corner in found.corners[: at + 1]):
                return None
            return (ORDINALS[at - 1],)
    return None


def _of_two(is_first: bool | None, first: Feature, other: Feature) -> tuple[Feature] | None:
    return None if is_first is None else (first if is_first else other,)


def _longer(two: tuple[Side, Side]) -> bool | None:
    """Whether the first of two sides is the longer; None where that is not seen at a glance."""
    first, last = (math.dist(*side) for side in two)
    return first > last if is_apart(first, last, LONGER) else None


def _nearer(two: tuple[Side, Side], hole: Ring, looks: Looks) -> bool | None:
    """Whether the first of two sides is the nearer to a hole; None where that is not seen at a glance."""
    first, last = (off_side(side, hole, looks) for side in two)
    middles = [looks.off(centroid(hole), side) for side in two]
    if not is_apart(first, last, NEARER) or (first < last) is not (middles[0] < middles[1]):
        return None
    return first < last


def tellings(found: Way, start: Start, looks: Looks) -> Iterator[tuple[Telling, int]]:
    """By what, and by how many features, a way is told from itself flipped, best first."""
    over = _flipped(found, start)

    def differs(telling: Telling, count: int) -> bool:
        both = [features(each, telling, count, looks) for each in (found, over)]
        return None not in both and both[0] != both[1]

    if found.goal is not None:
        if differs(Telling.REACH, 1):
            yield Telling.REACH, 1
        return
    count = next((n for n in range(1, MOST + 1) if differs(Telling.CORNERS, n)), None)
    if count is not None and count < len(found.points) - 1:
        more = min(MOST, max(2, count), len(found.points) - 2)
        yield Telling.CORNERS, more if differs(Telling.CORNERS, more) else count
    sided = (Telling.NEXT_LENGTHS, Telling.NEXT_HOLE) if start in ALONG_A_SIDE else (Telling.LENGTHS, Telling.HOLE)
    for telling in sided:
        if differs(telling, 1):
            yield telling, 1


def _flipped(found: Way, start: Start) -> Way:
    """The same way the other way round: what it is on the flipped outline."""
    turn = 1 if start in ALONG_A_SIDE else 0  # from the other end of that side
    points, corners = found.points[::-1], found.corners[::-1]
    at = len(points) - 1 - turn
    return Way(points[at:] + points[:at], corners[at:] + corners[:at], found.hole, found.goal, found.only)


def _are_clear(found: Way, *numbers: int) -> bool:
    """Whether the corners of these numbers are seen at a glance, so that the sides between them begin and end there."""
    return all(found.corners[number].is_clear for number in numbers)

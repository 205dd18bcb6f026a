"""Stretches of straight sides: which of a side is left beside what others take of it, and where a length has room.

Everything is in item units. A stretch is a side, or a part of one, in the side's own direction.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from .locate import distance_to_side
from .rigid_motion import Point, Side

__all__ = ["free_stretches", "nearest_stretch", "overlap"]


def free_stretches(side: Side, taken: Iterable[Side], tolerance: float) -> list[Side]:
    """What is left of a side beside those of ``taken`` that lie along it, each longer than the tolerance."""
    length = math.dist(*side)
    spans = sorted(span for other in taken if (span := _span(side, other, tolerance)) is not None)
    begin, free = 0.0, list[Side]()
    for start, end in [*spans, (length, length)]:
        if start - begin > tolerance:
            free.append((_at(side, begin), _at(side, start)))
        begin = max(begin, end)
    return free


def overlap(side: Side, other: Side, tolerance: float) -> bool:
    """Whether two sides lie on one line and share more than a point."""
    return _span(side, other, tolerance) is not None


def nearest_stretch(
    near: Side, sides: Iterable[Side], taken: Sequence[Side], length: float | None, tolerance: float
) -> Side | None:
    """The stretch most like ``near`` among those of some sides that are not taken; None where there is none.

    length : that it must have, found on a longer one; None for a whole stretch
    """
    found = [
        part
        for side in sides
        for stretch in free_stretches(side, taken, tolerance)
        for part in _parts(stretch, near, length, tolerance)
    ]
    return min(found, key=lambda part: _apart(near, part), default=None)


def _parts(stretch: Side, near: Side, length: float | None, tolerance: float) -> Iterator[Side]:
    """The whole of a stretch, or its parts of a length at either end and about where they are wanted."""
    whole = math.dist(*stretch)
    if length is None or abs(whole - length) <= tolerance:
        yield stretch
        return
    room = whole - length
    if room > 0.0:
        wanted = (_along(stretch, near[0]), _along(stretch, near[1]), _along(stretch, near[0]) - length)
        for start in {0.0, room, *(each for each in wanted if 0.0 <= each <= room)}:
            yield _at(stretch, start), _at(stretch, start + length)


def _span(side: Side, other: Side, tolerance: float) -> tuple[float, float] | None:
    """From where to where on a side another one lies along it; None where they share no more than a point."""
    start, end = sorted(_along(side, point) for point in other)
    start, end = max(start, 0.0), min(end, math.dist(*side))
    if end - start <= tolerance:
        return None
    on_both = all(distance_to_side(_at(side, at), other) <= tolerance for at in (start, end))
    return (start, end) if on_both else None


def _along(side: Side, point: Point) -> float:
    """How far along a side's line a point is, from the side's start."""
    (ax, ay), (bx, by) = side
    return ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / math.dist(*side)


def _at(side: Side, distance: float) -> Point:
    (ax, ay), (bx, by) = side
    part = distance / math.dist(*side)
    return ax + part * (bx - ax), ay + part * (by - ay)


def _apart(one: Side, other: Side) -> float:
    """How far the ends of two sides are from each other, whichever way round they run."""
    straight = math.dist(one[0], other[0]) + math.dist(one[1], other[1])
    return min(straight, math.dist(one[0], other[1]) + math.dist(one[1], other[0]))

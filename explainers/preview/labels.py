"""Where the numbers of corners and sides, and the letters of marks, find room in a picture.

Each label has a few places in the order of liking; it takes the first that is clear of the labels placed before it and
of the lines drawn, or else the least bad one. All in pixels.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from ..geometry.rigid_motion import Point

__all__ = ["Labels", "around"]

Segment = tuple[Point, Point]

_HIDDEN = 40.0  # what covering another label costs, a square pixel
_CROSSED = 3.0  # what lying on a line costs, a pixel of the line
_OUTSIDE = 30.0  # what reaching over the edge costs, a pixel
_LATER = 0.6  # what a less liked place costs


@dataclass(slots=True)
class Labels:
    """The labels of one picture, as they are placed."""

    room: tuple[float, float, float, float]  # left, top, right, bottom
    lines: list[Segment] = field(default_factory=list)
    taken: list[tuple[float, float, float, float]] = field(default_factory=list)

    def place(self, places: Sequence[Point], width: float, height: float) -> Point:
        """The middle of a label of that size, at the best of some places; it is taken from then on."""
        ranked = [(self._cost(place, width, height) + _LATER * rank, place) for rank, place in enumerate(places)]
        _, best = min(ranked)
        self.taken.append(_box(best, width + 1.0, height + 1.0))
        return best

    def _cost(self, at: Point, width: float, height: float) -> float:
        left, top, right, bottom = box = _box(at, width, height)
        room_left, room_top, room_right, room_bottom = self.room
        over = max(0.0, room_left - left, room_top - top, right - room_right, bottom - room_bottom)
        return (
            _OUTSIDE * over
            + _HIDDEN * sum(_shared(box, other) for other in self.taken)
            + _CROSSED * sum(_inside(line, box) for line in self.lines)
        )


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


def _box(at: Point, width: float, height: float) -> tuple[float, float, float, float]:
    return at[0] - width / 2, at[1] - height / 2, at[0] + width / 2, at[1] + height / 2


def _shared(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> float:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across * down if across > 0.0 and down > 0.0 else 0.0


def _inside(line: Segment, box: tuple[float, float, float, float]) -> float:
    """How much of a line lies in a box: clipped to each of its four edges in turn (Liang and Barsky 1984)."""
    (ax, ay), (bx, by) = line
    dx, dy = bx - ax, by - ay
    start, end = 0.0, 1.0
    for step, gap in ((-dx, ax - box[0]), (dx, box[2] - ax), (-dy, ay - box[1]), (dy, box[3] - ay)):
        if step == 0.0:
            if gap < 0.0:
                return 0.0
        elif step < 0.0:
            start = max(start, gap / step)
        else:
            end = min(end, gap / step)
    return math.hypot(dx, dy) * (end - start) if end > start else 0.0

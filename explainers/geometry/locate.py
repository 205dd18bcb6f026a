"""Where points and sides lie on the rings of an outline.

Distances are in item units. "On" always means "within the given tolerance of". Everything here is plain arithmetic,
so that facts can be recomputed by another way than the overlay that they speak of.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from .outline import Outline
from .rigid_motion import Point, Ring, Side
from .rings import point_in_polygon, sides

__all__ = ["SideSpan", "contains", "distance_to_boundary", "distance_to_side", "nearest_corner", "span_on"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SideSpan:
    """A side, or a part of one, found on a ring."""

    whole: Side  # the ring's side, as the ring runs
    part: Side  # the span on it, in the same direction: projected, and drawn to its ends where they are near
    forward: bool  # whether the span was given in the direction in which the ring runs

    @property
    def is_part(self) -> bool:
        """Whether the span leaves some of the side over."""
        return self.part != self.whole


def _foot(point: Point, side: Side) -> tuple[float, Point]:
    """(how far along the side as a fraction 0..1, the nearest point of the side)."""
    (ax, ay), (bx, by) = side
    dx, dy = bx - ax, by - ay
    squared = dx * dx + dy * dy
    if squared == 0.0:
        return 0.0, side[0]
    along = max(0.0, min(1.0, ((point[0] - ax) * dx + (point[1] - ay) * dy) / squared))
    if along == 0.0 or along == 1.0:
        return along, side[int(along)]
    return along, (ax + along * dx, ay + along * dy)


def distance_to_side(point: Point, side: Side) -> float:
    """Distance of a point from a side."""
    return math.dist(point, _foot(point, side)[1])


def distance_to_boundary(point: Point, outline: Outline) -> float:
    """Distance of a point from the nearest side of any ring."""
    return min(distance_to_side(point, side) for side in outline.sides)


def nearest_corner(point: Point, corners: Iterable[Point]) -> tuple[float, Point]:
    """(distance, corner) of the nearest of some corners."""
    return min((math.dist(point, corner), corner) for corner in corners)


def span_on(rings: Iterable[Ring], side: Side, tolerance: float) -> SideSpan | None:
    """The ring side on which both ends of a given side lie, or None.

    side    : two points in either order
    Returns : the nearest such ring side; None too where the two points are one
    """
    return _span_on(tuple(rings), side, tolerance)


# A pure function of short tuples: laying the pieces of an item in many ways asks for the same marks again and again.
@lru_cache(maxsize=4096)
def _span_on(rings: tuple[Ring, ...], side: Side, tolerance: float) -> SideSpan | None:
    best: tuple[float, SideSpan] | None = None
    for ring in rings:
        for whole in sides(ring):
            if not _on_line(side, whole, tolerance):
                continue
            ends = []
            worst = 0.0
            for point in side:
                along, foot = _foot(point, whole)
                worst = max(worst, math.dist(point, foot))
                corner_distance, corner = nearest_corner(point, whole)
                if corner_distance <= tolerance:
                    along, foot = float(whole.index(corner)), corner
                ends.append((along, foot))
            if worst > tolerance or ends[0][1] == ends[1][1] or (best is not None and worst >= best[0]):
                continue
            forward = ends[0][0] < ends[1][0]
            first, last = ends if forward else ends[::-1]
            best = (worst, SideSpan(whole=whole, part=(first[1], last[1]), forward=forward))
    return None if best is None else best[1]


def _on_line(side: Side, whole: Side, tolerance: float) -> bool:
    """Whether both ends lie near the straight line through a ring's side: quick to ask, and most sides fail."""
    (ax, ay), (bx, by) = whole
    dx, dy = bx - ax, by - ay
    reach = tolerance * (math.hypot(dx, dy) + tolerance)
    (px, py), (qx, qy) = side
    return abs((px - ax) * dy - (py - ay) * dx) <= reach and abs((qx - ax) * dy - (qy - ay) * dx) <= reach


def contains(outline: Outline, point: Point) -> bool:
    """Whether a point lies inside the material; on a side, either answer."""
    return point_in_polygon(point, outline.rings)

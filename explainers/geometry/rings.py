"""Closed outlines as rings: area, orientation, sides, corners.

A ring is a tuple of points, y up, first point not repeated. Side i runs from corner i to corner i + 1. A ring is
*forward* when its inside lies to the left of every side (anticlockwise).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache
from itertools import combinations

from .angles import bearing_deg
from .rigid_motion import Point, Ring, Side

__all__ = [
    "centroid",
    "diameter",
    "extent",
    "interior_angles_deg",
    "larger_extent",
    "perimeter",
    "point_in_polygon",
    "shortest_side",
    "sides",
    "signed_area",
    "without_needless_corners",
]


# Pure functions of rings, which are short: remembering an answer costs a tenth of finding it, and solving one item asks
# for the same few over and over.
_REMEMBERED = 4096


@lru_cache(maxsize=_REMEMBERED)
def signed_area(ring: Ring) -> float:
    """Area of a simple ring, positive when it runs anticlockwise; the shoelace formula, about the first corner."""
    x0, y0 = ring[0]
    return 0.5 * math.fsum((ax - x0) * (by - y0) - (bx - x0) * (ay - y0) for (ax, ay), (bx, by) in sides(ring))


def sides(ring: Ring) -> tuple[Side, ...]:
    """Each side as (start, end), the last one closing the ring."""
    return tuple(zip(ring, ring[1:] + ring[:1], strict=True))


@lru_cache(maxsize=_REMEMBERED)
def perimeter(ring: Ring) -> float:
    """Sum of the lengths of the sides."""
    return math.fsum(math.dist(start, end) for start, end in sides(ring))


def shortest_side(rings: Iterable[Ring]) -> float:
    """Length of the shortest side of any ring."""
    return min(math.dist(start, end) for ring in rings for start, end in sides(ring))


@lru_cache(maxsize=_REMEMBERED)
def diameter(ring: Ring) -> float:
    """The largest distance between two corners: however the ring is turned, it is no wider or higher."""
    return max(math.dist(one, other) for one, other in combinations(ring, 2))


def point_in_polygon(point: Point, rings: Iterable[Ring]) -> bool:
    """Whether a point lies inside what some rings bound together, in whichever direction each runs.

    By the even-odd rule: a ray to the right crosses the sides an odd number of times. What lies inside a hole is
    outside, and inside again in a ring within the hole. A point on a side is judged either way: keep clear of it.
    """
    x, y = point
    inside = False
    for ring in rings:
        for (ax, ay), (bx, by) in sides(ring):
            # Multiplied before it is divided: exact where the corners and the crossing are whole numbers.
            if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
                inside = not inside
    return inside


def centroid(ring: Ring) -> Point:
    """Centre of gravity of the area inside a simple ring."""
    x0, y0 = ring[0]
    doubled = cx = cy = 0.0
    for (ax, ay), (bx, by) in sides(ring):
        cross = (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
        doubled += cross
        cx += cross * (ax + bx - 2 * x0)
        cy += cross * (ay + by - 2 * y0)
    return (x0 + cx / (3 * doubled), y0 + cy / (3 * doubled))


def extent(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """(left, bottom, right, top) of the smallest upright rectangle that holds a ring, or any points.

    Raises : ValueError where there are none
    """
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


@lru_cache(maxsize=_REMEMBERED)
def larger_extent(ring: Ring) -> float:
    """The larger of width and height."""
    left, bottom, right, top = extent(ring)
    return max(right - left, top - bottom)


@lru_cache(maxsize=_REMEMBERED)
def interior_angles_deg(ring: Ring) -> tuple[float, ...]:
    """Angle on the left-hand side of the walk at each corner, in [0, 360), in the order of the corners.

    For a forward ring that is the inside of the outline; for a hole walked with the material on the left it is the
    angle of material around that corner.
    """
    angles = []
    for before, corner, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True):
        angles.append((bearing_deg(corner, before) - bearing_deg(corner, after)) % 360.0)
    return tuple(angles)


@lru_cache(maxsize=_REMEMBERED)
def without_needless_corners(ring: Ring, tolerance: float) -> Ring:
    """The ring without repeated corners and without corners that lie on the straight line between their neighbours.

    The corner that lies nearest to its neighbours' line goes first, one at a time: dropping all at once could eat a
    gently curved run of corners whole.
    """
    if not _may_have_needless(ring, tolerance):
        return ring
    kept = list(ring)
    while len(kept) > 3:
        height, index = min((_height(kept, i), i) for i in range(len(kept)))
        if height > tolerance:
            break
        del kept[index]
    return tuple(kept)


def _may_have_needless(ring: Ring, tolerance: float) -> bool:
    """Whether a corner lies near the line through its neighbours: quick to ask, and most rings have none."""
    ax, ay = ring[-2]
    px, py = ring[-1]
    for bx, by in ring:
        dx, dy = bx - ax, by - ay
        if abs((px - ax) * dy - (py - ay) * dx) <= tolerance * (math.sqrt(dx * dx + dy * dy) + tolerance):
            return True
        ax, ay, px, py = px, py, bx, by
    return False


def _height(ring: list[Point], index: int) -> float:
    """Distance of a corner from the straight line between its neighbours (a spike's tip is as far as it is long)."""
    (ax, ay), (px, py), (bx, by) = ring[index - 1], ring[index], ring[(index + 1) % len(ring)]
    dx, dy = bx - ax, by - ay
    squared = dx * dx + dy * dy
    along = 0.0 if squared == 0.0 else max(0.0, min(1.0, ((px - ax) * dx + (py - ay) * dy) / squared))
    return math.hypot(px - ax - along * dx, py - ay - along * dy)

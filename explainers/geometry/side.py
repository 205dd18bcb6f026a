"""One side: its middle, points along it, its direction, the direction of its left.

A side is a pair of points, (start, end). Nothing here asks on which ring it is.
"""

from __future__ import annotations

import math

from .rigid_motion import Point, Side

__all__ = ["is_one_side", "left_normal", "midpoint", "point_along", "unit_vector"]


def midpoint(side: Side) -> Point:
    """The point half way along."""
    (ax, ay), (bx, by) = side
    return (ax + bx) / 2, (ay + by) / 2


def point_along(side: Side, fraction: float) -> Point:
    """The point at this fraction of the way along: 0 is the start, 1 the end (to within rounding)."""
    (ax, ay), (bx, by) = side
    return ax + fraction * (bx - ax), ay + fraction * (by - ay)


def unit_vector(side: Side) -> Point:
    """The vector of length 1 that points from start to end.

    Raises : ZeroDivisionError where the two ends are one point
    """
    (ax, ay), (bx, by) = side
    length = math.dist(*side)
    return (bx - ax) / length, (by - ay) / length


def left_normal(side: Side) -> Point:
    """The unit vector turned a quarter anticlockwise: to the left of the walk from start to end."""
    x, y = unit_vector(side)
    return -y, x


def is_one_side(side: Side, other: Side, tolerance: float) -> bool:
    """Whether two sides have the same ends, walked the same way."""
    return all(math.dist(*ends) <= tolerance for ends in zip(side, other, strict=True))

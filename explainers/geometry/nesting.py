"""How two simple rings lie to each other: apart, one inside the other, touching or crossing.

Nearer than the tolerance counts as touching.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .rigid_motion import Point, Ring
from .rings import sides
from .simple import ContactKind, distance_to_side, meeting

__all__ = ["Nesting", "Relation", "inside", "relation"]


class Nesting(StrEnum):
    """How the second ring lies to the first."""

    APART = "apart"
    WITHIN = "within"
    AROUND = "around"
    TOUCHES_INSIDE = "touches inside"  # no point of the second ring is outside the first
    TOUCHES_OUTSIDE = "touches outside"  # no point of the second ring is inside the first
    CROSSES = "crosses"


@dataclass(frozen=True, slots=True)
class Relation:
    """How the second ring lies to the first, with a point that shows it where the two meet."""

    kind: Nesting
    point: Point | None = None


def inside(point: Point, ring: Ring) -> bool:
    """Whether a point lies inside a simple ring, by the sides that a ray to the right of it crosses.

    A point on the ring itself is judged either way: keep clear of it.
    """
    x, y = point
    odd = False
    for (ax, ay), (bx, by) in sides(ring):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def relation(first: Ring, second: Ring, tolerance: float) -> Relation:
    """How the second ring lies to the first; both simple, in either direction."""
    contact = None
    for one in sides(first):
        for other in sides(second):
            found = meeting(one, other, tolerance)
            if found is not None and found.kind is ContactKind.CROSSES:
                return Relation(Nesting.CROSSES, found.point)
            contact = contact or found
    if contact is None:
        if inside(second[0], first):
            return Relation(Nesting.WITHIN)
        return Relation(Nesting.AROUND if inside(first[0], second) else Nesting.APART)
    # Points of the second ring clear of the first say on which side of it they lie; middles of sides serve where
    # every corner touches.
    clear = [point for point in _walk(second) if _clearance(point, first) > tolerance]
    within = [point for point in clear if inside(point, first)]
    outside = [point for point in clear if point not in within]
    if within and outside:
        return Relation(Nesting.CROSSES, outside[0])
    return Relation(Nesting.TOUCHES_OUTSIDE if outside else Nesting.TOUCHES_INSIDE, contact.point)


def _walk(ring: Ring) -> list[Point]:
    middles = [((ax + bx) / 2, (ay + by) / 2) for (ax, ay), (bx, by) in sides(ring)]
    return [point for pair in zip(ring, middles, strict=True) for point in pair]


def _clearance(point: Point, ring: Ring) -> float:
    return min(distance_to_side(point, *side) for side in sides(ring))

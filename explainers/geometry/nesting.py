"""How two simple rings lie to each other: apart, one inside the other, touching or crossing.

Nearer than the tolerance counts as touching.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .locate import distance_to_side
from .rigid_motion import Point, Ring
from .rings import sides
from .simple import ContactKind, meeting

__all__ = ["Nesting", "Relation", "inside", "relation"]


class Nesting(StrEnum):
    """How the second ring lies to the first."""

    APART = "apart"
    WITHIN = "within"
    AROUND = "around"
    TOUCHES_INSIDE = "touches inside"  # no point of the second ring is outside the first
    TOUCHES_OUTSIDE = "touches outside"  # no point of the second ring is inside the first
    CROSSES = "crosses"  # or holds the first, touching it


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
    within, outside = _on_either_side(second, first, tolerance)
    if within and outside:
        return Relation(Nesting.CROSSES, outside[0])
    if not outside:
        return Relation(Nesting.TOUCHES_INSIDE, contact.point)
    # The second ring keeps outside the first, yet may enclose a part of it or all of it.
    enclosed, _ = _on_either_side(first, second, tolerance)
    return Relation(Nesting.CROSSES, outside[0]) if enclosed else Relation(Nesting.TOUCHES_OUTSIDE, contact.point)


def _on_either_side(walked: Ring, ring: Ring, tolerance: float) -> tuple[list[Point], list[Point]]:
    """Points of one ring that lie inside another, and that lie outside it, those near the other left out.

    Middles of sides serve where every corner touches.
    """
    clear = [point for point in _walk(walked) if _clearance(point, ring) > tolerance]
    within = [point for point in clear if inside(point, ring)]
    return within, [point for point in clear if point not in within]


def _walk(ring: Ring) -> list[Point]:
    middles = [((ax + bx) / 2, (ay + by) / 2) for (ax, ay), (bx, by) in sides(ring)]
    return [point for pair in zip(ring, middles, strict=True) for point in pair]


def _clearance(point: Point, ring: Ring) -> float:
    return min(distance_to_side(point, side) for side in sides(ring))

"""How two simple rings lie to each other: apart, one inside the other, touching or crossing.

Nearer than the tolerance counts as touching.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from .locate import distance_to_side
from .rigid_motion import Point, Ring
from .rings import point_in_polygon, sides, signed_area
from .side import midpoint
from .simple import ContactKind, meeting

__all__ = ["Nesting", "Relation", "alternately_wound", "relation"]


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
        if point_in_polygon(second[0], (first,)):
            return Relation(Nesting.WITHIN)
        return Relation(Nesting.AROUND if point_in_polygon(first[0], (second,)) else Nesting.APART)
    within, outside = _on_either_side(second, first, tolerance)
    if within and outside:
        return Relation(Nesting.CROSSES, outside[0])
    if not outside:
        return Relation(Nesting.TOUCHES_INSIDE, contact.point)
    # The second ring keeps outside the first, yet may enclose a part of it or all of it.
    enclosed, _ = _on_either_side(first, second, tolerance)
    return Relation(Nesting.CROSSES, outside[0]) if enclosed else Relation(Nesting.TOUCHES_OUTSIDE, contact.point)


def alternately_wound(rings: Sequence[Ring]) -> list[Ring]:
    """The rings in order, outer ones anticlockwise, holes clockwise, what lies inside a hole anticlockwise again.

    With these directions filling by winding number gives the picture that the even-odd rule gives.
    """
    wound = []
    for index, ring in enumerate(rings):
        # The middle of a side, not a corner: rings may touch at corners.
        is_hole = point_in_polygon(midpoint((ring[0], ring[1])), (*rings[:index], *rings[index + 1 :]))
        wound.append(ring if (signed_area(ring) > 0.0) != is_hole else ring[::-1])
    return wound


def _on_either_side(walked: Ring, ring: Ring, tolerance: float) -> tuple[list[Point], list[Point]]:
    """Points of one ring that lie inside another, and that lie outside it, those near the other left out.

    Middles of sides serve where every corner touches.
    """
    clear = [point for point in _walk(walked) if _clearance(point, ring) > tolerance]
    within = [point for point in clear if point_in_polygon(point, (ring,))]
    return within, [point for point in clear if point not in within]


def _walk(ring: Ring) -> list[Point]:
    return [point for side in sides(ring) for point in (side[0], midpoint(side))]


def _clearance(point: Point, ring: Ring) -> float:
    return min(distance_to_side(point, side) for side in sides(ring))

"""How two rings lie to each other, in the cases a hole can be drawn in."""

from __future__ import annotations

import pytest

from explainers.geometry.nesting import Nesting, alternately_wound, relation
from explainers.geometry.rigid_motion import Ring
from explainers.geometry.rings import signed_area

L_SHAPE = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0))


def box(left: float, bottom: float, right: float, top: float) -> Ring:
    return ((left, bottom), (right, bottom), (right, top), (left, top))


@pytest.mark.parametrize(
    ("second", "kind"),
    [
        (box(0.5, 0.5, 1, 1), Nesting.WITHIN),
        (box(-1, -1, 5, 5), Nesting.AROUND),
        (box(3, 3, 3.5, 3.5), Nesting.APART),  # in the re-entrant corner: inside the extent, outside the outline
        (box(6, 6, 7, 7), Nesting.APART),
        (box(1, 1, 5, 1.5), Nesting.CROSSES),
        (box(1, 1, 3, 3), Nesting.CROSSES),  # every corner but one on it or inside it
        (box(1, 0, 2, 1), Nesting.TOUCHES_INSIDE),
        (((1, 0), (2, 1), (1, 1.5)), Nesting.TOUCHES_INSIDE),
        (box(4, 0, 5, 1), Nesting.TOUCHES_OUTSIDE),
        (box(2, 2, 4, 4), Nesting.TOUCHES_OUTSIDE),
        (box(4.0005, 0, 5, 1), Nesting.TOUCHES_OUTSIDE),
        (L_SHAPE, Nesting.TOUCHES_INSIDE),
        (((2, 4), (4, 2), (5, 5)), Nesting.TOUCHES_OUTSIDE),
        (((0, 4), (0, 0), (4, 0), (4, 2), (2, 4)), Nesting.CROSSES),  # corners all on it, one side across the gap
    ],
)
def test_two_rings_lie_as_drawn(second: Ring, kind: Nesting) -> None:
    for walk in (second, second[::-1], second[1:] + second[:1]):
        assert relation(L_SHAPE, walk, 1e-3).kind is kind
        assert relation(L_SHAPE[::-1], walk, 1e-3).kind is kind


def test_rings_are_wound_by_how_deep_they_lie() -> None:
    outer, hole, island, apart = box(0, 0, 9, 9), box(1, 1, 8, 8), box(3, 3, 5, 5), box(10, 0, 12, 2)
    for rings in ([outer, hole, island, apart], [island[::-1], apart[::-1], hole[::-1], outer]):
        areas = [signed_area(ring) for ring in alternately_wound(rings)]
        assert sorted(areas) == [-49.0, 4.0, 4.0, 81.0]
        assert [abs(signed_area(ring)) for ring in rings] == [abs(area) for area in areas]  # in their order


def test_a_hole_that_touches_at_a_corner_is_wound_as_a_hole() -> None:
    hole = ((0.0, 0.0), (2.0, 1.0), (1.0, 2.0))  # its first corner is the outer ring's, too
    outer, wound = alternately_wound([box(0, 0, 4, 4), hole])
    assert (signed_area(outer), signed_area(wound)) == (16.0, -1.5)

"""Rings that cross or touch themselves, told with the place, against shapely as a second opinion."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LinearRing

from explainers.geometry.locate import distance_to_side
from explainers.geometry.rigid_motion import RigidMotion, Ring
from explainers.geometry.simple import ContactKind, on_one_line, self_contact

SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))


@pytest.mark.parametrize(
    ("ring", "kind", "point"),
    [
        (((0, 0), (4, 4), (4, 0), (0, 4)), ContactKind.CROSSES, (2, 2)),
        (((0, 0), (4, 0), (4, 4), (2, -1), (0, 4)), ContactKind.CROSSES, None),
        (((0, 0), (4, 0), (4, 2), (2, 0), (0, 4)), ContactKind.TOUCHES, (2, 0)),
        (((0, 0), (2, 2), (4, 0), (4, 4), (2, 2), (0, 4)), ContactKind.TOUCHES, (2, 2)),
        (((0, 0), (4, 0), (4, 2), (2, 0.003), (0, 4)), ContactKind.TOUCHES, (2, 0.003)),
        (((0, 0), (4, 0), (4, 4), (4, 2), (0, 4)), ContactKind.DOUBLES_BACK, (4, 2)),
        (((0, 0), (4, 0), (0, 4), (0, 8)), ContactKind.DOUBLES_BACK, None),
    ],
)
def test_a_contact_is_told_with_its_place(ring: Ring, kind: ContactKind, point: tuple[float, float] | None) -> None:
    for walk in (ring, ring[::-1], ring[2:] + ring[:2]):
        contact = self_contact(walk, 0.004)
        assert contact is not None
        assert contact.kind is kind
        assert point is None or contact.point == pytest.approx(point)


@pytest.mark.parametrize(
    "ring",
    [
        SQUARE,
        ((0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4)),
        ((0, 0), (2, 0), (4, 0), (4, 4)),  # a needless corner
        ((0, 0), (2, 0), (2.001, 0), (4, 0), (4, 4)),  # two corners meant to be one
        ((0, 0), (4, 0), (4, 2), (2, 0.005), (0, 4)),  # near itself, but by more than the tolerance
        ((0, 0), (1, 0), (0, 1)),
    ],
)
def test_a_simple_ring_has_no_contact(ring: Ring) -> None:
    assert self_contact(ring, 0.004) is None


def test_corners_on_one_line_are_told() -> None:
    assert on_one_line(((0, 0), (2, 2), (1, 1)), 1e-3)
    assert on_one_line(((0, 0), (4, 0), (2, 0.0009)), 1e-3)
    assert not on_one_line(((0, 0), (4, 0), (2, 0.0011)), 1e-3)


def test_distance_to_a_side_is_that_of_its_nearest_point() -> None:
    assert distance_to_side((2, 3), ((0, 0), (4, 0))) == 3
    assert distance_to_side((7, 4), ((0, 0), (4, 0))) == 5
    assert distance_to_side((3, 4), ((0, 0), (0, 0))) == 5


def test_random_rings_agree_with_shapely(cases: Callable[[int, int], int]) -> None:
    """On whole numbers, where nothing is near without touching: one says simple exactly where the other does."""
    corner = st.tuples(st.integers(0, 5), st.integers(0, 5))

    @settings(max_examples=cases(200, 5_000), deadline=None)
    @given(
        ring=st.lists(corner, min_size=4, max_size=7, unique=True),
        turn_deg=st.sampled_from([0.0, 45.0, 17.3, -90.0]),
    )
    def holds(ring: list[tuple[int, int]], turn_deg: float) -> None:
        turned = RigidMotion(turn_deg=turn_deg).apply([(float(x), float(y)) for x, y in ring])
        expected = LinearRing(ring).is_simple  # before turning, where it is exact
        assert (self_contact(turned, 1e-6) is None) == expected

    holds()


def test_a_large_ring_is_judged_as_a_small_one() -> None:
    many = tuple((math.cos(2 * math.pi * i / 300), math.sin(2 * math.pi * i / 300)) for i in range(300))
    assert self_contact(many, 1e-3) is None
    assert self_contact((*many[:150], (2.0, 0.0), *many[150:]), 1e-3) is not None

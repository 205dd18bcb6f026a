"""Finding points and sides on the rings of an outline."""

from __future__ import annotations

import pytest

from explainers.geometry.locate import contains, distance_to_boundary, distance_to_side, span_on
from explainers.geometry.outline import Outline

RING = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
HOLED = Outline.of(RING, [[(1, 1), (2, 1), (2, 2), (1, 2)]])


def test_a_whole_side_in_either_direction() -> None:
    for side, forward in ((((0.0, 0.0), (4.0, 0.0)), True), (((4.0, 0.0), (0.0, 0.0)), False)):
        span = span_on((RING,), side, 0.004)
        assert span is not None
        assert span.forward is forward
        assert span.part == span.whole == ((0.0, 0.0), (4.0, 0.0))
        assert not span.is_part


def test_a_part_is_drawn_to_the_side_and_to_its_ends() -> None:
    span = span_on((RING,), ((0.003, 0.001), (1.0, -0.002)), 0.004)
    assert span is not None
    assert span.part == ((0.0, 0.0), (1.0, 0.0))
    assert span.is_part


@pytest.mark.parametrize(
    "side",
    [
        ((0.0, 0.0), (4.0, 3.0)),  # a diagonal
        ((3.0, 0.0), (5.0, 0.0)),  # past the end
        ((1.0, 0.01), (2.0, 0.01)),  # beside it
        ((1.0, 0.0), (1.0, 0.0)),  # one point
        ((3.0, 0.0), (4.0, 1.0)),  # round a corner
    ],
)
def test_what_is_not_on_one_side(side: tuple[tuple[float, float], tuple[float, float]]) -> None:
    assert span_on((RING,), side, 0.004) is None


def test_sides_of_holes_run_with_the_material_on_the_left() -> None:
    span = span_on(HOLED.rings, ((1.0, 1.0), (2.0, 1.0)), 0.004)
    assert span is not None
    assert not span.forward  # the hole runs clockwise: below its bottom side lies the material
    assert span.part == ((2.0, 1.0), (1.0, 1.0))


def test_distances_and_insides() -> None:
    assert distance_to_side((5.0, 4.0), ((0.0, 0.0), (4.0, 0.0))) == pytest.approx(17**0.5)
    assert distance_to_side((1.0, 2.0), ((0.0, 0.0), (0.0, 0.0))) == pytest.approx(5**0.5)
    assert distance_to_boundary((1.5, 1.4), HOLED) == pytest.approx(0.4)
    assert contains(HOLED, (0.5, 0.5))
    assert not contains(HOLED, (1.5, 1.5))
    assert not contains(HOLED, (5.0, 1.0))

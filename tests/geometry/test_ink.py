"""What is drawn of two things meets, or does not: insides, strokes as wide as they are drawn, spots."""

from __future__ import annotations

import math

import pytest

from explainers.geometry.ink import region, shared_area, spots, strokes

SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
HOLE = ((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0))
BESIDE = tuple((x + 4.0, y) for x, y in SQUARE)


def test_two_squares_with_a_common_side_do_not_meet_and_a_line_along_it_meets_both() -> None:
    along = strokes([((4.0, 1.0), (4.0, 3.0))], 0.1)
    assert shared_area(region([SQUARE]), region([BESIDE])) == 0.0
    for square in (SQUARE, BESIDE):
        assert shared_area(region([square]), along) == pytest.approx(2.0 * 0.05 + math.pi * 0.05**2 / 2, rel=0.01)


def test_a_hole_is_clear_and_a_ring_within_it_is_not() -> None:
    spot = spots([(2.0, 2.0)], 0.25)
    assert shared_area(region([SQUARE, HOLE]), spot) == 0.0
    island = ((1.5, 1.5), (2.5, 1.5), (2.5, 2.5), (1.5, 2.5))
    assert shared_area(region([SQUARE, HOLE, island]), spot) == pytest.approx(math.pi / 16, rel=0.04)


def test_nothing_meets_nothing() -> None:
    for empty in (strokes([], 0.1), spots([], 0.1), region([((0.0, 0.0), (0.0, 0.0), (0.0, 1.0), (0.0, 1.0))])):
        assert shared_area(empty, region([SQUARE])) == 0.0

"""The largest distance between two boundaries: known cases, the laws of a distance, a dense sweep as oracle."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import random_item

from explainers.geometry.hausdorff import hausdorff_distance
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion

SQUARE = Outline.of(((0, 0), (4, 0), (4, 4), (0, 4)))
SEEDS = st.integers(min_value=0, max_value=2**32)


def test_an_outline_lies_on_itself() -> None:
    assert hausdorff_distance(SQUARE, SQUARE) == 0.0
    assert hausdorff_distance(SQUARE, Outline.of(((2, 0), (4, 0), (4, 4), (0, 4), (0, 0)))) == 0.0


def test_a_shift_is_as_far_as_it_goes() -> None:
    assert hausdorff_distance(SQUARE, SQUARE.moved(RigidMotion(shift=(3.0, 4.0)))) == pytest.approx(5.0)


def test_a_corner_cut_off_is_its_height() -> None:
    cut = Outline.of(((0, 0), (2, 0), (4, 2), (4, 4), (0, 4)))
    assert hausdorff_distance(cut, SQUARE) == pytest.approx(math.sqrt(2))


def test_the_farthest_point_may_lie_on_either_outline_and_between_its_corners() -> None:
    # A slit from above, 1 deep: its lowest corner is 1 from the upper side.
    slit = Outline.of(((0, 0), (4, 0), (4, 4), (2.1, 4), (2, 3), (1.9, 4), (0, 4)))
    assert hausdorff_distance(slit, SQUARE) == pytest.approx(1.0)
    # A bay 3 wide: the middle of its mouth is 1.5 from either of its walls, farther than any corner.
    bay = Outline.of(((0, 0), (4, 0), (4, 4), (3.5, 4), (3.5, 1), (0.5, 1), (0.5, 4), (0, 4)))
    assert hausdorff_distance(bay, SQUARE) == hausdorff_distance(SQUARE, bay) == pytest.approx(1.5)


def test_a_hole_counts() -> None:
    holed = Outline.of(SQUARE.exterior, [((1, 1), (2, 1), (2, 2), (1, 2))])
    assert hausdorff_distance(holed, SQUARE) == pytest.approx(2.0)


@settings(max_examples=25, deadline=None)
@given(SEEDS, SEEDS)
def test_it_is_a_distance_and_no_sample_of_the_boundary_beats_it(first: int, second: int) -> None:
    one, other = random_item(first).base, random_item(second).base
    found = hausdorff_distance(one, other)
    assert found == pytest.approx(hausdorff_distance(other, one), abs=2e-5)
    lines = [shapely.boundary(shapely.Polygon(shape.exterior, shape.holes)) for shape in (one, other)]
    sampled = shapely.hausdorff_distance(*lines, densify=0.002)
    assert sampled - 1e-9 <= found + 2e-5
    assert found <= sampled + 0.002 * 8 + 1e-6  # a sample misses the farthest point by half a step of a side at most

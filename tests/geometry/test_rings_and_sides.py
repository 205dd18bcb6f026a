"""Measures of rings, and points of a side."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point, RigidMotion, Side
from explainers.geometry.rings import diameter, extent, point_in_polygon, shortest_side, sides
from explainers.geometry.side import left_normal, midpoint, point_along, unit_vector

L_SHAPE = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0))
FRAME = (((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)), ((1.0, 1.0), (8.0, 1.0), (8.0, 8.0), (1.0, 8.0)))
ISLAND = ((3.0, 3.0), (5.0, 3.0), (5.0, 5.0), (3.0, 5.0))

places = st.tuples(*(st.floats(-9.0, 9.0, allow_subnormal=False),) * 2)


def test_a_point_lies_in_the_polygon_and_not_in_its_extent() -> None:
    assert point_in_polygon((1.0, 3.0), (L_SHAPE,))
    assert not point_in_polygon((3.0, 3.0), (L_SHAPE,))
    assert not point_in_polygon((-1.0, 2.0), (L_SHAPE,))  # a ray from here passes exactly through two corners
    assert not point_in_polygon((1.0, 1.0), ())


@pytest.mark.parametrize(("x", "within"), [(0.5, True), (2.0, False), (4.0, True), (6.0, False), (8.5, True)])
def test_a_hole_is_outside_and_what_lies_in_it_inside_again(x: float, within: bool) -> None:
    for rings in ((*FRAME, ISLAND), (ISLAND[::-1], FRAME[1][::-1], FRAME[0])):
        assert point_in_polygon((x, 4.0), rings) is within


def test_a_crossing_at_a_whole_number_is_found_exactly() -> None:
    # Divided first, 7 / 25 * 25 comes out above 7: the same side would then be passed on its left there, not elsewhere.
    ring = ((0.0, 0.0), (25.0, 25.0), (0.0, 25.0))
    assert not any(point_in_polygon((float(k), float(k)), (ring,)) for k in range(1, 25))


@given(point=places)
def test_a_point_clear_of_the_sides_is_judged_as_an_overlay_judges_it(point: Point) -> None:
    polygon = shapely.Polygon(L_SHAPE)
    if polygon.boundary.distance(shapely.Point(point)) > 1e-9:
        assert point_in_polygon(point, (L_SHAPE,)) is bool(polygon.contains(shapely.Point(point)))


def test_measures_of_rings() -> None:
    assert diameter(L_SHAPE) == math.dist((4.0, 0.0), (0.0, 4.0))
    assert shortest_side((ISLAND, L_SHAPE)) == 2.0
    assert shortest_side((((0.0, 0.0), (3.0, 0.0), (0.0, 4.0)),)) == 3.0  # the closing side, 4, counts too
    assert extent([(2.0, 5.0), (-1.0, 7.0)]) == (-1.0, 5.0, 2.0, 7.0)
    with pytest.raises(ValueError, match="not enough values"):
        extent([])


def test_an_outline_has_the_sides_of_all_its_rings() -> None:
    frame = Outline.of(FRAME[0], [FRAME[1]])
    assert frame.sides == sides(frame.exterior) + sides(frame.holes[0])
    assert len(frame.sides) == 8


def test_points_of_a_side() -> None:
    side = ((1.0, 1.0), (5.0, 4.0))
    assert midpoint(side) == point_along(side, 0.5) == (3.0, 2.5)
    assert point_along(side, 0.0) == side[0]
    assert point_along(side, 1.0) == side[1]
    assert unit_vector(side) == pytest.approx((0.8, 0.6))
    assert left_normal(side) == pytest.approx((-0.6, 0.8))
    assert left_normal(side[::-1]) == pytest.approx((0.6, -0.8))
    with pytest.raises(ZeroDivisionError):
        unit_vector((side[0], side[0]))


@given(turn_deg=st.floats(-179.0, 180.0), shift=places, start=places, end=places)
def test_a_moved_side_is_its_moved_ends(turn_deg: float, shift: Point, start: Point, end: Point) -> None:
    motion = RigidMotion(turn_deg=turn_deg, shift=shift)
    side: Side = (start, end)
    assert motion.apply_side(side) == (motion.apply_point(start), motion.apply_point(end))
    assert midpoint(motion.apply_side(side)) == pytest.approx(motion.apply_point(midpoint(side)), abs=1e-9)

"""Wrapping, shortest turns, and motions that turn and shift but never flip."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.geometry.angles import shortest_turn_deg, wrapped_deg
from explainers.geometry.rigid_motion import RigidMotion, Similarity
from explainers.geometry.rings import signed_area, without_needless_corners

ANGLES = st.floats(min_value=-2000, max_value=2000)
TRIANGLE = ((0.0, 0.0), (3.0, 0.0), (1.0, 2.0))


@pytest.mark.parametrize(
    ("angle", "expected"),
    [(0, 0), (360, 0), (180, 180), (-180, 180), (540, 180), (-180 - 1e-10, 180), (-180 + 1e-10, 180), (270, -90)],
)
def test_wrapping(angle: float, expected: float) -> None:
    assert wrapped_deg(angle) == expected


def test_there_is_no_minus_zero() -> None:
    assert math.copysign(1.0, wrapped_deg(-1e-12)) == 1.0
    assert math.copysign(1.0, wrapped_deg(-360.0)) == 1.0


@settings(max_examples=50)
@given(start=ANGLES, end=ANGLES)
def test_the_shortest_turn_is_short_and_leads_there(start: float, end: float) -> None:
    turn_deg = shortest_turn_deg(from_deg=start, to_deg=end)
    assert -180.0 < turn_deg <= 180.0
    assert abs(math.remainder(start + turn_deg - end, 360.0)) < 1e-6


@settings(max_examples=50)
@given(turn=ANGLES, x=st.floats(-9, 9), y=st.floats(-9, 9), scale=st.floats(0.1, 9))
def test_a_motion_is_undone_by_its_inverse_and_never_flips(turn: float, x: float, y: float, scale: float) -> None:
    motion = Similarity(turn_deg=wrapped_deg(turn), shift=(x, y), scale=scale)
    moved = motion.apply(TRIANGLE)
    assert signed_area(moved) == pytest.approx(scale**2 * signed_area(TRIANGLE))
    for there, back in zip(TRIANGLE, motion.inverse().apply(moved), strict=True):
        assert math.dist(there, back) < 1e-9


def test_one_motion_after_another() -> None:
    first = Similarity(turn_deg=30.0, shift=(1.0, 2.0), scale=2.0)
    second = Similarity(turn_deg=170.0, shift=(-3.0, 0.5), scale=0.5)
    both = second.after(first)
    for goal, point in zip(second.apply(first.apply(TRIANGLE)), both.apply(TRIANGLE), strict=True):
        assert math.dist(goal, point) < 1e-12


def test_a_side_is_laid_along_another_middles_together() -> None:
    motion = RigidMotion.laying((0.0, 0.0), (2.0, 0.0), onto=((5.0, 1.0), (5.0, 3.2)))
    assert motion.turn_deg == 90.0
    assert motion.apply_point((1.0, 0.0)) == pytest.approx((5.0, 2.1))


def test_no_flip_and_no_other_scale_can_be_written_down() -> None:
    with pytest.raises(ValueError, match="never flips"):
        Similarity(scale=-1.0)
    with pytest.raises(ValueError, match="keeps every length"):
        RigidMotion(scale=2.0)
    with pytest.raises(ValueError, match="wrapped_deg"):
        RigidMotion(turn_deg=-180.0)


def test_needless_corners_go_and_curves_stay() -> None:
    assert without_needless_corners(((0, 0), (1, 0), (2, 0), (2, 0), (2, 2)), 0.002) == ((0, 0), (2, 0), (2, 2))
    ring = tuple((math.cos(i * math.pi / 20), math.sin(i * math.pi / 20)) for i in range(40))
    assert without_needless_corners(ring, 0.002) == ring
    assert len(without_needless_corners(TRIANGLE, 100.0)) == 3

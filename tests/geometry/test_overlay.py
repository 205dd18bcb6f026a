"""Joining and cutting: slivers, welding, pinches."""

from __future__ import annotations

import math
import random
from collections.abc import Callable

import pytest
from strategies import random_case

from explainers.geometry import overlay
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion, Ring
from explainers.kinds.join_and_cut.model import Does

TOLERANCE = 0.004
SQUARE = Outline.of([(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)])


def test_turned_pieces_leave_no_slivers(cases: Callable[[int, int], int]) -> None:
    """Whole items moved as a whole by chance motions: sides then miss each other by rounding errors."""
    for seed in range(cases(30, 1000)):
        rng = random.Random(seed)
        case = random_case(seed, pieces=2)
        motion = RigidMotion(turn_deg=rng.uniform(-180, 180), shift=(rng.uniform(-50, 50), rng.uniform(-50, 50)))
        standing = case.item.base.moved(motion).simplified(TOLERANCE)
        from explainers.kinds.join_and_cut.solving.solver import lay_pieces

        for placement, rings in zip(lay_pieces(case.item), case.outlines, strict=True):
            ring = motion.apply(placement.ring)
            combine = overlay.joined if placement.piece.does is Does.JOIN else overlay.cut_out
            result = combine(standing, ring, TOLERANCE)
            assert len(result.parts) == 1
            assert result.too_much == 0.0
            standing = result.parts[0]
            assert sorted(map(len, standing.rings)) == sorted(map(len, rings))


def test_corners_of_the_outline_do_not_move() -> None:
    ring = ((4.0006, 0.0007), (6.0, 0.0), (4.0003, 1.9996))
    result = overlay.joined(SQUARE, ring, TOLERANCE)
    assert set(SQUARE.exterior) <= set(result.parts[0].exterior) | {(4.0, 0.0)}
    assert {(0.0, 0.0), (4.0, 4.0), (0.0, 4.0)} <= set(result.parts[0].exterior)
    assert (4.0, 0.0) in result.ring
    assert any(x == 4.0 and math.isclose(y, 1.9996) for x, y in result.ring)


def test_a_gap_below_the_tolerance_is_closed_and_one_above_is_not() -> None:
    def beside(gap: float) -> Ring:
        return ((4.0 + gap, 1.0), (6.0, 1.0), (6.0, 3.0), (4.0 + gap, 3.0))

    assert len(overlay.joined(SQUARE, beside(0.003), TOLERANCE).parts) == 1
    assert len(overlay.joined(SQUARE, beside(0.006), TOLERANCE).parts) == 2


def test_an_overlap_below_the_tolerance_is_none() -> None:
    def into(depth: float) -> Ring:
        return ((4.0 - depth, 1.0), (6.0, 1.0), (6.0, 3.0), (4.0 - depth, 3.0))

    assert overlay.joined(SQUARE, into(0.003), TOLERANCE).too_much == 0.0
    assert overlay.joined(SQUARE, into(0.05), TOLERANCE).too_much == pytest.approx(0.05, rel=0.1)


def test_a_corner_of_the_outline_on_a_side_of_the_piece_becomes_a_corner_of_both() -> None:
    ring, host = overlay.welded(((4.001, -1.0), (6.0, -1.0), (6.0, 5.0), (4.001, 5.0)), SQUARE, TOLERANCE)
    assert {(4.0, 0.0), (4.0, 4.0)} <= set(ring)
    assert set(SQUARE.exterior) <= set(host.exterior)


@pytest.mark.parametrize(
    ("rings", "point"),
    [
        ([[(0, 0), (4, 0), (4, 2), (2, 0.001), (0, 2)]], (2, 0.001)),  # a corner on the middle of a side
        ([[(0, 0), (4, 0), (4, 4), (0, 4)], [(1, 1), (1, 3), (4, 2)]], (4, 2)),  # a hole against the outside
        (
            [[(0, 0), (6, 0), (6, 6), (0, 6)], [(1, 1), (1, 3), (3, 3), (3, 1)], [(3, 3), (3, 5), (5, 5), (5, 3)]],
            (3, 3),
        ),
    ],
)
def test_an_outline_that_touches_itself(rings: list[Ring], point: tuple[float, float]) -> None:
    outline = Outline.of(rings[0], rings[1:])
    assert overlay.touches_itself_at(outline, TOLERANCE) == pytest.approx(point)


def test_an_outline_that_keeps_clear_of_itself() -> None:
    assert overlay.touches_itself_at(SQUARE, TOLERANCE) is None
    near = Outline.of([(0, 0), (4, 0), (4, 2), (2, 0.1), (0, 2)])
    assert overlay.touches_itself_at(near, TOLERANCE) is None


def test_regions_leave_slivers_out() -> None:
    other = Outline.of([(0.0, 0.0), (3.999, 0.0), (3.999, 4.0), (0.0, 4.0)])
    assert overlay.regions(SQUARE, other, TOLERANCE) == ()
    (strip,) = overlay.regions(SQUARE, Outline.of([(0.0, 0.0), (3.0, 0.0), (3.0, 4.0), (0.0, 4.0)]), TOLERANCE)
    assert strip.area == pytest.approx(4.0)
    assert overlay.regions(SQUARE, SQUARE, TOLERANCE) == ()


def test_the_pole_lies_deep_inside() -> None:
    l_shape = Outline.of([(0, 0), (9, 0), (9, 1), (1, 1), (1, 9), (0, 9)])
    x, y = overlay.pole_of_inaccessibility(l_shape)
    assert 0.3 < min(x, y) < 0.75  # in the elbow or one of the arms, half a width from the sides


def test_a_corner_near_two_sides_of_a_piece_makes_no_spike_of_it() -> None:
    # Welded, the piece went out to its tip and straight back, and the overlay of that was the piece itself, or a crash.
    outline = Outline.of(
        [
            (-2.0015, 4.0004),
            (-4.004, 4.00023),
            (-4.00246, 1.99794),
            (-2.00025, 0.00012),
            (-4.00144, -0.00098),
            (-3.99995, -1.99929),
            (3.99974, -2.00105),
            (3.99859, 0.00076),
            (2.00075, 0.00016),
            (2.00033, 2.00078),
            (-2.00088, 2.00055),
        ]
    )
    ring = ((-3.99551, 2.00357), (-1.99659, 0.0019), (-1.99945, -1.99973), (0.00109, -2.00017), (0.005, 1.99701))
    for only_legal in (False, True):
        left = overlay.cut_out(outline, ring, 0.008, only_legal=only_legal)
        assert overlay.is_simple(Outline.of(left.ring))
        assert len(left.parts) == 3
        assert sum(part.area for part in left.parts) == pytest.approx(outline.area - 10.0, abs=0.1)

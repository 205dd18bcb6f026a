"""The same by turning, mirror image only, different: laws, and the certificate checked instead of the flag."""

from __future__ import annotations

import math
import random
from collections.abc import Callable

import pytest
from oracles import exact
from strategies import random_case

from explainers.geometry.congruence import Match, congruence, motions_onto
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity

FRAME = Outline.of([(0, 0), (6, 0), (6, 4), (0, 4)], [[(1, 1), (2, 1), (2, 2), (1, 2)]])


def any_motion(rng: random.Random) -> Similarity:
    return Similarity(
        turn_deg=rng.uniform(-179, 180),
        shift=(rng.uniform(-20, 20), rng.uniform(-20, 20)),
        scale=math.exp(rng.uniform(-1, 1)),
    )


def lies_on(outline: Outline, other: Outline, tolerance: float) -> bool:
    corners = [corner for ring in other.rings for corner in ring]
    return all(
        min(math.dist(point, corner) for corner in corners) < tolerance for ring in outline.rings for point in ring
    )


def test_a_moved_outline_is_recognised_and_every_motion_lays_it_on(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(40, 500)):
        rings = random_case(seed).result
        outline = Outline.of(rings[0], rings[1:])
        moved = outline.moved(any_motion(random.Random(seed)))
        tolerance = 1e-3 * moved.larger_extent
        found = congruence(outline, moved, tolerance)
        assert found.kind is Match.BY_TURNING
        assert len(found.motions) == exact.symmetry_order(rings)
        assert all(lies_on(outline.moved(motion), moved, 1e-6 * moved.larger_extent) for motion in found.motions)
        flipped = congruence(outline.mirrored(), moved, tolerance)
        chiral = exact.is_mirror_only(rings, exact.turned_over(rings))
        assert flipped.kind is (Match.MIRROR_ONLY if chiral else Match.BY_TURNING)


def test_motions_come_by_size_of_turn() -> None:
    square = Outline.of([(0, 0), (2, 0), (2, 2), (0, 2)])
    assert [motion.turn_deg for motion in motions_onto(square, square, 1e-3)] == [0.0, 90.0, -90.0, 180.0]


def test_holes_must_match_too() -> None:
    elsewhere = Outline.of(FRAME.exterior, [[(3, 1), (4, 1), (4, 2), (3, 2)]])
    turned_hole = Outline.of(FRAME.exterior, [[(1, 1), (2, 1), (2, 2.5), (1, 2.5)]])
    none = Outline.of(FRAME.exterior)
    for other in (elsewhere, turned_hole, none):
        assert congruence(FRAME, other, 0.006).kind is Match.DIFFERENT
    half_turned = FRAME.moved(Similarity(turn_deg=180.0))
    assert len(motions_onto(half_turned, FRAME, 0.006)) == 1  # the frame alone would allow two
    assert congruence(FRAME, FRAME.mirrored(), 0.006).kind is Match.MIRROR_ONLY


def test_needless_corners_do_not_count() -> None:
    plain = Outline.of([(0, 0), (4, 0), (0, 3)])
    typed = Outline.of([(2, 0.001), (4, 0), (0, 3), (0, 1), (0, 0)])
    assert congruence(typed, plain, 0.004).kind is Match.BY_TURNING


@pytest.mark.parametrize(("away", "same"), [(0.003, True), (0.02, False)])
def test_hand_typed_numbers_are_forgiven_to_the_tolerance(away: float, same: bool) -> None:
    true = Outline.of([(0, 0), (4, 0), (4, 1), (0, 3)])
    typed = Outline.of([(0, 0), (4, 0), (4, 1 + away), (0, 3)])
    assert (congruence(typed, true, 0.004).kind is Match.BY_TURNING) is same


def test_equal_area_and_perimeter_are_no_evidence() -> None:
    first = Outline.of([(0, 0), (3, 0), (3, 1), (1, 1), (1, 2), (0, 2)])
    second = Outline.of([(0, 0), (3, 0), (3, 1), (2, 1), (2, 2), (1, 2), (1, 1), (0, 1)])
    assert first.area == second.area
    assert congruence(first, second, 0.003).kind is Match.DIFFERENT

"""Outlines drawn at random on squared paper, and what makes one good to look at."""

from __future__ import annotations

from random import Random

import pytest

from explainers.choice.new_outlines import GridRing, base_ring, is_fair, piece_ring, with_gap
from explainers.geometry.outline import Outline
from explainers.geometry.rings import signed_area


def outline(ring: GridRing) -> Outline:
    return Outline.of([(float(x), float(y)) for x, y in ring])


@pytest.mark.parametrize("corners", range(3, 13))
def test_a_base_has_the_corners_asked_for_and_its_box_from_zero(corners: int, cases) -> None:
    rings = [base_ring(Random(seed), corners, width=7, height=6) for seed in range(cases(40, 400))]
    drawn = [ring for ring in rings if ring]
    assert len(drawn) > len(rings) / 2
    for ring in drawn:
        assert len(ring) == corners
        assert (min(x for x, _ in ring), min(y for _, y in ring)) == (0, 0)
    assert any(is_fair(outline(ring)) and signed_area(outline(ring).exterior) > 0 for ring in drawn)
    assert len(set(drawn)) > len(drawn) / 3


@pytest.mark.parametrize("corners", range(3, 9))
def test_a_piece_keeps_its_bottom_side(corners: int, cases) -> None:
    drawn = [ring for seed in range(cases(60, 400)) if (ring := piece_ring(Random(seed), corners, width=4, height=3))]
    assert drawn
    for ring in drawn:
        assert ring[:2] == ((0, 0), (4, 0)) and len(ring) == corners


def test_a_base_with_a_gap_has_two_sides_on_one_line() -> None:
    drawn = [ring for seed in range(40) if (ring := with_gap(Random(seed), 8, width=6, height=5))]
    assert drawn
    for ring in drawn:
        sides = list(zip(ring, ring[1:] + ring[:1], strict=True))
        lines = [(x, a[x], a[1 - x] < b[1 - x]) for a, b in sides for x in (0, 1) if a[x] == b[x]]
        assert len(set(lines)) < len(lines)


@pytest.mark.parametrize(
    ("ring", "fair"),
    [
        (((0, 0), (8, 0), (8, 5), (0, 5)), True),
        (((0, 0), (16, 0), (16, 10), (1, 10), (1, 9), (0, 9)), False),  # a side of a sixteenth
        (((0, 0), (8, 0), (8, 3), (0, 1)), True),
        (((0, 0), (8, 0), (8, 3)), False),  # a needle of about 21 degrees
        (((0, 0), (8, 0), (8, 6), (4, 7), (0, 6)), True),
        (((0, 0), (16, 0), (16, 12), (8, 13), (0, 12)), False),  # a bend of 14 degrees that is hardly seen
        (((0, 0), (12, 0), (12, 12), (7, 12), (7, 1), (5, 1), (5, 12), (0, 12)), False),  # a neck of a twelfth
    ],
)
def test_only_what_can_be_seen_is_fair(ring: GridRing, fair: bool) -> None:
    assert is_fair(outline(ring)) is fair


def test_a_hole_keeps_clear_of_the_rim() -> None:
    base = [(0.0, 0.0), (12.0, 0.0), (12.0, 12.0), (0.0, 12.0)]
    assert is_fair(Outline.of(base, [[(3.0, 3.0), (6.0, 3.0), (3.0, 6.0)]]))
    assert not is_fair(Outline.of(base, [[(1.0, 3.0), (6.0, 3.0), (1.0, 6.0)]]))

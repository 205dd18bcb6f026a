"""The 13 convex outlines that seven tangram pieces make.

Source: Wang and Hsiung, American Mathematical Monthly 49 (1942) 596-599; coordinates recomputed by exact cover for our
references (section 1.3), legs of the smallest piece being 1. Five of the 13 are chiral. Several pairs share both area
and perimeter, so a matcher that compared these would find fewer than 13.
"""

from __future__ import annotations

from itertools import combinations

import pytest

from explainers.geometry.congruence import Match, congruence, is_chiral
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion
from explainers.geometry.rings import perimeter

CONVEX = [
    ([(1, 0), (3, 0), (3, 2), (2, 3), (0, 3), (0, 1)], 10.8284, False),
    ([(1, 0), (2, 0), (3, 1), (3, 3), (0, 3), (0, 1)], 10.8284, False),
    ([(0, 0), (4, 0), (4, 2), (0, 2)], 12.0, False),
    ([(2, 0), (4, 0), (4, 1), (2, 3), (0, 3), (0, 2)], 11.6569, True),
    ([(2, 0), (4, 2), (4, 3), (0, 3), (0, 2)], 11.6569, False),
    ([(2, 0), (4, 2), (2, 4), (0, 2)], 11.3137, False),
    ([(4, 0), (4, 4), (0, 4)], 13.6569, False),
    ([(1, 0), (4, 0), (5, 1), (4, 2), (1, 2), (0, 1)], 11.6569, False),
    ([(2, 0), (5, 0), (5, 2), (0, 2)], 12.8284, True),
    ([(3, 0), (4, 0), (5, 1), (3, 3), (0, 3)], 12.4853, True),
    ([(3, 0), (5, 2), (4, 3), (0, 3)], 12.4853, True),
    ([(2, 0), (6, 0), (4, 2), (0, 2)], 13.6569, True),
    ([(2, 0), (4, 0), (6, 2), (0, 2)], 13.6569, False),
]
TOLERANCE = 0.004


def outline_of(index: int) -> Outline:
    return Outline.of([(float(x), float(y)) for x, y in CONVEX[index][0]])


@pytest.mark.parametrize("index", range(13))
def test_area_perimeter_chirality(index: int) -> None:
    outline = outline_of(index)
    assert outline.area == pytest.approx(8.0, abs=1e-12)
    assert perimeter(outline.exterior) == pytest.approx(CONVEX[index][1], abs=5e-5)
    assert is_chiral(outline, TOLERANCE) == CONVEX[index][2]


def test_the_13_are_all_different() -> None:
    for first, second in combinations(range(13), 2):
        turned = outline_of(second).moved(RigidMotion(turn_deg=13.0 * first))
        assert congruence(outline_of(first), turned, TOLERANCE).kind is Match.DIFFERENT


def test_turned_they_are_still_themselves_and_a_chiral_one_is_not_its_mirror_image() -> None:
    for index in range(13):
        turned = outline_of(index).moved(RigidMotion(turn_deg=-160.0 + 20.0 * index))
        assert congruence(outline_of(index), turned, TOLERANCE).kind is Match.BY_TURNING
        flipped = congruence(outline_of(index).mirrored(), turned, TOLERANCE).kind
        assert flipped is (Match.MIRROR_ONLY if CONVEX[index][2] else Match.BY_TURNING)

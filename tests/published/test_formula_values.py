"""Areas, perimeters and angles against values in the literature.

Shoelace: the Rosetta Code task of that name, area 30, its order of corners being clockwise. Pick's theorem: Pick 1899,
from memory, A = I + B/2 - 1; counts recomputed. Regular polygons of side 1: textbook values.
"""

from __future__ import annotations

import math

import pytest

from explainers.geometry.outline import Outline
from explainers.geometry.rings import centroid, interior_angles_deg, perimeter, sides, signed_area

SHOELACE = ((3.0, 4.0), (5.0, 11.0), (12.0, 8.0), (9.0, 5.0), (5.0, 6.0))


def test_shoelace() -> None:
    assert signed_area(SHOELACE) == -30.0
    assert signed_area(SHOELACE[::-1]) == 30.0
    assert perimeter(SHOELACE) == pytest.approx(26.0900564326, abs=1e-10)
    assert centroid(SHOELACE) == pytest.approx((43 / 6, 137 / 18))


def test_pick() -> None:
    on_boundary = sum(math.gcd(int(abs(b[0] - a[0])), int(abs(b[1] - a[1]))) for a, b in sides(SHOELACE))
    assert on_boundary == 8
    assert Outline.of(SHOELACE).area == 27 + on_boundary / 2 - 1


@pytest.mark.parametrize(
    ("n", "area"),
    [
        (3, math.sqrt(3) / 4),
        (4, 1.0),
        (5, math.sqrt(25 + 10 * math.sqrt(5)) / 4),
        (6, 3 * math.sqrt(3) / 2),
        (8, 2 + 2 * math.sqrt(2)),
    ],
)
def test_regular_polygons_of_side_1(n: int, area: float) -> None:
    radius = 0.5 / math.sin(math.pi / n)
    ring = tuple((radius * math.cos(2 * math.pi * i / n), radius * math.sin(2 * math.pi * i / n)) for i in range(n))
    assert signed_area(ring) == pytest.approx(area)
    assert interior_angles_deg(ring) == pytest.approx([180.0 - 360.0 / n] * n)


def test_the_angles_inside_a_polygon_sum_to_180_for_each_corner_beyond_two() -> None:
    ring = SHOELACE[::-1]  # one of its corners points inwards
    assert sum(interior_angles_deg(ring)) == pytest.approx(180.0 * (len(ring) - 2))
    assert max(interior_angles_deg(ring)) > 180.0

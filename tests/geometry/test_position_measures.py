"""Areas, shared boundary, moments: held against a polygon clipper."""

from __future__ import annotations

import cmath
import math
import random

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from oracles import lattice

from explainers.geometry.outline import Outline
from explainers.geometry.position_measures import Sides, Strips, areas_in_common, corners_apart, shared_boundaries
from explainers.geometry.rigid_motion import Similarity


def star(rng: random.Random) -> Outline:
    count = rng.randint(3, 9)
    radii = [rng.uniform(1.0, 4.0) for _ in range(count)]
    return Outline.of(
        [(r * math.cos(2 * math.pi * i / count), r * math.sin(2 * math.pi * i / count)) for i, r in enumerate(radii)]
    )


def on_the_lattice(rng: random.Random) -> Outline:
    """Squares with holes, so that sides lie on each other and stand upright."""
    while True:
        cells = {(x, y) for x in range(4) for y in range(4) if rng.random() < 0.75}
        found = lattice.rings_of(lattice.squares(cells)) if cells else None
        if found is not None:
            return Outline.of(found[0], found[1])


def polygon(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon(outline.exterior, outline.holes)


def positions(rng: random.Random) -> list[Similarity]:
    quarter = [Similarity(turn_deg=90.0 * i, shift=(2.0 * i, -2.0)) for i in (-1, 0, 1, 2)]
    free = [
        Similarity(
            turn_deg=rng.uniform(-179, 180),
            shift=(rng.uniform(-3, 3), rng.uniform(-3, 3)),
            scale=rng.uniform(0.6, 1.6),
        )
        for _ in range(6)
    ]
    return [*quarter, *free]


def complex_of(motions: list[Similarity]) -> tuple[np.ndarray, np.ndarray]:
    a = np.array([motion.scale * cmath.exp(1j * math.radians(motion.turn_deg)) for motion in motions])
    return a, np.array([complex(*motion.shift) for motion in motions])


@given(seed=st.integers(0, 2**32))
def test_areas_in_common_are_those_of_a_clipper(seed: int) -> None:
    rng = random.Random(seed)
    kinds = (star, on_the_lattice)
    outline, other = rng.choice(kinds)(rng), rng.choice(kinds)(rng)
    motions = positions(rng)
    found = areas_in_common(*complex_of(motions), Sides.of(outline), Strips.below(Sides.of(other)))
    clipped = [polygon(outline.moved(motion)).intersection(polygon(other)).area for motion in motions]
    assert found == pytest.approx(clipped, abs=1e-7 * other.larger_extent**2)


@given(seed=st.integers(0, 2**32))
def test_moments_are_those_of_the_material(seed: int) -> None:
    rng = random.Random(seed)
    outline = on_the_lattice(rng)
    area, centre, spread = Sides.of(outline).moments()
    shape = polygon(outline)
    assert area == pytest.approx(shape.area)
    assert (centre.real, centre.imag) == pytest.approx(shape.centroid.coords[0])
    # Turned by a quarter, the second moment changes its sign; by an eighth it is multiplied by i.
    turned = outline.moved(Similarity(turn_deg=45.0, scale=2.0, shift=(3.0, 9.0)))
    assert Sides.of(turned).moments()[2] == pytest.approx(4j * spread, abs=1e-9)


def test_the_second_moment_of_a_rectangle_is_the_textbook_one() -> None:
    # b h^3 / 12 and h b^3 / 12 about the middle lines; 4 x 2: 2.667 and 10.667, the mean over the area of 8 is 1.
    _, _, spread = Sides.of(Outline.of([(0, 0), (4, 0), (4, 2), (0, 2)])).moments()
    assert spread == pytest.approx(4**2 / 12 - 2**2 / 12)


def test_boundaries_are_shared_only_where_they_run_the_same_way() -> None:
    square = Sides.of(Outline.of([(0, 0), (2, 0), (2, 2), (0, 2)]))
    a, b = np.array([1.0 + 0j] * 4), np.array([0j, 1 + 0j, 2 + 0j, 5 + 0j])
    # On itself all of it; shifted by half its width two halves; beside itself it runs the other way.
    assert shared_boundaries(a, b, square, square, 1e-3) == pytest.approx([1.0, 0.25, 0.0, 0.0])
    apart = corners_apart(a, b, square, square, 1.0)
    assert apart[0] == 0.0
    assert apart[3] == 2.0

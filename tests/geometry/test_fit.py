"""Laying one outline on another as well as can be."""

from __future__ import annotations

import math
import random

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from oracles import lattice

from explainers.geometry.angles import wrapped_deg
from explainers.geometry.fit import best_fit
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion, Similarity

ELBOW = Outline.of([(0, 0), (6, 0), (6, 2), (2, 2), (2, 5), (0, 5)])


def difference(outline: Outline, other: Outline) -> float:
    first, second = (shapely.Polygon(shape.exterior, shape.holes) for shape in (outline, other))
    return float(first.symmetric_difference(second).area)


@pytest.mark.parametrize("seed", range(12))
def test_an_outline_with_one_square_more_differs_by_that_square(seed: int) -> None:
    rng = random.Random(seed)
    more = Outline.of([(0, 0), (6, 0), (6, 2), (4, 2), (4, 3), (3, 3), (3, 2), (2, 2), (2, 5), (0, 5)])
    motion = Similarity(turn_deg=rng.uniform(-179, 180), shift=(rng.uniform(-9, 9), 3.0))
    fit = best_fit(more.moved(motion), ELBOW)
    assert fit.difference == pytest.approx(1.0, abs=1e-6)
    assert fit.motion.scale == 1.0
    assert difference(more.moved(motion).moved(fit.motion), ELBOW) == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize("scale", [0.25, 0.8, 1.3, 5.0])
def test_an_option_typed_to_another_scale_is_laid_on_at_the_true_one(scale: float) -> None:
    more = Outline.of([(0, 0), (6, 0), (6, 2), (2, 2), (2, 6), (0, 6)])
    typed = more.moved(Similarity(turn_deg=50.0, scale=scale))
    fit = best_fit(typed, ELBOW)
    assert fit.motion.scale == pytest.approx(1.0 / scale)
    assert fit.difference == pytest.approx(2.0, abs=1e-6)


def test_the_difference_is_that_of_the_position() -> None:
    for seed in range(20):
        rng = random.Random(seed)
        shapes = [Outline.of([(math.cos(a) * r, math.sin(a) * r) for a, r in spokes(rng)]) for _ in range(2)]
        fit = best_fit(shapes[0], shapes[1])
        assert fit.difference == pytest.approx(difference(shapes[0].moved(fit.motion), shapes[1]), abs=1e-6)


def spokes(rng: random.Random) -> list[tuple[float, float]]:
    n = rng.randint(4, 9)
    return [(2 * math.pi * i / n, rng.uniform(1.0, 3.0)) for i in range(n)]


def test_no_position_on_the_lattice_is_better() -> None:
    """Held against every quarter turn and every shift by whole squares, tried one by one."""
    rng = random.Random(3)
    for _ in range(6):
        shapes = []
        for _ in range(2):
            cells = {(0, 0)}
            while len(cells) < 6:
                x, y = rng.choice(sorted(cells))
                cells.add((x + rng.choice((-1, 0, 1)), y) if rng.random() < 0.5 else (x, y + rng.choice((-1, 0, 1))))
            found = lattice.rings_of(lattice.squares(cells))
            if found is None:
                break
            shapes.append(Outline.of(found[0], found[1]))
        if len(shapes) < 2:
            continue
        best = min(
            difference(shapes[0].moved(RigidMotion(turn_deg=turn_deg, shift=(2.0 * dx, 2.0 * dy))), shapes[1])
            for turn_deg in (0.0, 90.0, -90.0, 180.0)
            for dx in range(-7, 8)
            for dy in range(-7, 8)
        )
        assert best_fit(shapes[0], shapes[1]).difference <= best + 1e-6


def test_the_same_question_has_the_same_answer() -> None:
    first = Outline.of([(0, 0), (5, 1), (4, 4), (1, 3)])
    assert best_fit(first, ELBOW) == best_fit(first, ELBOW)


def test_of_equally_good_turns_the_one_nearest_to_the_shown_one_is_taken() -> None:
    plus = Outline.of([(0, 0), (6, 0), (6, 6), (0, 6)])
    notched = Outline.of([(0, 0), (2.5, 0), (2.5, 1), (3.5, 1), (3.5, 0), (6, 0), (6, 6), (0, 6)])
    assert best_fit(plus, notched, shown_turn_deg=0.0).motion.turn_deg == 0.0
    assert best_fit(plus, notched, shown_turn_deg=80.0).motion.turn_deg == 90.0


def test_outlines_of_very_many_corners_are_laid_too() -> None:
    def gear(teeth: int, bump: float) -> Outline:
        ring = [
            (math.cos(2 * math.pi * i / teeth) * r, math.sin(2 * math.pi * i / teeth) * r)
            for i, r in ((i, 3.0 + 0.4 * (i % 2) + (bump if i == 5 else 0.0)) for i in range(teeth))
        ]
        return Outline.of(ring)

    fit = best_fit(gear(120, 0.5).moved(RigidMotion(turn_deg=100.0)), gear(120, 0.0))
    assert fit.difference < 0.2


# --- a small dent or bump -------------------------------------------------------------------------------------------


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """A star-shaped outline of 4 to 9 corners, no two of them nearly one."""
    count = draw(st.integers(4, 9))
    return star([(draw(st.floats(0.5, 1.0)), draw(st.floats(-0.25, 0.25))) for _ in range(count)])


@st.composite
def spirals(draw: st.DrawFn) -> Outline:
    """The same, farther out at each corner: far from being the same in any turned position."""
    count = draw(st.integers(4, 9))
    return star([(0.4 + 0.6 * i / count, draw(st.floats(-0.2, 0.2))) for i in range(count)])


def star(corners: list[tuple[float, float]]) -> Outline:
    angles = [2 * math.pi * (i + turn) / len(corners) for i, (_, turn) in enumerate(corners)]
    return Outline.of(
        [
            (10.0 * radius * math.cos(angle), 10.0 * radius * math.sin(angle))
            for (radius, _), angle in zip(corners, angles, strict=True)
        ]
    )


@st.composite
def changed(draw: st.DrawFn, outline: Outline) -> tuple[Outline, float]:
    """(the outline with a small dent or bump on one of its sides, of two to four corners; the area of that)."""
    ring = list(outline.exterior)
    index = draw(st.integers(0, len(ring) - 1))
    start, end = complex(*ring[index]), complex(*ring[(index + 1) % len(ring)])
    along = (end - start) / abs(end - start)
    width = draw(st.floats(0.2, 0.8))
    height = draw(st.floats(0.2, 0.6)) * draw(st.sampled_from((1, -1)))
    foot = start + along * draw(st.floats(0.2, 0.7)) * (abs(end - start) - width)
    tops = draw(st.sampled_from(((0.5,), (0.0, 1.0), (-0.5, 1.5), (0.0, 0.5, 1.0))))
    profile = [(0.0, 0.0), *((top, 1.0) for top in tops), (1.0, 0.0)]
    points = [foot + along * (width * x - 1j * height * y) for x, y in profile]
    area = abs(sum((a.conjugate() * b).imag for a, b in zip(points, points[1:] + points[:1], strict=True))) / 2
    more = Outline.of([*ring[: index + 1], *((z.real, z.imag) for z in points), *ring[index + 1 :]])
    assume(shapely.Polygon(more.exterior).is_valid)
    return more, area


@given(data=st.data(), turn_deg=st.floats(-179.0, 180.0))
@settings(max_examples=60)
def test_with_a_small_dent_or_bump_an_outline_differs_by_no_more_than_that(
    data: st.DataObject, turn_deg: float
) -> None:
    outline = data.draw(outlines())
    more, area = data.draw(changed(outline))
    moved = more.moved(RigidMotion(turn_deg=turn_deg, shift=(30.0, -4.0)))
    for one, other in ((moved, outline), (outline, moved)):
        assert best_fit(one, other).difference <= area + 1e-6 * outline.area


@given(data=st.data(), turn_deg=st.floats(-179.0, 180.0))
@settings(max_examples=40)
def test_with_a_small_dent_or_bump_an_outline_is_turned_back_to_where_it_was(
    data: st.DataObject, turn_deg: float
) -> None:
    outline = data.draw(spirals())
    more, _ = data.draw(changed(outline))
    moved = more.moved(RigidMotion(turn_deg=turn_deg, shift=(30.0, -4.0)))
    for one, other, back_deg in ((moved, outline, -turn_deg), (outline, moved, turn_deg)):
        assert abs(wrapped_deg(best_fit(one, other).motion.turn_deg - back_deg)) < 1.0


@given(data=st.data(), turn_deg=st.floats(-179.0, 180.0))
@settings(max_examples=40)
def test_outlines_that_differ_by_little_are_laid_alike_both_ways(data: st.DataObject, turn_deg: float) -> None:
    outline = data.draw(outlines())
    first, _ = data.draw(changed(outline))
    second, _ = data.draw(changed(outline))
    moved = second.moved(RigidMotion(turn_deg=turn_deg, shift=(7.0, 5.0)))
    there, back = best_fit(first, moved), best_fit(moved, first)
    assert there.difference == pytest.approx(back.difference, abs=1e-6 * outline.area)


def test_many_small_corners_of_a_bump_do_not_outweigh_the_long_sides() -> None:
    # Turned by 90 degrees the two bumps come near each other, and half of all corners are theirs.
    below = Outline.of([(10, 0), (9.5, -0.5), (10.5, -0.5), (10.5, 0), (40, 0), (40, 30), (0, 40), (0, 0)])
    right = Outline.of([(41, 11), (40, 11), (40, 30), (0, 40), (0, 0), (40, 0), (40, 10)])
    for first, second in ((below, right), (right, below)):
        fit = best_fit(first, second)
        assert fit.motion.turn_deg == pytest.approx(0.0, abs=1e-6)
        assert fit.difference == pytest.approx(0.375 + 0.5, abs=1e-6)

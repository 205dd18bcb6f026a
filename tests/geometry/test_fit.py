"""Laying one outline on another as well as can be."""

from __future__ import annotations

import math
import random

import pytest
import shapely
from oracles import lattice

from explainers.geometry.fit import best_fit
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion, Similarity

ELBOW = Outline.of([(0, 0), (6, 0), (6, 2), (2, 2), (2, 5), (0, 5)])


def difference(outline: Outline, other: Outline) -> float:
    first, second = (shapely.Polygon(shape.exterior, shape.holes) for shape in (outline, other))
    return float(first.symmetric_difference(second).area)


@pytest.mark.parametrize("seed", range(12))
def test_an_outline_with_one_square_more_differs_by_that_square(seed: int) -> None:
    dice = random.Random(seed)
    more = Outline.of([(0, 0), (6, 0), (6, 2), (4, 2), (4, 3), (3, 3), (3, 2), (2, 2), (2, 5), (0, 5)])
    motion = Similarity(turn_deg=dice.uniform(-179, 180), shift=(dice.uniform(-9, 9), 3.0))
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
        dice = random.Random(seed)
        shapes = [Outline.of([(math.cos(a) * r, math.sin(a) * r) for a, r in spokes(dice)]) for _ in range(2)]
        fit = best_fit(shapes[0], shapes[1])
        assert fit.difference == pytest.approx(difference(shapes[0].moved(fit.motion), shapes[1]), abs=1e-6)


def spokes(dice: random.Random) -> list[tuple[float, float]]:
    n = dice.randint(4, 9)
    return [(2 * math.pi * i / n, dice.uniform(1.0, 3.0)) for i in range(n)]


def test_no_position_on_the_lattice_is_better() -> None:
    """Held against every quarter turn and every shift by whole squares, tried one by one."""
    dice = random.Random(3)
    for _ in range(6):
        shapes = []
        for _ in range(2):
            cells = {(0, 0)}
            while len(cells) < 6:
                x, y = dice.choice(sorted(cells))
                cells.add((x + dice.choice((-1, 0, 1)), y) if dice.random() < 0.5 else (x, y + dice.choice((-1, 0, 1))))
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

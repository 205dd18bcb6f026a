"""A part that has moved and two sides in another ratio, as they are pointed at in the picture."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
from strategies import random_case

from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.drawing.choices import Choices
from explainers.choice.model import Solution
from explainers.choice.question import MadeOptions
from explainers.figure.model import Area, Circle, Figure, Lines
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.rigid_motion import Point
from explainers.kinds.join_and_cut.solving.solver import solve


def pictured(solution: Solution, kind: type[DifferenceFact]) -> list[tuple[Choices, Figure, DifferenceFact]]:
    choices = Choices(solution=solution, theme=DEFAULT_THEME)
    return [
        (choices, choices.figure("An option on the outline.", laid=verdict, reason=fact), fact)
        for verdict in solution.verdicts
        for fact in verdict.reasons
        if isinstance(fact, kind)
    ]


def spans(lines: Lines, sides: tuple[tuple[Point, Point], ...]) -> bool:
    """Whether strokes, whole or broken, run along these sides from end to end and nowhere else."""
    drawn = shapely.MultiLineString(lines.segments)
    goal = shapely.MultiLineString(sides)
    # A broken line may stop short by one of its gaps, which is less than a third of a unit of the stage.
    ends = [shapely.Point(end) for side in sides for end in side]
    return goal.buffer(1e-6).contains(drawn) and all(drawn.distance(end) < 0.33 for end in ends)


@pytest.fixture(scope="module")
def solutions() -> list[Solution]:
    """Items whose options come of slips: among them are pieces that meet another side."""
    items = [random_case(seed).item for seed in (3, 5, 7, 8, 11, 18)]
    made = [replace(item, options=(), made=MadeOptions(make=4, seed=7)) for item in items]
    return [solve(item) for item in (*items, *made)]


def test_a_moved_part_is_ringed_and_its_right_place_drawn_round(solutions: list[Solution]) -> None:
    found = [shown for solution in solutions for shown in pictured(solution, PartElsewhereFact)]
    assert found
    for choices, figure, fact in found:
        assert isinstance(fact, PartElsewhereFact)
        home, ring, side = figure.entry("differs-home"), figure.entry("differs-ring"), figure.entry("differs-side")
        assert isinstance(home, Area) and home.stroke == DEFAULT_THEME.attention and home.fill is None
        drawn, goal = shapely.Polygon(home.rings[0]), shapely.Polygon(choices.view.apply(fact.home.exterior))
        assert drawn.symmetric_difference(goal).area < 1e-9
        assert isinstance(ring, Circle)
        assert shapely.Polygon(choices.view.apply(fact.place.exterior)).contains(shapely.Point(ring.centre))
        assert not drawn.contains(shapely.Point(ring.centre))
        assert isinstance(side, Lines)
        assert spans(side, (tuple(choices.view.apply(fact.side)),))


def test_both_pairs_of_sides_are_marked_the_option_above_the_outline(solutions: list[Solution]) -> None:
    found = [shown for solution in solutions for shown in pictured(solution, SideRatioFact)]
    assert found
    for choices, figure, fact in found:
        assert isinstance(fact, SideRatioFact)
        ids = [entry.id for entry in figure.entries]
        assert ids.index("differs-other-side") < ids.index("differs-side")
        for name, pair in (("differs-side", fact.pair), ("differs-other-side", fact.other_pair)):
            lines = figure.entry(name)
            assert isinstance(lines, Lines)
            assert spans(lines, tuple(tuple(choices.view.apply(side)) for side in pair))

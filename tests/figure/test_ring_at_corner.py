"""The ring stands round what the words point at with "here"."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from explainers.choice.differences.corner_angle import CornerAngleFact
from explainers.choice.differences.corner_count import CornerCountFact
from explainers.choice.drawing.choices import Choices
from explainers.figure.model import Circle
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_solution

ITEMS = Path(__file__).parents[2] / "items"


@pytest.mark.parametrize("name", ["comet-block", "honeycomb-block", "kite-block"])
def test_a_corner_that_is_spoken_of_stands_in_the_ring(name: str) -> None:
    choices = Choices(solution=load_solution(ITEMS / f"{name}.yaml"), theme=DEFAULT_THEME)
    found = 0
    for verdict in choices.solution.verdicts:
        for fact in verdict.reasons:
            if not isinstance(fact, CornerAngleFact | CornerCountFact):
                continue
            figure = choices.figure("An option on the outline.", laid=verdict, reason=fact)
            ring, corner = figure.entry("differs-ring"), figure.entry("differs-corner")
            assert isinstance(ring, Circle) and isinstance(corner, Circle)
            assert corner.centre == choices.view.apply_point(fact.corner)
            assert math.dist(ring.centre, corner.centre) + corner.radius < ring.radius
            found += 1
    assert found

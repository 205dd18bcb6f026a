"""How long learners get to try first: the suggested pause, unless the lesson has one of its own."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from explainers.intake.workspace import load_lesson
from explainers.item.model import Manner
from explainers.lesson.planner import plan_lesson

LESSON = Path(__file__).parents[2] / "items" / "first-blocks.yaml"


@pytest.mark.parametrize("own", [None, 30.0, 75.0])
def test_the_pause_of_a_your_turn(own: float | None) -> None:
    lesson, solutions = load_lesson(LESSON)
    parts = [replace(part, pause_s=own if part.manner is Manner.YOUR_TURN else None) for part in lesson.parts]
    board = plan_lesson(replace(lesson, parts=tuple(parts)), solutions)
    (pause,) = (step for step in board.steps if step.stage == "pause")
    suggested = solutions[1].suggested_pause_s
    assert suggested != 30.0, "else this test could not tell the two apart"
    assert pause.pause_s == pytest.approx(suggested if own is None else own)

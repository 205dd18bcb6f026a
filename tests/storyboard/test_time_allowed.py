"""A lesson that may take only so long is told as fully as fits, and it is said what was left out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from explainers.choice.model import Solution
from explainers.intake.workspace import load_lesson
from explainers.item.model import Lesson
from explainers.lesson.planner import plan_lesson, plan_unseen
from explainers.storyboard.pacing import pace

ITEMS = Path(__file__).parents[2] / "items"


@pytest.fixture(scope="module")
def loaded() -> tuple[Lesson, tuple[Solution, ...]]:
    return load_lesson(ITEMS / "first-blocks.yaml")


def test_without_a_limit_nothing_is_left_out(loaded: tuple[Lesson, tuple[Solution, ...]]) -> None:
    assert plan_unseen(*loaded).left_out == ()


def test_what_is_left_out_grows_as_the_time_shrinks(loaded: tuple[Lesson, tuple[Solution, ...]]) -> None:
    lesson, solutions = loaded
    whole = pace(plan_unseen(lesson, solutions)).seconds
    before: tuple[str, ...] = ()
    for share in (1.0, 0.97, 0.9, 0.82):
        board = plan_unseen(replace(lesson, at_most_s=share * whole), solutions)
        assert board.left_out[: len(before)] == before
        assert pace(board).seconds <= share * whole + 1.0
        before = board.left_out
    assert before


def test_the_shortest_telling_still_rules_out_every_wrong_option(loaded: tuple[Lesson, tuple[Solution, ...]]) -> None:
    lesson, solutions = loaded
    board = plan_lesson(replace(lesson, at_most_s=20.0), solutions)
    stages = [step.stage for step in board.steps]
    assert "ahead" not in stages and "remember" not in stages
    assert stages.count("keep") == stages.count("answer") == len(solutions)
    assert all(fact.holds() for step in board.steps for fact in step.facts)

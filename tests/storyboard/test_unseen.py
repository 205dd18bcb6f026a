"""A lesson planned without its pictures has the words, the motions and the length of the one that is seen."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from strategies import random_item

from explainers.choice.model import Solution
from explainers.intake.workspace import load_lesson, load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.item.stops import Stop
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_lesson, plan_unseen
from explainers.storyboard.model import Still
from explainers.storyboard.pacing import pace

ITEMS = Path(__file__).parents[2] / "items"
LESSONS = ("first-blocks", "cutting-out", "looking-closely")


def assert_same_length(lesson: Lesson, solutions: tuple[Solution, ...]) -> None:
    seen, unseen = plan_lesson(lesson, solutions), plan_unseen(lesson, solutions)
    assert [step.id for step in unseen.steps] == [step.id for step in seen.steps]
    for one, other in zip(unseen.steps, seen.steps, strict=True):
        assert one.narration == other.narration
        assert _lengths(one.beats) == pytest.approx(_lengths(other.beats), abs=1e-9), one.id
    assert pace(unseen).seconds == pace(seen).seconds


def _lengths(beats: tuple[object, ...]) -> list[float]:
    return [(beat.hold_s or -1.0) if isinstance(beat, Still) else beat.seconds for beat in beats]  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", LESSONS)
def test_the_lessons_of_the_demo_take_as_long_unseen(name: str) -> None:
    assert_same_length(*load_lesson(ITEMS / f"{name}.yaml"))


@pytest.mark.parametrize("manner", Manner)
def test_every_manner_takes_as_long_unseen(manner: Manner) -> None:
    """With a stop at every place where there may be one."""
    solution = load_solution(ITEMS / "comet-block.yaml", pairs=True)
    stops = [Stop(what, piece.name) for piece in solution.item.pieces for what in ("turn", "meet")]
    asks = (*stops, Stop("outline"), Stop("options")) if manner.works_through else ()
    part = LessonPart(show=Path("comet-block.yaml"), manner=manner, asks=asks)
    assert_same_length(Lesson(name="one", title="One", parts=(part,)), (solution,))


def test_generated_items_take_as_long_unseen(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(8, 200)):
        solution = solve(random_item(seed), pairs=True)
        if solution.sound:
            part = LessonPart(show=Path("made.yaml"), manner=(*Manner,)[seed % len(Manner)])
            assert_same_length(Lesson(name="one", title="One", parts=(part,)), (solution,))

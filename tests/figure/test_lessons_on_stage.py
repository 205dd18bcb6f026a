"""Whole lessons on the stage: no label overlaps anything, nothing is too small, at every step and amid every motion."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from strategies import random_item

from explainers.choice.model import Solution
from explainers.figure.legibility import overlaps, too_small
from explainers.figure.model import Figure
from explainers.figure.motion import Motion
from explainers.intake.workspace import load_lesson, load_solution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_item, plan_lesson
from explainers.storyboard.model import Storyboard

ITEMS = Path(__file__).parents[2] / "items"
AMID = (0.25, 0.5, 0.75)


def figures(board: Storyboard) -> Iterator[tuple[str, Figure]]:
    for step in board.steps:
        for beat in step.beats:
            if isinstance(beat, Motion):
                for fraction in AMID:
                    yield f"{step.id} at {fraction:.0%} of a motion", beat.figure_at(fraction)
            else:
                yield step.id, beat.figure


def label_faults(board: Storyboard) -> list[str]:
    return [f"{where}: {fault}" for where, figure in figures(board) for fault in overlaps(figure)]


def size_faults(board: Storyboard) -> list[str]:
    return [f"{step.id}: {fault}" for step in board.steps for figure in step.stills for fault in too_small(figure)]


@pytest.mark.parametrize("path", sorted(ITEMS.glob("*-block.yaml")), ids=lambda path: path.stem)
def test_a_demo_item_is_legible_throughout(path: Path):
    board = plan_item(load_solution(path))
    assert label_faults(board) == []
    assert size_faults(board) == []


def test_the_demo_lesson_is_legible_throughout():
    board = plan_lesson(*load_lesson(ITEMS / "first-blocks.yaml"))
    assert label_faults(board) == []
    assert size_faults(board) == []


def test_generated_items_are_legible_throughout(cases: Callable[[int, int], int]):
    faults = []
    for seed in range(cases(12, 300)):
        solution: Solution = solve(random_item(seed))
        board = plan_item(solution)
        faults += label_faults(board)
        if not any("too fine" in warning.message for warning in solution.warnings):
            faults += size_faults(board)
    assert faults == []

"""Where options are drawn smaller than base and pieces the task says so: measured in the figure, not asked of it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from demo_items import demo_items
from strategies import random_item

from explainers.figure.model import Area, Figure
from explainers.figure.paper import Printing, paper_theme
from explainers.figure.themes import DEFAULT_THEME
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.paper import QuestionOnPaper
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution
from explainers.kinds.registry import solve
from explainers.lesson.planner import plan_item

SMALLER = "Which option shows the finished outline, drawn smaller?"
PLAIN = "Which option shows the finished outline?"


def area(rings: tuple[tuple[tuple[float, float], ...], ...]) -> float:
    """Net of holes, whichever way round each is."""
    sizes = [abs(sum(a * d - b * c for (a, b), (c, d) in zip(r, (*r[1:], r[0]), strict=True))) / 2 for r in rings]
    return sizes[0] - sum(sizes[1:])


def scale_of(figure: Figure, name: str, real: float) -> float:
    """How large a thing is drawn: of its area in the figure and that in units of the base."""
    (drawn,) = (entry for entry in figure.entries if isinstance(entry, Area) and entry.id == name)
    return math.sqrt(area(drawn.rings) / real)


def scales(figure: Figure, solution: JoinAndCutSolution) -> tuple[float, float]:
    """Of the base, and of the right option."""
    key = next(verdict.label for verdict in solution.verdicts if verdict.same)
    base = solution.item.base
    return (
        scale_of(figure, "base", area((base.exterior, *base.holes))),
        scale_of(figure, f"option-{key.lower()}", solution.outline.area),
    )


@pytest.fixture(scope="module")
def solutions(cases: Callable[[int, int], int]) -> list[JoinAndCutSolution]:
    demo = [load_solution(path) for path in demo_items("join-and-cut")]
    return [s for s in (*demo, *(solve(random_item(seed)) for seed in range(cases(10, 300)))) if _is_told_a_scale(s)]


def _is_told_a_scale(solution: JoinAndCutSolution) -> bool:
    """Where options differ in size among themselves, that is said, and nothing of all."""
    return len({option.scale for option in solution.item.options}) == 1


def test_in_every_lesson_the_options_are_smaller_and_the_task_says_so(solutions: list[JoinAndCutSolution]) -> None:
    for solution in solutions:
        task = plan_item(solution).steps[1]
        base, option = scales(task.picture, solution)
        assert option < 0.9 * base, solution.item.name
        assert task.narration[-1] == SMALLER


def test_on_paper_the_question_says_so_only_where_it_is_so(solutions: list[JoinAndCutSolution]) -> None:
    said = set()
    for solution in solutions:
        for printing in (Printing(), Printing(large=True)):
            asked = QuestionOnPaper(solution=solution, theme=paper_theme(DEFAULT_THEME), printing=printing).asked("One")
            shown = asked.picture.figure
            if asked.options is not None:  # on a page of their own
                shown = replace(shown, entries=(*shown.entries, *asked.options.figure.entries))
            base, option = scales(shown, solution)
            assert (SMALLER in asked.task) == (option <= 0.9 * base) != (PLAIN in asked.task), solution.item.name
            said.add(SMALLER in asked.task)
    assert True in said

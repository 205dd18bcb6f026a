"""A telling is a row of stages, and a stage is a function that yields steps: here are the rows of each manner.

What is seen runs on from step to step: every stage starts from the figure that the one before it left.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import TypeVar

from ...item.model import Manner
from ...storyboard.model import Step
from ..model import Solution, Verdict
from .context import StageContext
from .hint_stages import hint_to_count, hint_to_go_round
from .option_stages import answer, keep, options, options_beside, remember
from .question_stages import (
    check_to_try,
    compare,
    pause,
    pause_in_check,
    pause_to_note,
    recall,
    task,
    task_to_try,
    try_one_by_one,
)
from .sift_stages import rule_out, sift
from .waiting import ask_options

__all__ = ["Stage", "rows", "without_parts"]

SolutionT = TypeVar("SolutionT", bound=Solution)

ContextT = TypeVar("ContextT", bound=StageContext)
Stage = Callable[[ContextT], Iterator[Step]]


def rows(*worked: Stage[ContextT], hints: Sequence[Stage[ContextT]] = ()) -> dict[Manner, tuple[Stage[ContextT], ...]]:
    """The stages of each manner, in teaching order.

    worked : from the question to its finished outline, as its kind works it out; then the options are tried. None where
             the outline is what the question shows
    hints  : what its kind hints at, before what may be hinted at in any question
    """
    come = options if worked else options_beside
    solved: Sequence[Stage[ContextT]] = (*worked, come, ask_options, sift, rule_out, keep, answer, remember)
    return {
        Manner.WORKED_EXAMPLE: (task, *solved),
        Manner.YOUR_TURN: (task_to_try, pause, *solved),
        Manner.QUESTION: (task_to_try, pause_to_note, compare),
        Manner.HINTS: (task_to_try, pause_to_note, *hints, hint_to_count, hint_to_go_round, compare),
        Manner.SOLUTION: (recall, *solved),
        Manner.QUICK_CHECK: (check_to_try, pause_in_check, try_one_by_one, sift, rule_out, keep, answer),
    }


def without_parts(solution: SolutionT) -> SolutionT:
    """The solution without those slips that happen to a part of the question.

    For a quick check, in which nothing may be told of parts that are not shown.
    """
    return replace(solution, verdicts=tuple(_without_parts(verdict) for verdict in solution.verdicts))


def _without_parts(verdict: Verdict) -> Verdict:
    cases = verdict.slip.cases if verdict.slip else ()
    return verdict if all(case.subject is None for case in cases) else replace(verdict, slip=None)

"""The stages of a quick check: the finished outline and the options, to be compared; no piece is seen or spoken of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ....choice.model import Verdict
from ....choice.words import task as task_words
from ....choice.words.alt import check_alt, choices_alt
from ....storyboard.model import TASK, Step, Still
from ....wording import notes
from ....wording.lesson import Chapter, Heading, heading
from ..slips.registry import SLIPS
from ..solving.solution import JoinAndCutSolution
from .telling import Telling

__all__ = ["check_to_try", "try_one_by_one", "without_pieces"]


def without_pieces(solution: JoinAndCutSolution) -> JoinAndCutSolution:
    """The solution without those slips that happen to a piece, so that nothing is told of pieces that are not shown."""
    return replace(solution, verdicts=tuple(_without_pieces(verdict) for verdict in solution.verdicts))


def _without_pieces(verdict: Verdict) -> Verdict:
    cases = verdict.slip.cases if verdict.slip else ()
    return replace(verdict, slip=None) if any(SLIPS[case.slip].needs_piece for case in cases) else verdict


def check_to_try(telling: Telling) -> Iterator[Step]:
    """The outline with the options beside it, and the learners asked to try."""
    solution = telling.solution
    scales = {option.scale for option in solution.item.options}
    narration = (*task_words.check(sizes_differ=len(scales) > 1), *task_words.your_turn(telling.pause_s))
    figure = telling.choices.figure(check_alt(solution))
    yield telling.step(
        TASK,
        Chapter.YOUR_TURN,
        heading(Heading.CHECK),
        (Still(figure=figure),),
        narration,
        note=notes.task_note(),
        reveals=False,
    )


def try_one_by_one(telling: Telling) -> Iterator[Step]:
    """The pause is over."""
    figure = telling.choices.figure(choices_alt(telling.solution))
    yield telling.step(
        "together", Chapter.OPTIONS, heading(Heading.TOGETHER), (Still(figure=figure),), task_words.try_one_by_one()
    )

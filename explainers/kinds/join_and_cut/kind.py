"""Joining and cutting as a kind of question: what ``explainers.kinds.kind`` asks for, each from its own module."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from ...item.model import Manner

if TYPE_CHECKING:
    from ...choice.model import Answer, Solution
    from ...choice.question import Question
    from ...choice.stages.context import Telling
    from ...storyboard.model import Step
    from .model import Item

__all__ = ["JOIN_AND_CUT"]


class JoinAndCut:
    """The kind; see ``Kind``."""

    name = "join-and-cut"

    def answer(self, question: Question) -> Answer:
        """As ``Kind.answer``."""
        from .solving.solver import answer

        return answer(_own(question))

    def solve(self, question: Question) -> Solution:
        """As ``Kind.solve``."""
        from .solving.solver import solve

        return solve(_own(question))

    def with_pairs(self, solution: Solution) -> Solution:
        """As ``Kind.with_pairs``."""
        from .solving.solver import with_pairs

        return with_pairs(solution)

    # telling

    def steps(self, solution: Solution, telling: Telling) -> Iterable[Step]:
        """As ``Kind.steps``."""
        from .stages.piece_stages import told

        return told(solution, telling)

    def suggested_pause_s(self, solution: Solution, manner: Manner) -> float:
        """As ``Kind.suggested_pause_s``."""
        from .solving.difficulty import check_pause_s, suggested_pause_s

        return check_pause_s(solution) if manner is Manner.QUICK_CHECK else suggested_pause_s(solution)

    def page_words(self) -> dict[str, str]:
        """As ``Kind.page_words``."""
        from .words.handling import handling_words

        return handling_words()


def _own(question: Question) -> Item:
    from .model import Item

    if not isinstance(question, Item):
        raise TypeError(f"{question.name} is no item of joining and cutting")
    return question


JOIN_AND_CUT = JoinAndCut()

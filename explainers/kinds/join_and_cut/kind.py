"""Joining and cutting as a kind of question: what ``explainers.kinds.kind`` asks for, each from its own module."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ...choice.model import Answer, Solution
    from ...choice.panels.maker import PanelMaker
    from ...choice.question import Question
    from ...figure.paper import Printing
    from ...figure.theme import Theme
    from ..kind import Kind, OnPaper
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

    # drawing

    @property
    def panels(self) -> PanelMaker:
        """As ``Kind.panels``."""
        from .panels.maker import Panels

        return Panels()

    def on_paper(self, solution: Solution, theme: Theme, printing: Printing) -> OnPaper:
        """As ``Kind.on_paper``."""
        from .paper import QuestionOnPaper

        return QuestionOnPaper(solution=solution, theme=theme, printing=printing)


def _own(question: Question) -> Item:
    from .model import Item

    if not isinstance(question, Item):
        raise TypeError(f"{question.name} is no item of joining and cutting")
    return question


JOIN_AND_CUT: Kind = JoinAndCut()

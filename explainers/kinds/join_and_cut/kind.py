"""Joining and cutting as a kind of question: what ``explainers.kinds.kind`` asks for, each from its own module."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from ...choice.model import Answer, Solution
    from ...choice.question import Question
    from ...item.model import Manner
    from ...wording.lesson import Framing
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

    # words

    def framing(self, shown: Sequence[tuple[Manner, Solution]]) -> Framing:
        """As ``Kind.framing``."""
        from .words.framing import framing

        return framing(shown)

    def slips_in_brief(self) -> Mapping[str, str]:
        """As ``Kind.slips_in_brief``."""
        from ...choice.slip import SlipCase
        from .slips.registry import SLIPS
        from .words.slips import in_brief

        return {slip: in_brief(SlipCase(slip=slip)) for slip in SLIPS}

    def ask_why(self) -> str:
        """As ``Kind.ask_why``."""
        from .words.framing import ask_why

        return ask_why()


def _own(question: Question) -> Item:
    from .model import Item

    if not isinstance(question, Item):
        raise TypeError(f"{question.name} is no item of joining and cutting")
    return question


JOIN_AND_CUT = JoinAndCut()

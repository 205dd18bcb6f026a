"""Joining and cutting as a kind of question: what ``explainers.kinds.kind`` asks for, each from its own module."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from ...choice.model import Solution
    from ...choice.question import Question
    from ...choice.variations import Level, Variations
    from ...errors import Fault
    from ...item.glossary import Told
    from ...item.item_format import QuestionKeys
    from ...item.model import Manner
    from ...item.stops import Stops
    from ...wording.lesson import Framing
    from .model import Item
    from .solving.solution import JoinAndCutAnswer, JoinAndCutSolution

__all__ = ["JOIN_AND_CUT"]


class JoinAndCut:
    """The kind; see ``Kind``."""

    name = "join-and-cut"
    demo_item = "corner-block"

    def answer(self, question: Question) -> JoinAndCutAnswer:
        """As ``Kind.answer``."""
        from .solving.solver import answer

        return answer(_own(question))

    def solve(self, question: Question) -> JoinAndCutSolution:
        """As ``Kind.solve``."""
        from .solving.solver import solve

        return solve(_own(question))

    def with_pairs(self, solution: Solution) -> JoinAndCutSolution:
        """As ``Kind.with_pairs``."""
        from .solving.solver import with_pairs

        return with_pairs(_own_solution(solution))

    def refusals(self, question: Question, *, is_whole: bool, is_named: bool) -> list[Fault]:
        """As ``Kind.refusals``."""
        from .solving.refusals import refusals

        return refusals(_own(question), is_whole=is_whole, is_named=is_named)

    # words

    def framing(self, shown: Sequence[tuple[Manner, Solution]]) -> Framing:
        """As ``Kind.framing``."""
        from .words.framing import framing

        return framing([(manner, _own_solution(solution)) for manner, solution in shown])

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

    # the file

    @property
    def keys(self) -> QuestionKeys:
        """As ``Kind.keys``."""
        from .fields.item_reader import KEYS

        return KEYS

    @property
    def stops(self) -> Stops:
        """As ``Kind.stops``."""
        from .fields.stops import STOPS

        return STOPS

    def told_of_keys(self) -> Mapping[str, Told]:
        """As ``Kind.told_of_keys``."""
        from .fields.glossary import told_of_keys

        return told_of_keys()

    # new questions

    def vary(self, solution: Solution, *, count: int, seed: int, level: Level) -> Variations:
        """As ``Kind.vary``."""
        from .vary.search import siblings
        from .vary.telling import told

        return told(siblings(_own_solution(solution), count=count, seed=seed, level=level))


def _own(question: Question) -> Item:
    from .model import Item

    if not isinstance(question, Item):
        raise TypeError(f"{question.name} is no item of joining and cutting")
    return question


def _own_solution(solution: Solution) -> JoinAndCutSolution:
    from .solving.solution import JoinAndCutSolution

    if not isinstance(solution, JoinAndCutSolution):
        raise TypeError(f"{solution.item.name} is no solved item of joining and cutting")
    return solution


JOIN_AND_CUT = JoinAndCut()

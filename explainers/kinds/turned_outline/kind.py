"""The turned outline as a kind of question: what ``explainers.kinds.kind`` asks for, each from its own module."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from ...item.model import Manner

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from ...choice.model import Solution
    from ...choice.panels.maker import PanelMaker
    from ...choice.question import Question
    from ...choice.slip import Slips
    from ...choice.stages.context import StageSettings
    from ...choice.variations import Level, Variations
    from ...errors import Fault
    from ...figure.paper import Printing
    from ...figure.theme import Theme
    from ...item.glossary import Explanation
    from ...item.item_format import QuestionKeys
    from ...item.stops import Stops
    from ...sentences.lesson import Framing
    from ...sentences.sheets import CutOutWords
    from ...storyboard.model import Step
    from ..drawing_tools import DrawingTools
    from ..kind import Kind, OnPaper
    from .model import TurnedOutline
    from .solution import TurnedOutlineAnswer, TurnedOutlineSolution

__all__ = ["TURNED_OUTLINE"]


class TurnedOutlineKind:
    """The kind; see ``Kind``."""

    name = "turned-outline"
    demo_item = "sail-block"

    def answer(self, question: Question) -> TurnedOutlineAnswer:
        """As ``Kind.answer``."""
        from .solver import answer

        return answer(_own(question))

    def solve(self, question: Question) -> TurnedOutlineSolution:
        """As ``Kind.solve``."""
        from .solver import solve

        return solve(_own(question))

    def with_pairs(self, solution: Solution) -> TurnedOutlineSolution:
        """As ``Kind.with_pairs``."""
        from .solution import own_solution
        from .solver import with_pairs

        return with_pairs(own_solution(solution))

    def slips_of(self, solution: Solution) -> Slips:
        """As ``Kind.slips_of``."""
        from .slips.diagnosis import OutlineSlips
        from .solution import own_solution

        return OutlineSlips.of(own_solution(solution).item)

    def refusals(self, question: Question, *, is_whole: bool, is_named: bool) -> list[Fault]:
        """As ``Kind.refusals``."""
        from .solver import refusals

        return refusals(_own(question), is_named=is_named)

    # words

    def framing(self, shown: Sequence[tuple[Manner, Solution]]) -> Framing:
        """As ``Kind.framing``."""
        from .solution import own_solution
        from .words.framing import framing

        return framing([(manner, own_solution(solution)) for manner, solution in shown])

    def slips_in_brief(self) -> Mapping[str, str]:
        """As ``Kind.slips_in_brief``."""
        from .slips.registry import SLIPS
        from .words.slips import in_brief

        return {slip: in_brief(slip) for slip in SLIPS}

    def ask_why(self) -> str:
        """As ``Kind.ask_why``."""
        from .words.framing import ask_why

        return ask_why()

    def cut_out_words(self) -> CutOutWords:
        """As ``Kind.cut_out_words``."""
        from .words.cut_outs import cut_out_words

        return cut_out_words()

    # telling

    def steps(self, solution: Solution, settings: StageSettings) -> Iterable[Step]:
        """As ``Kind.steps``."""
        from .solution import own_solution
        from .stages.look_stages import tell

        return tell(own_solution(solution), settings)

    def page_words(self) -> dict[str, str]:
        """As ``Kind.page_words``."""
        from .words.framing import page_words

        return page_words()

    def things(self) -> dict[tuple[str, str], str]:
        """As ``Kind.things``: it has none that any other question has not."""
        return {}

    # drawing

    @property
    def panels(self) -> PanelMaker:
        """As ``Kind.panels``."""
        from .panels.maker import Panels

        return Panels()

    def on_paper(self, solution: Solution, theme: Theme, printing: Printing) -> OnPaper:
        """As ``Kind.on_paper``."""
        from .paper import QuestionOnPaper
        from .solution import own_solution

        return QuestionOnPaper(solution=own_solution(solution), theme=theme, printing=printing)

    # the file

    @property
    def keys(self) -> QuestionKeys:
        """As ``Kind.keys``."""
        from .fields.item_reader import KEYS

        return KEYS

    @property
    def stops(self) -> Stops:
        """As ``Kind.stops``."""
        from .fields.item_reader import STOPS

        return STOPS

    def key_glossary(self) -> Mapping[str, Explanation]:
        """As ``Kind.key_glossary``."""
        from .fields.glossary import key_glossary

        return key_glossary()

    @property
    def tools(self) -> DrawingTools:
        """As ``Kind.tools``."""
        from .editing.tools import Tools

        return Tools()

    # new questions

    def vary(self, solution: Solution, *, count: int, seed: int, level: Level) -> Variations:
        """As ``Kind.vary``."""
        from .solution import own_solution
        from .vary.search import varied

        return varied(own_solution(solution), count=count, seed=seed, level=level)


def _own(question: Question) -> TurnedOutline:
    from .model import TurnedOutline

    if not isinstance(question, TurnedOutline):
        raise TypeError(f"{question.name} is no item of the turned outline")
    return question


TURNED_OUTLINE: Kind = TurnedOutlineKind()

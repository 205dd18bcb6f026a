"""What a kind of question must give, so that everything else can be made of it.

A kind is a folder beside this module and one line in the package's entry points, under ``explainers.kinds``: its
name, as an item says it after ``kind:``, and the object that gives what stands below. Nobody but the kind itself
imports from its folder. What any question with outlines as options needs is in ``explainers.choice``; a kind adds its
own values to those (its questions are `Question`, its answers `Answer`, its solutions `Solution`), and is handed
nothing but its own. A solution says itself what only its kind can: the turns to find, what makes it hard, by what it
is known again, which slips may happen. ``explainers.choice.solving`` judges the options of whatever brings its finished
outline and its `Slips`.

What is said of any question, the rooms above say themselves: of an outline that comes of the question as "the finished
outline", of one that the question shows (`Question.outline_given`) as "the outline". Words that only one kind has, it
gives itself: as its framing, its facts, its slips, and below.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Protocol

from ..choice.model import Answer, Solution
from ..choice.panels.maker import PanelMaker
from ..choice.question import Question
from ..choice.slip import Slips
from ..choice.stages.context import StageSettings
from ..choice.stages.sheet_model import AskedItem, CutOutItem, SheetStill
from ..choice.variations import Level, Variations
from ..errors import Fault
from ..figure.paper import Printing
from ..figure.theme import Theme
from ..item.glossary import Explanation
from ..item.item_format import QuestionKeys
from ..item.model import Manner
from ..item.stops import Stops
from ..sentences.lesson import Framing
from ..sentences.sheets import CutOutWords
from ..storyboard.model import Step
from .drawing_tools import DrawingTools

__all__ = ["Kind", "OnPaper"]


class OnPaper(Protocol):
    """One question as sheets of paper show it."""

    def asked(self, heading: str) -> AskedItem:
        """The question: task, picture, letters of the options."""

    def answered(self) -> tuple[SheetStill, ...]:
        """How the answer comes about, in pictures; the last shows the finished outline."""

    def cut_outs(self, heading: str) -> CutOutItem | None:
        """What there is to cut out and turn by hand; None where there is nothing."""


class Kind(Protocol):
    """One kind of question. Methods import what they need when they are called, so that listing kinds is cheap."""

    @property
    def name(self) -> str:
        """As an item says it after ``kind:``: lower-case letters and hyphens."""

    def answer(self, question: Question) -> Answer:
        """Which option is right, without a reason: a fraction of the time of ``solve``.

        Raises : ItemError with every fault found, field paths only
        """

    def solve(self, question: Question) -> Solution:
        """Everything that is true of a question.

        Raises : ItemError with every fault found, field paths only; a question without exactly one right option raises
                 nothing: the solution says why it is not sound
        """

    def with_pairs(self, solution: Solution) -> Solution:
        """The same solution, with pairs of slips sought as well for options that no single slip makes."""

    def slips_of(self, solution: Solution) -> Slips:
        """What slips make of a question."""

    def refusals(self, question: Question, *, is_whole: bool, is_named: bool) -> list[Fault]:
        """What solving would refuse in a question of which only a part could be read, field paths only.

        is_whole : whether all but its options has been read
        is_named : whether the name is its own; options that are to be made depend on it
        """

    # words

    def framing(self, shown: Sequence[tuple[Manner, Solution]]) -> Framing:
        """What stands round the questions of this kind in a lesson; nothing in it says which option fits.

        shown : the questions in order, each with how it is shown
        """

    def slips_in_brief(self) -> Mapping[str, str]:
        """Its slips by name, in the order of lists, each as a phrase about no question in particular."""

    def ask_why(self) -> str:
        """What a teacher may ask whoever chose the right option: one sentence for a marking sheet."""

    def cut_out_words(self) -> CutOutWords:
        """What its cut-outs are called, on the sheet and on the folder's page."""

    # the file

    @property
    def keys(self) -> QuestionKeys:
        """What it adds to the format of an item, and how a question is made of what was read."""

    @property
    def stops(self) -> Stops:
        """Where a lesson may stop within its questions and ask."""

    @property
    def demo_item(self) -> str:
        """The demo item that a new one begins from."""

    def key_glossary(self) -> Mapping[str, Explanation]:
        """What a new item tells of its keys: by top-level key, its own and ``options``."""

    @property
    def tools(self) -> DrawingTools:
        """How its questions are drawn by hand."""

    # new questions

    def vary(self, solution: Solution, *, count: int, seed: int, level: Level) -> Variations:
        """As many new questions of the same build as can be found; the same for the same solution, seed and level.

        Raises : UnsoundItemError for an original that is not sound itself
        """

    # telling

    def steps(self, solution: Solution, settings: StageSettings) -> Iterable[Step]:
        """The steps that tell a question in its manner, in teaching order; see ``choice.stages`` for most of them.

        solution : sound
        Raises   : FactError where a sentence would be false
        """

    def page_words(self) -> dict[str, str]:
        """The texts by which a page lets learners do with their hands what its steps say (`Step.handling`), by key."""

    def things(self) -> dict[tuple[str, str], str]:
        """What it calls one of several things of its own in a list, such as that of the shapes of a slide.

        By what they are (`Subject.thing`) and by the role of their cloth, "" for where that is not shown; each with
        ``{name}`` for which of them is meant. What any question is made of has names already.
        """

    # drawing

    @property
    def panels(self) -> PanelMaker:
        """What a teacher is shown while writing a question."""

    def on_paper(self, solution: Solution, theme: Theme, printing: Printing) -> OnPaper:
        """A sound question for sheets to print.

        theme : with type that is large enough on paper, as of ``figure.paper.paper_theme``
        """

"""What a kind of question must give, so that everything else can be made of it.

A kind is a folder beside this module and one line in the package's entry points, under ``explainers.kinds``: its
name, as an item says it after ``kind:``, and the object that gives what stands below. Nobody but the kind itself
imports from its folder. What any question with outlines as options needs is in ``explainers.choice``; a kind adds its
own values to those (its questions are `Question`, its solutions `Solution`), and is handed nothing but its own.
"""

from __future__ import annotations

from typing import Protocol

from ..choice.model import Answer, Solution
from ..choice.panels.maker import PanelMaker
from ..choice.question import Question
from ..figure.paper import Printing
from ..figure.theme import Theme
from ..storyboard.sheet_model import AskedItem, CutOutItem, Still

__all__ = ["Kind", "OnPaper"]


class OnPaper(Protocol):
    """One question as sheets of paper show it."""

    def asked(self, heading: str) -> AskedItem:
        """The question: task, picture, letters of the options."""

    def answered(self) -> tuple[Still, ...]:
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

    # drawing

    @property
    def panels(self) -> PanelMaker:
        """What a teacher is shown while writing a question."""

    def on_paper(self, solution: Solution, theme: Theme, printing: Printing) -> OnPaper:
        """A sound question for sheets to print.

        theme : with type that is large enough on paper, as of ``figure.paper.paper_theme``
        """

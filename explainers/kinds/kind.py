"""What a kind of question must give, so that everything else can be made of it.

A kind is a folder beside this module and one line in the package's entry points, under ``explainers.kinds``: its
name, as an item says it after ``kind:``, and the object that gives what stands below. Nobody but the kind itself
imports from its folder. What any question with outlines as options needs is in ``explainers.choice``; a kind adds its
own values to those (its questions are `Question`, its solutions `Solution`), and is handed nothing but its own.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from ..choice.model import Answer, Solution
from ..choice.question import Question
from ..choice.stages.context import Telling
from ..item.model import Manner
from ..storyboard.model import Step

__all__ = ["Kind"]


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

    # telling

    def steps(self, solution: Solution, telling: Telling) -> Iterable[Step]:
        """The steps that tell a question in its manner, in teaching order; see ``choice.stages`` for most of them.

        solution : sound
        Raises   : FactError where a sentence would be false
        """

    def suggested_pause_s(self, solution: Solution, manner: Manner) -> float:
        """How long learners might get to try a question first where it is shown in this manner: an estimate."""

    def page_words(self) -> dict[str, str]:
        """The texts by which a page lets learners do with their hands what its steps say (`Step.handling`), by key."""

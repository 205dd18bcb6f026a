"""A kind of question without pieces, marks or base, as a stand-in: which option is this outline, turned?

It gives what a kind must give to be solved and told and no more, so that whatever asks for more fails on it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from explainers.choice import solving
from explainers.choice.model import Answer, Likeness, Posed, Solution
from explainers.choice.question import Question
from explainers.choice.slip import FLIPPED, CannotBeMade, MakesTheResult, SlipCase, SlipFact
from explainers.choice.stages.context import StageContext, StageSettings
from explainers.choice.stages.rows import rows
from explainers.geometry.congruence import Match, congruence, motions_onto
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point
from explainers.geometry.rings import extent, perimeter
from explainers.geometry.tolerance import authoring_tolerance
from explainers.storyboard.model import Step

Cases = tuple[SlipCase, ...]

# How much wider each slip makes the outline; turned over, it is as wide as before.
WIDER = {FLIPPED: -1.0, "wider": 1.5, "narrower": 0.5}


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedOutline(Question):
    """One outline is shown; one option is the same."""

    kind: ClassVar[str] = "turned-outline"

    outline: Outline

    @property
    def extent(self) -> float:
        """The larger extent of the outline."""
        return self.outline.larger_extent

    @property
    def lower_left(self) -> Point:
        """The lower left of the outline."""
        left, bottom, _, _ = extent(self.outline.exterior)
        return left, bottom


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchFact(SlipFact):
    """An option is the outline made wider."""

    def holds(self) -> bool:
        """It is, and that makes it another outline."""
        made = stretched(self.outline, WIDER[self.cases[0].slip])
        return made == self.replayed and bool(motions_onto(self.option, made, self.tolerance))

    def in_brief(self) -> str:
        """The slip by its name."""
        return self.cases[0].slip

    def in_short(self) -> tuple[str, ...]:
        """The slip as a sentence."""
        return (f"Option {self.label} is the outline, {self.cases[0].slip}.",)

    def practise(self, case: SlipCase) -> str:
        """The slip as what to look for."""
        return f"Practise seeing what is {case.slip}."


class Stretches:
    """The slips of one such question."""

    def __init__(self, question: TurnedOutline) -> None:
        self.outline, self.tolerance = question.outline, authoring_tolerance(question.extent)

    def singles(self) -> Iterator[Cases]:
        return ((SlipCase(slip=slip),) for slip in WIDER)

    def pairs(self) -> Iterator[Cases]:
        return iter(())

    def further(self) -> Iterator[tuple[Cases, Outline]]:
        return iter(())

    def knows(self, case: SlipCase) -> bool:
        return case.slip in WIDER

    def made(self, cases: Cases) -> Outline:
        made = stretched(self.outline, WIDER[cases[0].slip])
        if motions_onto(made, self.outline, self.tolerance):
            raise MakesTheResult("what comes out is the outline itself")
        return made

    def fact_of(self, label: str, cases: Cases, option: Outline) -> StretchFact:
        return StretchFact(
            tolerance=self.tolerance,
            label=label,
            cases=cases,
            option=option,
            outline=self.outline,
            replayed=self.made(cases),
        )

    def diagnosed(self, label: str, option: Outline, *, pairs: bool) -> StretchFact | None:
        for cases in self.singles():
            try:
                fact = self.fact_of(label, cases, option)
            except CannotBeMade:
                continue
            if fact.holds():
                return fact
        return None

    def diagnosed_pair(self, label: str, option: Outline) -> StretchFact | None:
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedSolution(Solution):
    """Such a question solved."""

    def posed(self) -> Posed:
        return PosedOutline(self.outline, self.tolerance)


class TurnedContext(StageContext):
    """Its questions are asked as options beside the outline."""


STAGES_BY_MANNER = rows()


def told(solution: Solution, settings: StageSettings) -> list[Step]:
    """The steps that tell such a question: there is nothing to work out before its options are tried."""
    context = TurnedContext(solution, settings)
    return [step for stage in STAGES_BY_MANNER[settings.manner] for step in stage(context)]


@dataclass(frozen=True, slots=True)
class PosedOutline:
    """The outline alone is what is asked."""

    outline: Outline
    tolerance: float

    @property
    def counts(self) -> tuple[object, ...]:
        return tuple(sorted(map(len, self.outline.rings)))

    @property
    def numbers(self) -> tuple[float, ...]:
        return (perimeter(self.outline.exterior) / math.sqrt(self.outline.area),)

    @property
    def slack(self) -> float:
        return 0.01

    def likeness(self, other: PosedOutline) -> Likeness | None:
        found = congruence(self.outline, other.outline, other.tolerance)
        if found.kind is Match.BY_TURNING:
            return Likeness(motion=found.motions[0], flipped=False)
        return None


def stretched(outline: Outline, factor: float) -> Outline:
    """The outline made wider; by a factor below 0 it is turned over besides."""
    exterior, *holes = ([(factor * x, y) for x, y in ring] for ring in outline.rings)
    return Outline.of(exterior, holes)


def answer(question: TurnedOutline) -> Answer:
    return solving.answered(solving.basis_for(question, Stretches(question)), Answer)


def solve(question: TurnedOutline, *, pairs: bool = False) -> TurnedSolution:
    drawn = [("outline", ring) for ring in question.outline.rings]
    basis = solving.basis_for(question, Stretches(question))
    return solving.solved(basis, partial(TurnedSolution), warned=(), drawn=drawn, pairs=pairs)

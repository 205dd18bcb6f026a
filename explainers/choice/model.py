"""What solving yields, as plain values: verdicts, the bare answer, the solution.

A kind of question adds its own values to the answer and the solution, and says there what only it can. Everything
stands in the coordinates of the question unless a field says otherwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Protocol, Self

from ..geometry.angles import wrapped_deg
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Similarity
from ..geometry.tolerance import authoring_tolerance
from .fact import Fact
from .features import Features, in_fives
from .fit import Fit
from .question import Question, WarningKind
from .slip import FLIPPED, SlipFact

__all__ = ["Answer", "Judgement", "Likeness", "Posed", "Solution", "Verdict", "Warning_"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Likeness:
    """How one question is laid on another."""

    motion: Similarity
    flipped: bool  # the first is turned over before it is laid on


class Posed(Protocol):
    """What is asked; questions are compared in full only where counts and figures agree."""

    @property
    def counts(self) -> tuple[object, ...]:
        """Counts that two questions which may be the same share."""

    @property
    def numbers(self) -> tuple[float, ...]:
        """Figures that two questions which may be the same share, flipped or not, each to within the slack."""

    @property
    def slack(self) -> float:
        """How far typing to within the tolerance may move those figures."""

    def likeness(self, other: Self) -> Likeness | None:
        """How it is laid on the other, without a flip where that is possible; None: they ask different things."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """Whether an option is right."""

    label: str  # A, B, C ... in file order
    outline: Outline  # in the option's own coordinates, before `turned` and `scale`
    same: bool
    mirrored: bool  # true only where same is false: the result turned over


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict(Judgement):
    """One option kept or ruled out, with the reasons."""

    code: str  # the option's name, or a short code of what it is; part of step ids, never shown to learners
    drawn: Similarity  # how the sheet shows it: the option's `turned` and `scale`, no shift
    fit: Fit
    reasons: tuple[Fact, ...]  # for a right option the fact that it is the same; else what rules it out, best first
    slip: SlipFact | None = None  # the slip that makes a wrong option's outline, where one is known


@dataclass(frozen=True, slots=True, kw_only=True)
class Warning_:
    """Something a teacher should look at; it changes no exit code."""

    kind: str  # a `WarningKind`, or the name of one that only its kind of question has
    field: str
    message: str
    fix: str = ""  # what to do about it, where one thing is nearly always right

    @property
    def told(self) -> str:
        """The message, and how to mend it."""
        return f"{self.message}. To mend it: {self.fix}" if self.fix else self.message


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What an item comes to, without the reasons: they take most of the time, and not everyone asks for them."""

    item: Question
    outline: Outline  # the result, needless corners dropped, holes kept
    verdicts: tuple[Judgement, ...]
    key: str | None  # the label of the right option where there is exactly one
    sound: bool
    unsound_because: tuple[str, ...]  # plain sentences; empty where sound

    @property
    def tolerance(self) -> float:
        """The authoring tolerance of the item, in its own units."""
        return authoring_tolerance(self.item.extent)

    @property
    def turns_deg(self) -> tuple[float, ...]:
        """The turns that a learner has to find before looking at the options, each in (-180, 180]."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution(Answer):
    """An item solved."""

    verdicts: tuple[Verdict, ...]
    warnings: tuple[Warning_, ...]  # without those that the item accepts
    symmetry_order: int  # in how many turned positions the result looks the same, 1 or more
    accepted: tuple[Warning_, ...] = ()  # warnings of the kinds that the item accepts; told in the certificate only

    def work_lines(self) -> tuple[str, ...]:
        """How the outline comes about, a sentence for a teacher for each step of it; () where it is shown."""
        return ()

    def compared(self) -> Features:
        """What comparing the options with the finished outline asks of a learner."""
        turns = [wrapped_deg(verdict.fit.motion.turn_deg - verdict.drawn.turn_deg) for verdict in self.verdicts]
        return Features(
            hole=bool(self.outline.holes),
            options=len(self.verdicts),
            options_turn_deg=math.fsum(map(abs, turns)),
            flipped_option=any(verdict.mirrored for verdict in self.verdicts),
            nearly_right=sum(warning.kind == WarningKind.NEARLY_RIGHT for warning in (*self.warnings, *self.accepted)),
        )

    def features(self) -> Features:
        """What the whole question asks of a learner."""
        return self.compared()

    def posed(self) -> Posed:
        """The question without names, by which it is known again."""
        raise NotImplementedError

    def possible_slips(self, *, parts_seen: bool = True) -> tuple[str, ...]:
        """The names of the slips that may happen in it, in the order of its kind.

        parts_seen : whether learners see what the finished outline is made of
        """
        return (FLIPPED,)

    @property
    def suggested_pause_s(self) -> float:
        """How long learners might get to try first, from 15 to 120 s in whole fives: an estimate."""
        return in_fives(self.features().seconds_of_work)

    @property
    def check_pause_s(self) -> float:
        """The suggested pause in seconds where only the options are compared with the finished outline."""
        return in_fives(replace(self.compared(), hole=False).seconds_of_work)

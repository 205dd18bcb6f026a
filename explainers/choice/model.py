"""What solving yields, as plain values: placements, verdicts, the bare answer, the solution.

Everything stands in the base's coordinates unless a field says otherwise.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Similarity
from ..geometry.tolerance import authoring_tolerance
from ..kinds.join_and_cut.model import Item
from ..kinds.join_and_cut.solving.placement import Placement
from .fact import Fact
from .fit import Fit
from .question import WarningKind
from .slip import SlipFact

__all__ = ["Answer", "Judgement", "Placement", "Solution", "Verdict", "Warning_"]


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

    kind: WarningKind
    field: str
    message: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What an item comes to, without the reasons: they take most of the time, and not everyone asks for them."""

    item: Item
    placements: tuple[Placement, ...]
    outline: Outline  # the result, needless corners dropped, holes kept
    verdicts: tuple[Judgement, ...]
    key: str | None  # the label of the right option where there is exactly one
    sound: bool
    unsound_because: tuple[str, ...]  # plain sentences; empty where sound

    @property
    def tolerance(self) -> float:
        """The authoring tolerance of the item, in its own units."""
        return authoring_tolerance(self.item.extent)


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution(Answer):
    """An item solved."""

    verdicts: tuple[Verdict, ...]
    warnings: tuple[Warning_, ...]  # without those that the item accepts
    symmetry_order: int  # in how many turned positions the result looks the same, 1 or more
    accepted: tuple[Warning_, ...] = ()  # warnings of the kinds that the item accepts; told in the certificate only

    def work_lines(self) -> tuple[str, ...]:
        """How the outline comes about, a sentence for a teacher for each step of it; () where it is shown."""
        return tuple(placement.as_line() for placement in self.placements)

"""One question of the turned outline being told: its outline looked at closely, what to remember of it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from ....choice.stages.context import StageContext
from ....choice.strategy import Candidate, StrategyFact
from ....choice.words.alt import outline_alt
from ....figure.model import Figure
from ....geometry.rigid_motion import Similarity
from ....words.messages import say
from ..drawing.look import Look, LookPhase
from ..facts.landmark import LandmarkFact, landmark_fact
from ..facts.strategy import OutlineStrategyFact, outline_candidates
from ..solution import TurnedOutlineSolution
from .unseen import UnseenLook

__all__ = ["OutlineContext", "look_alt"]


class OutlineContext(StageContext):
    """What the stages of one question are told from."""

    solution: TurnedOutlineSolution

    @cached_property
    def look(self) -> Look:
        """The outline, large."""
        kind = Look if self.is_seen else UnseenLook
        return kind(outline=self.solution.outline, theme=self.theme)

    @cached_property
    def landmark(self) -> LandmarkFact:
        """The corner from which to go round."""
        return landmark_fact(self.solution.outline, self.solution.tolerance)

    @property
    def outline_view(self) -> Similarity:
        """As the close look shows it."""
        return self.look.view

    def looked_at(self, phase: LookPhase) -> Figure:
        """The outline with what stands out in a phase of the look."""
        return self.look.figure(look_alt(self.landmark, phase), self.landmark, phase)

    def own_strategies(self) -> Iterable[Candidate]:
        """To start at a corner that is known again."""
        return outline_candidates(self.solution)

    def picture_of(self, fact: StrategyFact) -> Figure | None:
        """The close look, with that corner ringed."""
        return self.looked_at(LookPhase.CORNER) if isinstance(fact, OutlineStrategyFact) else None


def look_alt(fact: LandmarkFact, phase: LookPhase) -> str:
    """The outline of the close look in words."""
    stands_out = fact.alt(going_round=phase is LookPhase.ROUND)
    return " ".join((say("The outline, alone."), outline_alt(fact.outline), stands_out))

"""One question of the turned outline being told: its outline looked at closely, what to remember of it."""

from __future__ import annotations

from functools import cached_property

from ....choice.stages.context import StageContext, ToRemember
from ....choice.words.alt import choices_alt, outline_alt
from ....figure.model import Figure
from ....geometry.rigid_motion import Similarity
from ....words.messages import say
from ..drawing.look import Look, LookPhase
from ..facts.landmark import LandmarkFact, landmark_fact
from ..facts.remember import Takeaway, remember_fact
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

    def to_remember(self) -> ToRemember:
        """What is most likely to have been missed, over the option that shows it."""
        solution = self.solution
        fact = remember_fact(solution)
        out = tuple(verdict.label for verdict in solution.verdicts if not verdict.same)
        laid = next((verdict for verdict in solution.verdicts if verdict.label == fact.label), None)
        kept = laid is not None and fact.lesson is not Takeaway.FLIP
        alt = choices_alt(solution, settled=out, laid=laid, kept=kept)
        return ToRemember(
            figure=self.choices.figure(alt, settled=out, laid=laid, kept=kept),
            headline=fact.headline(),
            narration=fact.narration(),
            fact=fact,
        )


def look_alt(fact: LandmarkFact, phase: LookPhase) -> str:
    """The outline of the close look in words."""
    stands_out = fact.alt(going_round=phase is LookPhase.ROUND)
    return " ".join((say("The outline, alone."), outline_alt(fact.outline), stands_out))

"""A slip replayed: what comes out when it happens, in the place where the outline lies.

A kind whose slips happen to a part of its question draws more than this: how that part lies when it happens.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ...figure.layout import extent_of
from ...figure.model import Figure
from ...figure.motion import TurnOver
from ...figure.subject import THE_OUTLINE
from ..slip import FLIPPED, SlipFact
from .choices import Choices

__all__ = ["Replay"]


@dataclass(frozen=True)
class Replay:
    """One slip shown on the table, the options in the tray beside it."""

    choices: Choices
    fact: SlipFact

    @property
    def turns_over(self) -> bool:
        """Whether the slip is that of turning the whole outline over, which is shown as just that."""
        return all(case.slip == FLIPPED for case in self.fact.cases)

    def turn_over(self) -> TurnOver:
        """The outline turned over where it lies."""
        box = extent_of(self.choices.view.apply(self.choices.solution.outline.exterior))
        return TurnOver(group=THE_OUTLINE.group, axis_x=box.middle[0])

    def figure(self, alt: str, *, settled: tuple[str, ...]) -> Figure:
        """What comes out."""
        if not self.turns_over:
            return self.slipped(alt, settled=settled)
        tray = self.choices.figure(alt, settled=settled)
        over = self.turn_over()
        turned = [over.at(1.0, entry) if entry.group == over.group else entry for entry in tray.entries]
        return replace(tray, entries=tuple(turned))

    def slipped(self, alt: str, *, settled: tuple[str, ...]) -> Figure:
        """What comes out where the outline is not just turned over: it takes the outline's place."""
        slipped = replace(self.choices.solution, outline=self.fact.replayed)
        return Choices(solution=slipped, theme=self.choices.theme).figure(alt, settled=settled)

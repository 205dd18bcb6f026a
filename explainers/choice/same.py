"""That an option is the outline that is looked for."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry.angles import wrapped_deg
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring, Similarity
from ..geometry.tolerance import TURN_DEG
from ..words.messages import say
from ..words.names import a_turn_in_words, is_no_turn, the_option
from . import fingerprint
from .fact import Fact, Stated

__all__ = ["SameFact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SameFact(Fact):
    """An option is the outline."""

    label: str
    option: Outline  # in its own coordinates
    outline: Outline
    motion: Similarity  # lays the option on the outline
    shown_turn_deg: float  # how the sheet shows the option: its `turned`
    turn_deg: float  # from the option as the sheet shows it to lying on the outline, the shorter way round

    def holds(self) -> bool:
        """The motion lays the option on the outline corner for corner, and the turn leads there."""
        away = wrapped_deg(self.motion.turn_deg - self.shown_turn_deg - self.turn_deg)
        if abs(away) > TURN_DEG or not -180.0 < self.turn_deg <= 180.0:
            return False
        laid, goal = self.option.moved(self.motion).simplified(self.tolerance), self.outline.simplified(self.tolerance)
        if len(laid.holes) != len(goal.holes) or not _is_laid(laid.exterior, goal.exterior, self.tolerance):
            return False
        return all(any(_is_laid(hole, other, self.tolerance) for other in goal.holes) for hole in laid.holes)

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """How far it turns, and the outline that it is."""
        return ("same", self.label, fingerprint.angle(self.turn_deg), fingerprint.shape(self.outline, origin))

    def stated(self) -> Stated:
        """The turn, and both outlines."""
        return Stated(turn_deg=self.turn_deg, outlines=(self.option, self.outline), label=self.label, is_right=True)

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """To a learner who has chosen it.

        outline_given : as `Question.outline_given`
        """
        if outline_given:
            fits = say("Every corner and every side of option {label} fits the outline.", label=self.label)
        else:
            fits = say("Every corner and every side of option {label} fits the finished outline.", label=self.label)
        return (say("Yes, {label}.", label=self.label), fits)

    def in_report(self) -> str:
        """To a teacher, in brief."""
        return "fits without a turn" if is_no_turn(self.turn_deg) else f"fits after {a_turn_in_words(self.turn_deg)}"

    def as_line(self) -> str:
        """As a plain line."""
        return f"{the_option(self.label)}: the outline, after {a_turn_in_words(self.turn_deg)}"


def _is_laid(ring: Ring, goal: Ring, tolerance: float) -> bool:
    if len(ring) != len(goal):
        return False
    _, start = min((math.dist(ring[0], corner), i) for i, corner in enumerate(goal))
    return all(math.dist(a, b) <= tolerance for a, b in zip(ring, goal[start:] + goal[:start], strict=True))

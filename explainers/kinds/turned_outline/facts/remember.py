"""The one thing to remember of a question: what a learner is most likely to have missed in it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from ....choice import fingerprint
from ....choice.differences.mirror import MirrorFact
from ....choice.fact import Fact, Stated, verified
from ....choice.finished import OutlineFact, outline_fact
from ....choice.same import SameFact
from ....geometry.rigid_motion import Point
from ....geometry.tolerance import MEANT_DEG
from ....words.messages import message, say, say_count
from ....words.names import degrees_in_words, the_option
from ..solution import TurnedOutlineSolution

__all__ = ["RememberFact", "Takeaway", "remember_fact"]


class Takeaway(StrEnum):
    """What there is to remember."""

    HOLE = "hole"  # the outline has a hole, which is turned with it
    HALF_TURN = "half-turn"  # the right option turns by 180 degrees
    LARGE_TURN = "large-turn"  # it turns by more than 90 degrees, less than 180
    FLIP = "flip"  # an option is the outline turned over
    SMALL_TURN = "small-turn"  # the right option turns by 90 degrees or less
    NO_TURN = "no-turn"  # it needs no turn at all


_HEADLINES = {
    Takeaway.HOLE: message("A hole is part of the outline"),
    Takeaway.HALF_TURN: message("Half a turn: either way will do"),
    Takeaway.LARGE_TURN: message("Turn far enough"),
    Takeaway.FLIP: message("Turn, but never flip"),
    Takeaway.SMALL_TURN: message("Turn before you compare"),
    Takeaway.NO_TURN: message("Some options need no turn"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class RememberFact(Fact):
    """What there is to remember, with the fact that shows it."""

    lesson: Takeaway
    evidence: Fact

    def holds(self) -> bool:
        """The evidence holds, and it shows this."""
        shown = self.evidence
        match self.lesson:
            case Takeaway.HOLE:
                return isinstance(shown, OutlineFact) and shown.holes > 0 and shown.holds()
            case Takeaway.FLIP:
                return isinstance(shown, MirrorFact) and shown.holds()
            case _:
                return isinstance(shown, SameFact) and _of_turn(shown.turn_deg) is self.lesson and shown.holds()

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """What it is, and what shows it."""
        return ("remember", self.lesson.value, self.evidence.fingerprint_parts(origin))

    def stated(self) -> Stated:
        """Its evidence states everything."""
        return Stated(label=self.label, evidence=(self.evidence,), may_be_flip=True)

    @property
    def label(self) -> str:
        """The option that it is about; "" where it is about the outline."""
        return self.evidence.label if isinstance(self.evidence, MirrorFact | SameFact) else ""

    def headline(self) -> str:
        """In a few words, for a heading or a slide's title."""
        return say(_HEADLINES[self.lesson])

    def narration(self) -> tuple[str, ...]:
        """In sentences.

        Raises : FactError where the fact does not hold
        """
        return verified(self, self._sentences())

    def as_line(self) -> str:
        """As a plain line."""
        about = f" ({the_option(self.label)})" if self.label else ""
        return f"to remember: {self.headline()}{about}"

    def _sentences(self) -> tuple[str, ...]:
        label, shown = self.label, self.evidence
        match self.lesson:
            case Takeaway.HOLE:
                holes = shown.holes if isinstance(shown, OutlineFact) else 0
                return (
                    say_count(
                        "Remember: this outline has {count} hole.", "Remember: this outline has {count} holes.", holes
                    ),
                    say("Look inside an outline as well as along its outside."),
                )
            case Takeaway.HALF_TURN:
                return (
                    say("Remember: option {label} needs half a turn.", label=label),
                    say("It ends up the same, whichever way you turn it."),
                )
            case Takeaway.LARGE_TURN:
                return (self._turning(), say("That is more than a quarter turn, so do not stop too soon."))
            case Takeaway.SMALL_TURN:
                return (self._turning(), say("Turn an option in your mind before you rule it out."))
            case Takeaway.NO_TURN:
                return (
                    say("Remember: option {label} needs no turn.", label=label),
                    say("Look first whether an option only has to slide."),
                )
            case Takeaway.FLIP:
                return (
                    say("Remember: option {label} is the outline flipped over.", label=label),
                    say("You may turn an outline, but never flip it."),
                )

    def _turning(self) -> str:
        turn_deg = self.evidence.turn_deg if isinstance(self.evidence, SameFact) else 0.0
        degrees = degrees_in_words(turn_deg)
        if turn_deg > 0:
            return say("Remember: option {label} turns {degrees} anticlockwise.", label=self.label, degrees=degrees)
        return say("Remember: option {label} turns {degrees} clockwise.", label=self.label, degrees=degrees)


def remember_fact(solution: TurnedOutlineSolution) -> RememberFact:
    """What comes first in the order of ``Takeaway``: judgement, no source.

    solution : sound
    """
    (same,) = (fact for v in solution.verdicts if v.same for fact in v.reasons if isinstance(fact, SameFact))
    flips = [fact for verdict in solution.verdicts for fact in verdict.reasons if isinstance(fact, MirrorFact)]
    shown: dict[Takeaway, Fact] = {_of_turn(same.turn_deg): same}
    if solution.outline.holes:
        shown[Takeaway.HOLE] = outline_fact(solution.outline, solution.tolerance)
    if flips:
        shown[Takeaway.FLIP] = flips[0]
    lesson = next(lesson for lesson in Takeaway if lesson in shown)
    return RememberFact(tolerance=solution.tolerance, lesson=lesson, evidence=shown[lesson])


def _of_turn(turn_deg: float) -> Takeaway:
    size = abs(turn_deg)
    if size <= MEANT_DEG:
        return Takeaway.NO_TURN
    if size >= 180.0 - MEANT_DEG:
        return Takeaway.HALF_TURN
    return Takeaway.LARGE_TURN if size > 90.0 + MEANT_DEG else Takeaway.SMALL_TURN

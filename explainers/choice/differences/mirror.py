"""An option is the finished outline turned over."""

from __future__ import annotations

from dataclasses import dataclass

from ...geometry.congruence import Match, congruence
from ...geometry.rigid_motion import Point
from ...words.messages import say
from ...words.names import the_option
from ..fact import Stated
from ..fingerprint import FingerprintParts
from .difference import ReasonFact

__all__ = ["MirrorFact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MirrorFact(ReasonFact):
    """An option, in its own coordinates, is the finished outline turned over: no turn lays it on."""

    def holds(self) -> bool:
        """Turned over, the option is the outline; as it is, it is not."""
        return congruence(self.option, self.outline, self.tolerance).kind is Match.MIRROR_ONLY

    def fingerprint_parts(self, origin: Point) -> FingerprintParts:
        """Whose it is says all."""
        return ("mirror", self.label)

    def stated(self) -> Stated:
        """That it is flipped."""
        return Stated(outlines=(self.option, self.outline), label=self.label, may_be_flip=True)

    def over_outline(self) -> tuple[str, ...]:
        """That a turn will not do."""
        flipped = say("Option {label} is the outline flipped over.", label=self.label)
        return (flipped, say("No turn can undo a flip."))

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """That a turn will not do, as over the outline: a flip has no place to be ringed."""
        return self.over_outline()

    def in_marking(self) -> str:
        """What it is."""
        return say("It is the outline flipped over.")

    def practise(self) -> str:
        """Telling a turn from a flip."""
        return say("Practise telling a turned outline from a flipped one.")

    def in_report(self) -> str:
        """In brief."""
        return "the outline flipped over"

    def as_line(self) -> str:
        """As a plain line."""
        return f"{the_option(self.label)}: the outline flipped over"

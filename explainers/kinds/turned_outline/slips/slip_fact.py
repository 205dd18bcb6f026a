"""The fact that a wrong option is what comes out of a slip."""

from __future__ import annotations

from dataclasses import dataclass

from ....choice.fact import Stated, verified
from ....choice.fingerprint import FingerprintParts
from ....choice.slip import FLIPPED, CannotBeMade, SlipCase, SlipFact
from ....geometry.congruence import motions_onto
from ....geometry.rigid_motion import Point
from ....words.messages import say, say_as
from ....words.names import the_option
from ..words.slips import HAPPENINGS, SHARED, Happening
from .change import Change
from .registry import changed

__all__ = ["OutlineSlipFact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineSlipFact(SlipFact):
    """That a wrong option is what comes of changes to the outline that is shown, with what is changed, and where."""

    changes: tuple[Change, ...]  # one a case, in the same order

    def holds(self) -> bool:
        """Changed anew, the outline gives the option, which is another outline."""
        try:
            made = changed(self.outline, self.changes, self.tolerance)
        except CannotBeMade:  # among them the outline itself
            return False
        return (
            made == self.replayed
            and tuple(SlipCase(slip=change.slip) for change in self.changes) == self.cases
            and bool(motions_onto(self.option, made, self.tolerance))
        )

    def fingerprint_parts(self, origin: Point) -> FingerprintParts:
        """Which slips they are, and where they happen."""
        return ("slip", self.label, tuple(change.fingerprint_parts(origin) for change in self.changes))

    def stated(self) -> Stated:
        """Both outlines, and what comes out."""
        return Stated(outlines=(self.option, self.outline, self.replayed), label=self.label, may_be_flip=True)

    def in_short(self) -> tuple[str, ...]:
        """What is wrong in the option, in a few words: one sentence for a slip, one for each of a pair.

        Raises : FactError where the slip does not give the option
        """
        verified(self, (f"a slip gives {the_option(self.label)}",))
        first, *further = self._happenings
        return (say(first.within, label=self.label), *(say(also.also) for also in further))

    def did(self) -> str:
        """What whoever chose the option probably did.

        Raises : FactError where the slip does not give the option
        """
        verified(self, (f"a slip gives {the_option(self.label)}",))
        one, *other = (say_as(*happening.did) for happening in self._happenings)
        return (
            say("Probably {one}, and {other}.", one=one, other=other[0]) if other else say("Probably {one}.", one=one)
        )

    def in_brief(self) -> str:
        """A slip, or a pair of them, as a phrase.

        Raises : FactError where it does not give the option
        """
        verified(self, (f"a slip gives {the_option(self.label)}",))
        one, *other = (say(happening.brief) for happening in self._happenings)
        return say("{one}, with {other}", one=one, other=other[0]) if other else one

    def as_line(self) -> str:
        """The slips in brief, whether or not they still give the option."""
        return f"{the_option(self.label)}: {', with '.join(say(happening.brief) for happening in self._happenings)}"

    def practise(self, case: SlipCase) -> str:
        """What to practise, for whoever keeps making this slip: one sentence for a teacher's marking sheet."""
        return say(SHARED[case.slip].practise)

    @property
    def _happenings(self) -> list[Happening]:
        """How each is told; that the whole is turned over is told last."""
        changes = sorted(self.changes, key=lambda change: change.slip == FLIPPED)
        return [HAPPENINGS[change.told_as] for change in changes]

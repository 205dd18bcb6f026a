"""The fact that a wrong option is what comes out of a slip."""

from __future__ import annotations

from dataclasses import dataclass

from ....choice.fact import Stated, verified
from ....choice.fingerprint import FingerprintParts
from ....choice.slip import FLIPPED, CannotBeMade, SlipCase, SlipFact
from ....errors import ItemError
from ....geometry.congruence import motions_onto
from ....geometry.rigid_motion import Point
from ....words.messages import say
from ....words.names import the_option
from ..model import Item
from ..solving.laying import lay_pieces
from ..solving.placement import Placement
from ..words.own_verbs import say_action, say_action_as
from ..words.slips import filled_in, happening, in_brief, practise
from .model import SolvedItem
from .place import meets_a_hole
from .registry import SLIPS, make_all

__all__ = ["PieceSlipFact", "replay_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceSlipFact(SlipFact):
    """That a wrong option comes out of slips with pieces, with the pieces as they lie when it happens."""

    item: Item  # without its options
    placements: tuple[Placement, ...]  # how the pieces lie when it happens; () where only the result turns over

    def holds(self) -> bool:
        """Solved anew with the slip, the item gives the option; solved anew without, it gives the result, another."""
        try:
            true = lay_pieces(self.item)
            outline = true[-1].after if true else self.item.base.simplified(self.tolerance)
            slipped = make_all(self.cases, SolvedItem(item=self.item, placements=true, outline=outline))
        except (CannotBeMade, ItemError, KeyError):
            return False
        return (
            outline == self.outline
            and slipped.outline == self.replayed
            and replay_of(self.cases, slipped.placements) == self.placements
            and bool(motions_onto(self.option, slipped.outline, self.tolerance))
            and not motions_onto(self.option, outline, self.tolerance)
        )

    def fingerprint_parts(self, origin: Point) -> FingerprintParts:
        """Which slips they are: the item and they say all there is to it."""
        return ("slip", self.label, tuple((case.slip, case.subject) for case in self.cases))

    def stated(self) -> Stated:
        """Both outlines, and what comes out."""
        # What happened when it slipped may be told as well, whichever way it went.
        turns = tuple(sign * placement.turn_deg for placement in self.placements for sign in (1.0, -1.0))
        outlines = (self.option, self.outline, self.replayed)
        return Stated(
            other_turns_deg=turns, outlines=outlines, label=self.label, may_be_flip=True, may_be_other_action=True
        )

    def in_short(self) -> tuple[str, ...]:
        """What is wrong in the option, in a few words: one sentence for a slip, one for each of a pair.

        Raises : FactError where the slip does not give the option
        """
        verified(self, (f"a slip gives {the_option(self.label)}",))
        first, *further = sorted(self.cases, key=lambda case: case.slip == FLIPPED)
        told = [say_action(happening(first, self.item).within, label=self.label, **filled_in(first, self.item))]
        told += [say_action(happening(case, self.item).also, **filled_in(case, self.item)) for case in further]
        return tuple(told)

    def did(self) -> str:
        """What whoever chose the option probably did: "Probably turned the flag the wrong way.".

        Raises : FactError where the slip does not give the option
        """
        verified(self, (f"a slip gives {the_option(self.label)}",))
        one, *other = (say_action_as(*self._did(case), **filled_in(case, self.item)) for case in self.cases)
        if other:
            return say("Probably {one}, and {other}.", one=one, other=other[0])
        return say("Probably {one}.", one=one)

    def _did(self, case: SlipCase) -> tuple[str, str]:
        found = happening(case, self.item)
        if found.did_at_hole is not None:
            truly = next(each for each in lay_pieces(self.item) if each.piece.name == case.subject)
            if meets_a_hole(truly, self.tolerance):
                return found.did_at_hole
        return found.did

    def in_brief(self) -> str:
        """A slip, or a pair of them, as a phrase.

        Raises : FactError where it does not give the option
        """
        verified(self, (f"a slip gives {the_option(self.label)}",))
        one, *other = (in_brief(case, self.item) for case in self.cases)
        return say("{one}, with {other}", one=one, other=other[0]) if other else one

    def as_line(self) -> str:
        """The slips in brief, whether or not they still give the option."""
        slips = ", with ".join(in_brief(case, self.item) for case in self.cases)
        return f"{the_option(self.label)}: {slips}"

    def practise(self, case: SlipCase) -> str:
        """What to practise, for whoever keeps making this slip: one sentence for a teacher's marking sheet."""
        return practise(case)


def replay_of(cases: tuple[SlipCase, ...], placements: tuple[Placement, ...]) -> tuple[Placement, ...]:
    """The placements that are worth showing: none where every piece lies as it should."""
    return placements if any(SLIPS[case.slip].needs_piece for case in cases) else ()

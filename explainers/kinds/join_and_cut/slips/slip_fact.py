"""The fact that a wrong option is what comes out of a slip."""

from __future__ import annotations

from dataclasses import dataclass

from ....choice.fact import Fact, Stated
from ....choice.fingerprint import Grains
from ....errors import ItemError
from ....geometry.congruence import motions_onto
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point
from ..model import Item
from ..solving.laying import lay_pieces
from ..solving.placement import Placement
from .model import CannotBeMade, Scene, SlipCase
from .registry import SLIPS, make_all

__all__ = ["SlipFact", "replay_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipFact(Fact):
    """An option shows what comes out when a learner makes this slip, or these two."""

    label: str
    cases: tuple[SlipCase, ...]  # one, or two that happen together
    item: Item  # without its options
    option: Outline  # in its own coordinates
    outline: Outline  # the result
    placements: tuple[Placement, ...]  # how the pieces lie when it happens; () where only the result turns over
    replayed: Outline  # what comes out, in the base's coordinates

    def holds(self) -> bool:
        """Solved anew with the slip, the item gives the option; solved anew without, it gives the result, another."""
        try:
            true = lay_pieces(self.item)
            outline = true[-1].after if true else self.item.base.simplified(self.tolerance)
            slipped = make_all(self.cases, Scene(item=self.item, placements=true, outline=outline))
        except (CannotBeMade, ItemError, KeyError):
            return False
        return (
            outline == self.outline
            and slipped.outline == self.replayed
            and replay_of(self.cases, slipped.placements) == self.placements
            and bool(motions_onto(self.option, slipped.outline, self.tolerance))
            and not motions_onto(self.option, outline, self.tolerance)
        )

    def grains(self, origin: Point) -> Grains:
        """Which slips they are: the item and they say all there is to it."""
        return ("slip", self.label, tuple((case.slip, case.piece) for case in self.cases))

    def stated(self) -> Stated:
        """Both outlines, and what comes out."""
        # What happened when it slipped may be told as well, whichever way it went.
        turns = tuple(sign * placement.turn_deg for placement in self.placements for sign in (1.0, -1.0))
        outlines = (self.option, self.outline, self.replayed)
        return Stated(other_turns_deg=turns, outlines=outlines, label=self.label, may_be_flip=True)


def replay_of(cases: tuple[SlipCase, ...], placements: tuple[Placement, ...]) -> tuple[Placement, ...]:
    """The placements that are worth showing: none where every piece lies as it should."""
    return placements if any(SLIPS[case.slip].needs_piece for case in cases) else ()

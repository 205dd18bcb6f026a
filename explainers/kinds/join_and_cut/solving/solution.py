"""What solving an item of joining and cutting yields: where its pieces lie, beside what any question comes to.

Everything stands in the base's coordinates unless a field says otherwise.
"""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass

from ....choice.model import Answer, Solution
from ....geometry.angles import is_odd_turn
from ..model import BASE, Does, Item
from .difficulty import JoinAndCutFeatures
from .placement import Placement, is_part_of_side
from .same_question import PosedPieces

__all__ = ["JoinAndCutAnswer", "JoinAndCutSolution", "own_solution"]


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinAndCutAnswer(Answer):
    """What an item comes to, without the reasons."""

    item: Item
    placements: tuple[Placement, ...]

    @property
    def turns_deg(self) -> tuple[float, ...]:
        """How far each piece turns."""
        return tuple(placement.turn_deg for placement in self.placements)


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinAndCutSolution(Solution):
    """An item solved."""

    item: Item
    placements: tuple[Placement, ...]

    @property
    def turns_deg(self) -> tuple[float, ...]:
        """How far each piece turns."""
        return tuple(placement.turn_deg for placement in self.placements)

    def work_lines(self) -> tuple[str, ...]:
        """A sentence a piece: what is done with it, how far it turns, where its mark comes to lie."""
        return tuple(placement.as_line() for placement in self.placements)

    def features(self) -> JoinAndCutFeatures:
        """What comparing the options asks, and what laying the pieces asks before that."""
        placements = self.placements
        turns = [abs(turn_deg) for turn_deg in self.turns_deg]
        return JoinAndCutFeatures(
            **asdict(self.compared()),
            pieces=len(placements),
            total_turn_deg=math.fsum(turns),
            largest_turn_deg=max(turns, default=0.0),
            odd_angles=sum(map(is_odd_turn, turns)),
            part_side_marks=sum(
                is_part_of_side(laid.side, laid.ring, laid.partner, laid.before, self.tolerance) for laid in placements
            ),
            cuts=sum(placement.piece.does is Does.CUT for placement in placements),
            pieces_on_pieces=sum(placement.piece.of != BASE for placement in placements),
        )

    def posed(self) -> PosedPieces:
        """Its base, its pieces where they lie, what each does, and the places of the marks."""
        tolerance = self.tolerance
        return PosedPieces(
            base=self.item.base.simplified(tolerance),
            places=tuple((laid.piece.does, laid.ring, laid.partner) for laid in self.placements),
            tolerance=tolerance,
        )

    def possible_slips(self, *, parts_seen: bool = True) -> tuple[str, ...]:
        """All slips; two pieces change places only where there are two and they are seen."""
        from ..slips.registry import SLIPS

        can_swap = parts_seen and len(self.placements) > 1
        return tuple(slip for slip in SLIPS if slip != "swapped" or can_swap)


def own_solution(solution: Solution) -> JoinAndCutSolution:
    """The solution as one of this kind.

    Raises : TypeError for that of another
    """
    if not isinstance(solution, JoinAndCutSolution):
        raise TypeError(f"{solution.item.name} is no solved item of joining and cutting")
    return solution

"""Solving an item as a learner who slips takes it: what comes of it, or why nothing does."""

from __future__ import annotations

from ....choice.slip import CannotBeMade
from ....errors import Fault
from ....geometry.tolerance import authoring_tolerance
from ..model import Piece
from ..solving.placement import Placement
from ..solving.placing import lay
from .model import Slipped, Work

__all__ = ["Remembered", "remembering", "replayed"]

# Pieces laid so far, each with the turn a slip gives it -> how the last of them lies, or what is wrong with it. Slips
# leave most pieces alone, so that most of what one replay lays has been laid by another.
Remembered = dict[tuple[tuple[Piece, float | None], ...], Placement | Fault]


def remembering(placements: tuple[Placement, ...]) -> Remembered:
    """A memory of how the pieces truly lie; for replays of one item only."""
    steps = [(placement.piece, None) for placement in placements]
    return {tuple(steps[: i + 1]): placement for i, placement in enumerate(placements)}


def replayed(work: Work, remembered: Remembered) -> Slipped:
    """Lay the pieces of a changed item.

    remembered : is added to
    Raises     : CannotBeMade where they do not lie as an item's must
    """
    turns = dict(work.slip_turns)
    tolerance = authoring_tolerance(work.item.extent)
    standing = work.item.base.simplified(tolerance)
    placements: tuple[Placement, ...] = ()
    steps: tuple[tuple[Piece, float | None], ...] = ()
    for index, piece in enumerate(work.item.pieces):
        turn_deg = turns.get(piece.name)
        steps = (*steps, (piece, turn_deg))
        found = remembered.get(steps)
        if found is None:
            laid = lay(
                piece,
                index=index,
                before=standing,
                earlier=placements,
                tolerance=tolerance,
                slip_turn_deg=turn_deg,
                only_legal=True,
            )
            found = laid.faults[0] if laid.faults or laid.placement is None else laid.placement
            remembered[steps] = found
        if isinstance(found, Fault):
            raise CannotBeMade(found.message)
        placements = (*placements, found)
        standing = found.after
    return Slipped(outline=standing.mirrored() if work.turned_over else standing, placements=placements)

"""The facts of placing the pieces: what the task asks, each turn, each meeting, each change, the finished outline."""

from __future__ import annotations

from ..geometry.angles import wrapped_deg
from ..geometry.rigid_motion import Ring, Similarity
from ..geometry.rings import signed_area
from ..geometry.tolerance import authoring_tolerance
from .facts import ChangeFact, MeetFact, OutlineFact, PieceFact, TurnFact
from .model import Solution

__all__ = ["change_fact", "meet_fact", "outline_fact", "piece_fact", "turn_fact"]


def piece_fact(solution: Solution, index: int) -> PieceFact:
    """What the task asks of the piece of this number, counted from 0."""
    return PieceFact(tolerance=_tolerance(solution), piece=solution.placements[index].piece, ticks=index + 1)


def turn_fact(solution: Solution, index: int) -> TurnFact:
    """How far the piece turns."""
    placement = solution.placements[index]
    piece = placement.piece
    corners = piece.corners if signed_area(piece.corners) > 0 else piece.corners[::-1]
    shown: Ring = Similarity(turn_deg=wrapped_deg(piece.turned)).apply(corners)
    return TurnFact(
        tolerance=_tolerance(solution),
        name=piece.name,
        mark=piece.mark,
        does=piece.does,
        turn_deg=placement.turn_deg,
        shown_ring=shown,
        placed_ring=placement.motion.apply(corners),
    )


def meet_fact(solution: Solution, index: int) -> MeetFact:
    """Where the piece's marked side lies against its partner."""
    placement = solution.placements[index]
    piece = placement.piece
    return MeetFact(
        tolerance=_tolerance(solution),
        name=piece.name,
        mark=piece.mark,
        does=piece.does,
        of=piece.of,
        side=placement.side,
        partner=placement.partner,
        ring=placement.ring,
        before=placement.before,
    )


def change_fact(solution: Solution, index: int) -> ChangeFact:
    """What the piece makes of the outline."""
    placement = solution.placements[index]
    return ChangeFact(
        tolerance=_tolerance(solution),
        name=placement.piece.name,
        does=placement.piece.does,
        ring=placement.ring,
        before=placement.before,
        after=placement.after,
        piece_area=signed_area(placement.ring),
        area_before=placement.before.area,
        area_after=placement.after.area,
    )


def outline_fact(solution: Solution) -> OutlineFact:
    """The finished outline in figures."""
    outline = solution.outline
    return OutlineFact(
        tolerance=_tolerance(solution),
        outline=outline,
        corners=outline.corner_count,
        holes=len(outline.holes),
        area=outline.area,
    )


def _tolerance(solution: Solution) -> float:
    return authoring_tolerance(solution.item.extent)

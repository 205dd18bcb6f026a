"""The facts about a solution's pieces and outline, built from its values.

The facts that rule options out are built where the verdicts are (``explainers.solution.verdicts``).
"""

from __future__ import annotations

import math

from ..geometry.angles import wrapped_deg
from ..geometry.outline import Outline
from ..geometry.rigid_motion import RigidMotion
from ..geometry.rings import signed_area
from ..geometry.tolerance import authoring_tolerance
from .facts import ChangeFact, MeetFact, OutlineFact, PieceFact, TurnFact
from .model import Placement, Solution

__all__ = ["change_fact", "meet_fact", "outline_fact", "piece_fact", "turn_fact"]


def piece_fact(solution: Solution, placement: Placement) -> PieceFact:
    """What the task asks of a piece; its tick marks count the pieces off, so that no two share a number."""
    return PieceFact(
        tolerance=_tolerance(solution), piece=placement.piece, ticks=solution.placements.index(placement) + 1
    )


def turn_fact(solution: Solution, placement: Placement) -> TurnFact:
    """How far a piece turns."""
    tolerance = _tolerance(solution)
    ring = Outline.of(placement.piece.corners).exterior
    shown = RigidMotion(turn_deg=wrapped_deg(placement.piece.turned)).apply(ring)
    return TurnFact(
        tolerance=tolerance,
        name=placement.piece.name,
        mark=placement.piece.mark,
        does=placement.piece.does,
        turn_deg=placement.turn_deg,
        shown_ring=shown,
        placed_ring=placement.motion.apply(ring),
    )


def meet_fact(solution: Solution, placement: Placement) -> MeetFact:
    """Where a piece's marked side lies against its partner."""
    return MeetFact(
        tolerance=_tolerance(solution),
        name=placement.piece.name,
        mark=placement.piece.mark,
        does=placement.piece.does,
        of=placement.piece.of,
        side=placement.side,
        partner=placement.partner,
        ring=placement.ring,
        before=placement.before,
    )


def change_fact(solution: Solution, placement: Placement) -> ChangeFact:
    """What joining or cutting a piece makes of the outline."""
    return ChangeFact(
        tolerance=_tolerance(solution),
        name=placement.piece.name,
        does=placement.piece.does,
        ring=placement.ring,
        before=placement.before,
        after=placement.after,
        piece_area=math.fabs(signed_area(placement.ring)),
        area_before=placement.before.area,
        area_after=placement.after.area,
    )


def outline_fact(solution: Solution) -> OutlineFact:
    """The finished outline in figures."""
    return OutlineFact(
        tolerance=_tolerance(solution),
        outline=solution.outline,
        corners=solution.outline.corner_count,
        holes=len(solution.outline.holes),
        area=solution.outline.area,
    )


def _tolerance(solution: Solution) -> float:
    return authoring_tolerance(solution.item.extent)

"""Laying one piece on the outline by its marks alone.

Which way the interior lies decides the turn. Both marked sides are found on their rings, each walked with its own
material on the left. A piece that is joined ends on the other side of the marks, so the two walks run against each
other; a piece that is cut lies on the material, so they run together.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ....document.notation import listed, shown_lengths, shown_pair, shown_point
from ....errors import Fault
from ....geometry import overlay
from ....geometry.angles import wrapped_deg
from ....geometry.locate import SideSpan, span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import RigidMotion, Side
from ....geometry.side import midpoint
from ....geometry.stretches import overlap
from ....geometry.tolerance import within
from ..model import BASE, Does, Piece
from .placement import Placement

__all__ = ["Laid", "lay"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """One piece's outcome: where it lies, as far as that could be found, and what is wrong."""

    placement: Placement | None
    faults: tuple[Fault, ...] = ()


def lay(
    piece: Piece,
    *,
    index: int,
    before: Outline,
    earlier: tuple[Placement, ...],
    tolerance: float,
    slip_turn_deg: float | None = None,
    only_legal: bool = False,
) -> Laid:
    """Lay a piece where its mark meets its partner's.

    before        : the outline as it stands, needless corners dropped
    earlier       : the placements of the pieces before this one
    slip_turn_deg : only to show a slip: turn the piece by this much from the way the sheet shows it, and bring the
                    middles of the marked sides together, whatever it then overlaps
    only_legal    : whether a placement that is not legal may be left out, which is quicker
    Returns       : no placement where the marks cannot be found, or where what is left is no single outline
    """
    field = f"pieces[{index}]"
    ring = Outline.of(piece.corners).simplified(tolerance).exterior
    own = span_on((ring,), piece.side, tolerance)
    partner, faults = _partner(piece, field, before, earlier, tolerance)
    if own is None:
        faults = [
            Fault(
                field=f"{field}.side",
                message=f"{shown_pair(piece.side)} is not on a side of {piece.name}",
                fix=f"name two points of one side of {piece.name}, in the same coordinates as its corners",
            ),
            *faults,
        ]
    lengths = math.dist(*piece.side), math.dist(*piece.meets)
    if not within(abs(lengths[0] - lengths[1]), tolerance):
        own_text, other_text = shown_lengths(*lengths)
        faults.append(
            Fault(
                field=f"{field}.side",
                message=f"the marked side of {piece.name} is {own_text} long, "
                f"but the side that it must meet is {other_text} long",
                fix="mark two sides, or parts of sides, of the same length",
            )
        )
    if faults or own is None or partner is None:
        return Laid(placement=None, faults=tuple(faults))
    goal = partner.part[::-1] if piece.does is Does.JOIN else partner.part
    motion = _motion(own, partner, goal, piece, slip_turn_deg)
    combine = overlay.joined if piece.does is Does.JOIN else overlay.cut_out
    slipped = slip_turn_deg is not None
    only_legal = only_legal and not slipped  # a slip may lay a piece across the outline
    result = combine(before, motion.apply(ring), tolerance, only_legal=only_legal)
    fault = _fault(result, piece, field, tolerance, lenient=slipped, only_legal=only_legal)
    if not result.parts or len(result.parts) > 1:
        return Laid(placement=None, faults=(fault,) if fault else ())
    placement = Placement(
        piece=piece,
        motion=motion,
        turn_deg=wrapped_deg(motion.turn_deg - piece.turned),
        ring=Outline.of(result.ring).simplified(tolerance).exterior,
        side=(motion.apply_point(own.part[0]), motion.apply_point(own.part[1])) if slipped else goal,
        partner=partner.part,
        before=before,
        after=result.parts[0],
    )
    return Laid(placement=placement, faults=(fault,) if fault else ())


def _motion(own: SideSpan, partner: SideSpan, goal: Side, piece: Piece, slip_turn_deg: float | None) -> RigidMotion:
    """Directions are taken from the whole sides, where a hand-typed part would tilt the piece a little."""
    if slip_turn_deg is not None:
        turn_deg = wrapped_deg(piece.turned + slip_turn_deg)
    else:
        whole = partner.whole[::-1] if piece.does is Does.JOIN else partner.whole
        turn_deg = RigidMotion.laying(*own.whole, onto=whole).turn_deg
    x, y = RigidMotion(turn_deg=turn_deg).apply_point(midpoint(own.part))
    there = midpoint(goal)
    return RigidMotion(turn_deg=turn_deg, shift=(there[0] - x, there[1] - y))


def _partner(
    piece: Piece, field: str, before: Outline, earlier: tuple[Placement, ...], tolerance: float
) -> tuple[SideSpan | None, list[Fault]]:
    """The side to be met, on the outline as it stands, or what is wrong with it."""
    meets, whose = piece.meets, "the base"
    if piece.of != BASE:
        host = next((placement for placement in earlier if placement.piece.name == piece.of), None)
        if host is None or host.piece.does is not Does.JOIN:
            joined = [placement.piece.name for placement in earlier if placement.piece.does is Does.JOIN]
            return None, [
                Fault(
                    field=f"{field}.of",
                    message=f"there is no earlier joined piece called {piece.of}"
                    if host is None
                    else f"{piece.of} is cut away, so no piece can meet it",
                    fix=f"write of: {listed([BASE, *joined])}",
                )
            ]
        meets, whose = host.motion.apply_side(piece.meets), piece.of
    found = span_on(before.rings, meets, tolerance)
    if found is not None:
        return found, []
    fix = f"name two points of one side of {whose} that is still on the outline"
    if piece.of != BASE:  # the commonest mistake: the base's coordinates used for a piece, which has its own
        fix = f"{fix}, in the coordinates of {piece.of}'s own corners"
    return None, [
        Fault(
            field=f"{field}.meets",
            message=f"{shown_pair(piece.meets)} of {whose} is not on one side of the outline as it stands"
            + (" after the earlier pieces" if earlier else "")
            + _used_by(piece, earlier, tolerance),
            fix=fix,
        )
    ]


def _used_by(piece: Piece, earlier: tuple[Placement, ...], tolerance: float) -> str:
    """By which earlier piece the side that is to be met is used, as the end of a sentence; "" where by none."""
    for other in (placement.piece for placement in earlier):
        used = other.meets if other.of == piece.of else other.side if other.name == piece.of else None
        if used is not None and overlap(piece.meets, used, tolerance):
            return f": {other.name} uses that side already"
    return ""


def _fault(
    result: overlay.Overlay, piece: Piece, field: str, tolerance: float, *, lenient: bool, only_legal: bool
) -> Fault | None:
    """What is wrong with a join or a cut, the gravest first."""
    join = piece.does is Does.JOIN
    if not result.parts and not (only_legal and result.too_much):
        return Fault(
            field=f"{field}.corners",
            message=f"cutting away {piece.name} leaves nothing",
            fix="cut away a smaller piece",
        )
    if result.too_much and not lenient:
        if join:
            message = f"{piece.name}, laid where its marks meet, overlaps the outline"
            fix = "mark another side, or change the piece so that it only touches the outline"
        else:
            message = f"{piece.name}, laid where its marks meet, reaches outside the outline"
            fix = "mark another side, or make the piece small enough to lie inside the outline"
        return Fault(field=f"{field}.meets", message=message, fix=fix)
    if len(result.parts) > 1:
        return Fault(
            field=f"{field}.corners",
            message=f"with {piece.name} the outline falls into {len(result.parts)} parts",
            fix="the outline must stay in one piece: change the piece, or the side that it meets",
        )
    point = overlay.touches_itself_at(result.parts[0], tolerance)
    if point is not None:
        return Fault(
            field=f"{field}.corners",
            message=f"with {piece.name} the outline touches itself at {shown_point(point)}",
            fix="move or change the piece so that the outline keeps clear of itself there",
        )
    return None

"""The build of a question: what its siblings keep while every outline becomes another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from ....choice.slip import SlipCase
from ....geometry.locate import span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring, Side
from ....geometry.tolerance import MEANT_DEG, authoring_tolerance
from ..model import Does
from ..solving.placement import Placement
from ..solving.solution import JoinAndCutSolution

__all__ = ["Build", "PieceBuild", "TurnKind", "build_of", "kind_of_turn"]


class TurnKind(StrEnum):
    """Turns that look alike to a learner."""

    NONE = "no turn"
    QUARTER = "a quarter turn"
    HALF = "half a turn"
    EIGHTH = "an odd number of eighths"  # 45 or 135 degrees
    ODD = "an odd angle"


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceBuild:
    """What a sibling keeps of one piece."""

    name: str
    mark: str
    does: Does
    of: str
    corners: int
    turn: TurnKind
    part_of_own: bool  # the mark leaves some of the piece's own side over
    part_of_partner: bool  # the mark leaves some of the side over that it meets, of the base or of the piece `of`
    meets_hole: bool  # the side that it meets is one of a hole
    holes_after: int  # of the outline, once this piece is done
    turn_deg: float = field(compare=False)  # as it is: siblings keep the kind only


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """What a sibling keeps."""

    base_corners: int
    base_holes: int
    pieces: tuple[PieceBuild, ...]
    slips: tuple[SlipCase | None, ...]  # one a wrong option; None where no slip is known to make it


def build_of(solution: JoinAndCutSolution) -> Build:
    """The build of a solved question, needless corners not counted."""
    tolerance = authoring_tolerance(solution.item.extent)
    base = solution.item.base.simplified(tolerance)
    return Build(
        base_corners=len(base.exterior),
        base_holes=len(base.holes),
        pieces=tuple(_piece(placement, solution, tolerance) for placement in solution.placements),
        slips=_slips(solution),
    )


def kind_of_turn(turn_deg: float) -> TurnKind:
    """The kind of a turn in (-180, 180]."""
    size = abs(turn_deg)
    exact = {0.0: TurnKind.NONE, 180.0: TurnKind.HALF, 90.0: TurnKind.QUARTER, 45.0: TurnKind.EIGHTH}
    exact[135.0] = TurnKind.EIGHTH
    return next((kind for turn, kind in exact.items() if abs(size - turn) <= MEANT_DEG), TurnKind.ODD)


def _piece(placement: Placement, solution: JoinAndCutSolution, tolerance: float) -> PieceBuild:
    piece = placement.piece
    own = Outline.of(piece.corners).simplified(tolerance)
    partner = solution.item.base if piece.of == "base" else _outline_of(piece.of, solution.placements)
    return PieceBuild(
        name=piece.name,
        mark=piece.mark,
        does=piece.does,
        of=piece.of,
        corners=len(own.exterior),
        turn=kind_of_turn(placement.turn_deg),
        part_of_own=_is_part(own.rings, piece.side, tolerance),
        part_of_partner=_is_part(partner.simplified(tolerance).rings, piece.meets, tolerance),
        meets_hole=_meets_hole(placement, tolerance),
        holes_after=len(placement.after.holes),
        turn_deg=placement.turn_deg,
    )


def _outline_of(name: str, placements: Sequence[Placement]) -> Outline:
    return next(Outline.of(each.piece.corners) for each in placements if each.piece.name == name)


def _is_part(rings: Sequence[Ring], side: Side, tolerance: float) -> bool:
    """Whether a mark is shorter than the side on which it lies."""
    span = span_on(rings, side, tolerance)
    return span is not None and math.dist(*span.whole) - math.dist(*span.part) > tolerance


def _meets_hole(placement: Placement, tolerance: float) -> bool:
    return span_on((placement.before.exterior,), placement.partner, tolerance) is None


def _slips(solution: JoinAndCutSolution) -> tuple[SlipCase | None, ...]:
    """The slip of each wrong option in the order of the file: named there, or found to make it."""
    item = solution.item
    slips: list[SlipCase | None] = []
    for index, verdict in enumerate(solution.verdicts):
        if verdict.same:
            continue
        option = item.options[index] if index < len(item.options) else None
        if option is not None and option.slip is not None:
            slips.append(SlipCase(slip=option.slip, subject=option.slip_subject))
        elif verdict.slip is not None and len(verdict.slip.cases) == 1:
            slips.append(verdict.slip.cases[0])
        else:
            slips.append(None)
    return tuple(slips)

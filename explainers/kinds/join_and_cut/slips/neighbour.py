"""Moving a piece's marked side along the outline that it meets: to a neighbouring side, or along its own."""

from __future__ import annotations

import math

from ....choice.slip import CannotBeMade
from ....geometry.locate import SideSpan, span_on
from ....geometry.rigid_motion import Ring, Side
from ....geometry.rings import sides
from ....geometry.side import point_along
from ..model import BASE
from ..solving.placement import Placement
from .model import Scene

__all__ = ["in_partners_coordinates", "moved_along", "neighbouring", "partner_span"]


def partner_span(placement: Placement, tolerance: float) -> SideSpan:
    """The side that a piece truly meets, on the outline as it then stands, in the base's coordinates."""
    found = span_on(placement.before.rings, placement.partner, tolerance)
    if found is None:
        raise CannotBeMade(f"the side that {placement.piece.name} meets is not on the outline")
    return found


def neighbouring(scene: Scene, tolerance: float, step: int) -> Side:
    """As much of the next side (step 1: anticlockwise round the material) or of the one before (-1) as is met.

    It keeps its distance from the start of the side where there is room, as a learner does who takes one side for the
    other; else it is drawn back to the side's end.
    Raises : CannotBeMade where the neighbouring side is too short
    """
    placement = scene.placement
    span = partner_span(placement, tolerance)
    ring, index = _side_of(placement.before.rings, span.whole)
    other = sides(ring)[(index + step) % len(ring)]
    length = math.dist(*span.part)
    room = math.dist(*other) - length
    if room < -tolerance:
        raise CannotBeMade(f"the neighbouring side is shorter than the one that {placement.piece.name} meets")
    return moved_along(other, max(0.0, min(room, math.dist(span.whole[0], span.part[0]))), length)


def _side_of(rings: tuple[Ring, ...], whole: Side) -> tuple[Ring, int]:
    return next((ring, i) for ring in rings for i, side in enumerate(sides(ring)) if side == whole)


def moved_along(side: Side, start: float, length: float) -> Side:
    """The part of a side that begins at this distance from its start and is this long."""
    whole = math.dist(*side)
    return point_along(side, start / whole), point_along(side, min(1.0, (start + length) / whole))


def in_partners_coordinates(scene: Scene, side: Side) -> Side:
    """A side in the base's coordinates, as `meets` gives it: in those of the piece that is met, if it is one."""
    of = scene.placement.piece.of
    if of == BASE:
        return side
    host = next(placement for placement in scene.placements if placement.piece.name == of)
    return host.motion.inverse().apply_side(side)

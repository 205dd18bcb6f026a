"""One piece slid along the side that it meets.

Why learners do it: that two sides meet is kept in mind, where along them the marks lie is not.
"""

from __future__ import annotations

import math
from dataclasses import replace

from ....choice.slip import CannotBeMade
from ....geometry.locate import span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Side
from ....geometry.side import midpoint
from ....geometry.tolerance import authoring_tolerance, plain
from ..model import Does
from .model import Scene, Work
from .neighbour import in_partners_coordinates, moved_along, partner_span

__all__ = ["changes"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """The piece lies at the other end of the side; by half its mark further where the mark fills the side."""
    tolerance = authoring_tolerance(scene.item.extent)
    span = partner_span(scene.placement, tolerance)
    piece = work.piece(scene.piece)
    length, whole = math.dist(*span.part), math.dist(*span.whole)
    room, start = whole - length, math.dist(span.whole[0], span.part[0])
    if room > plain(tolerance):
        goal = moved_along(span.whole, room if start <= room / 2 + tolerance else 0.0, length)
        return (work.with_pieces(replace(piece, meets=in_partners_coordinates(scene, goal))),)
    own = span_on((Outline.of(piece.corners).simplified(tolerance).exterior,), piece.side, tolerance)
    if own is None:
        raise CannotBeMade(f"the marked side of {piece.name} is not on it")
    mine, theirs = _halves(own.part), _halves(span.part)
    # Joined, the two walks run against each other: the later half of the one lies on the earlier half of the other.
    # The half that is to meet goes to where the other half should lie; anticlockwise first.
    pairs = ((1, 1), (0, 0)) if piece.does is Does.JOIN else ((0, 1), (1, 0))
    return tuple(
        work.with_pieces(replace(piece, side=mine[i], meets=in_partners_coordinates(scene, theirs[j])))
        for i, j in pairs
    )


def _halves(side: Side) -> tuple[Side, Side]:
    middle = midpoint(side)
    return (side[0], middle), (middle, side[1])

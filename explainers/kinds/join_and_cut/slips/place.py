"""Slips of place: a piece laid at the side before or after its partner's, or elsewhere along that side.

Sides follow each other with the material on the left: anticlockwise round the outline, clockwise round a hole.
"""

from __future__ import annotations

import math
from dataclasses import replace

from ....choice.slip import CannotBeMade
from ....geometry.locate import SideSpan, span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring, Side
from ....geometry.rings import sides, signed_area
from ....geometry.side import midpoint, point_along
from ....geometry.tolerance import authoring_tolerance, plain
from ..model import BASE, Does
from ..solving.placement import Placement
from .model import SolvedItem, Work

__all__ = ["meets_a_hole", "next_side", "side_before", "slid"]


def next_side(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece meets the side after its partner's, as far from its start as it should be from its partner's.

    Why learners do it: the neighbouring side looks as good a match where the mark is not looked up again.

    Raises : CannotBeMade where that side is too short
    """
    return _at_neighbouring(work, solved_item, 1)


def side_before(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece meets the side before its partner's, as far from its start as it should be from its partner's.

    Why learners do it: counting sides from a corner, one is easily taken too few.

    Raises : CannotBeMade where that side is too short
    """
    return _at_neighbouring(work, solved_item, -1)


def slid(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece lies at the other end of the side; by half its mark further where the mark fills the side.

    Why learners do it: that two sides meet is kept in mind, where along them the marks lie is not.
    """
    tolerance = authoring_tolerance(solved_item.item.extent)
    span = _partner_span(solved_item.placement, tolerance)
    piece = work.piece(solved_item.piece)
    length, whole = math.dist(*span.part), math.dist(*span.whole)
    room, start = whole - length, math.dist(span.whole[0], span.part[0])
    if room > plain(tolerance):
        goal = _moved_along(span.whole, room if start <= room / 2 + tolerance else 0.0, length)
        return (work.with_pieces(replace(piece, meets=_in_partners_coordinates(solved_item, goal))),)
    own = span_on((Outline.of(piece.corners).simplified(tolerance).exterior,), piece.side, tolerance)
    if own is None:
        raise CannotBeMade(f"the marked side of {piece.name} is not on it")
    mine, theirs = _halves(own.part), _halves(span.part)
    # Joined, the two walks run against each other: the later half of the one lies on the earlier half of the other.
    # The half that is to meet goes to where the other half should lie; anticlockwise first.
    pairs = ((1, 1), (0, 0)) if piece.does is Does.JOIN else ((0, 1), (1, 0))
    return tuple(
        work.with_pieces(replace(piece, side=mine[i], meets=_in_partners_coordinates(solved_item, theirs[j])))
        for i, j in pairs
    )


def meets_a_hole(placement: Placement, tolerance: float) -> bool:
    """Whether the side that a piece meets is one of a hole, round which the next side is clockwise as it is seen."""
    found = span_on(placement.before.rings, placement.partner, tolerance)
    return found is not None and signed_area(_side_of(placement.before.rings, found.whole)[0]) < 0.0


def _at_neighbouring(work: Work, solved_item: SolvedItem, step: int) -> tuple[Work, ...]:
    goal = _neighbouring(solved_item, authoring_tolerance(solved_item.item.extent), step)
    piece = replace(work.piece(solved_item.piece), meets=_in_partners_coordinates(solved_item, goal))
    return (work.with_pieces(piece),)


def _halves(side: Side) -> tuple[Side, Side]:
    middle = midpoint(side)
    return (side[0], middle), (middle, side[1])


def _partner_span(placement: Placement, tolerance: float) -> SideSpan:
    """The side that a piece truly meets, on the outline as it then stands, in the base's coordinates."""
    found = span_on(placement.before.rings, placement.partner, tolerance)
    if found is None:
        raise CannotBeMade(f"the side that {placement.piece.name} meets is not on the outline")
    return found


def _neighbouring(solved_item: SolvedItem, tolerance: float, step: int) -> Side:
    """As much of the next side (step 1: on, with the material on the left) or of the one before (-1) as is met.

    It keeps its distance from the start of the side where there is room, as a learner does who takes one side for the
    other; else it is drawn back to the side's end.
    Raises : CannotBeMade where the neighbouring side is too short
    """
    placement = solved_item.placement
    span = _partner_span(placement, tolerance)
    ring, index = _side_of(placement.before.rings, span.whole)
    other = sides(ring)[(index + step) % len(ring)]
    length = math.dist(*span.part)
    room = math.dist(*other) - length
    if room < -tolerance:
        raise CannotBeMade(f"the neighbouring side is shorter than the one that {placement.piece.name} meets")
    return _moved_along(other, max(0.0, min(room, math.dist(span.whole[0], span.part[0]))), length)


def _side_of(rings: tuple[Ring, ...], whole: Side) -> tuple[Ring, int]:
    return next((ring, i) for ring in rings for i, side in enumerate(sides(ring)) if side == whole)


def _moved_along(side: Side, start: float, length: float) -> Side:
    """The part of a side that begins at this distance from its start and is this long."""
    whole = math.dist(*side)
    return point_along(side, start / whole), point_along(side, min(1.0, (start + length) / whole))


def _in_partners_coordinates(solved_item: SolvedItem, side: Side) -> Side:
    """A side in the base's coordinates, as `meets` gives it: in those of the piece that is met, if it is one."""
    of = solved_item.placement.piece.of
    if of == BASE:
        return side
    host = next(placement for placement in solved_item.placements if placement.piece.name == of)
    return host.motion.inverse().apply_side(side)

"""Slips of size: a piece taken too large or too small, laid at the same marks."""

from __future__ import annotations

from dataclasses import replace

from ....geometry.rigid_motion import Point, Side
from ....geometry.side import point_along
from ..model import Piece
from .model import SolvedItem, Work

__all__ = ["too_large", "too_small"]

LARGER = 1.5
SMALLER = 2.0 / 3.0


def too_large(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece is half as large again; one end of its mark lies where it should, else its middle.

    Why learners do it: the size of a piece is judged by eye and not by the length of its marked side.
    """
    return _resized(work, solved_item, LARGER)


def too_small(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece is two thirds as large; one end of its mark lies where it should, else its middle.

    Why learners do it: a piece drawn beside a large base is remembered as smaller than it is.
    """
    return _resized(work, solved_item, SMALLER)


def _resized(work: Work, solved_item: SolvedItem, factor: float) -> tuple[Work, ...]:
    """The ways to lay the piece, so many times as large, with an end or the middle of its mark where it should be."""
    piece = work.piece(solved_item.piece)
    corners = tuple(_times(point, factor) for point in piece.corners)
    side = (_times(piece.side[0], factor), _times(piece.side[1], factor))
    leaning = [_still_meeting(other, factor) for other in work.item.pieces if other.of == piece.name]
    share = min(factor, 1.0 / factor)  # what the two marks have in common
    ways = []
    for start in (0.0, 1.0 - share, (1.0 - share) / 2.0):
        if factor > 1.0:
            changed = replace(piece, corners=corners, side=_part(side, start, share))
        else:
            changed = replace(piece, corners=corners, side=side, meets=_part(piece.meets, start, share))
        ways.append(work.with_pieces(changed, *leaning))
    return tuple(ways)


def _still_meeting(other: Piece, factor: float) -> Piece:
    """A later piece meets the middle of the same side of the resized one, as far as the two have it in common."""
    meets = (_times(other.meets[0], factor), _times(other.meets[1], factor))
    if factor > 1.0:
        share = 1.0 / factor
        return replace(other, meets=_part(meets, (1.0 - share) / 2.0, share))
    return replace(other, meets=meets, side=_part(other.side, (1.0 - factor) / 2.0, factor))


def _part(side: Side, start: float, share: float) -> Side:
    return point_along(side, start), point_along(side, start + share)


def _times(point: Point, factor: float) -> Point:
    return point[0] * factor, point[1] * factor

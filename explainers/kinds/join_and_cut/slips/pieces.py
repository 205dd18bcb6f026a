"""Slips of what is done with which piece: one left out, one cut that is to be joined, two that change places."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from ....choice.slip import CannotBeMade
from ....geometry.rigid_motion import Side
from ....geometry.side import point_along
from ..model import Does, Piece
from .model import SolvedItem, Work

__all__ = ["left_out", "other_way_round", "swapped"]


def left_out(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """All but the piece.

    Why learners do it: with several pieces in mind at once, the one that is not being looked at is dropped.

    Raises : CannotBeMade where a later piece meets it
    """
    leaning = [piece.name for piece in work.item.pieces if piece.of == solved_item.piece]
    if leaning:
        raise CannotBeMade(f"{leaning[0]} meets {solved_item.piece}")
    left = tuple(piece for piece in work.item.pieces if piece.name != solved_item.piece)
    return (replace(work, item=replace(work.item, pieces=left)),)


def other_way_round(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece is cut away where it should be joined, or joined: it lies on the wrong side of the marks.

    Why learners do it: both are done along a shared side, and which of them is asked is read once and soon forgotten.
    """
    piece = work.piece(solved_item.piece)
    does = Does.CUT if piece.does is Does.JOIN else Does.JOIN
    return (work.with_pieces(replace(piece, does=does)),)


def swapped(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """This piece and the next one change places; of marks of different lengths the middles meet.

    Why learners do it: with two marks to look up, each piece is right in itself and the letters are taken for each
    other.

    Raises : CannotBeMade for the last piece, and where the next one meets this one
    """
    name = _next_piece(solved_item)
    if name is None:
        raise CannotBeMade(f"no piece follows {solved_item.piece}")
    one, other = work.piece(solved_item.piece), work.piece(name)
    if other.of == one.name:
        raise CannotBeMade(f"{other.name} meets {one.name}")
    return (work.with_pieces(_at(one, other), _at(other, one)),)


def _next_piece(solved_item: SolvedItem) -> str | None:
    """The name of the piece that follows."""
    names = [piece.name for piece in solved_item.item.pieces]
    return dict(pairwise(names)).get(solved_item.piece or "")


def _at(piece: Piece, place: Piece) -> Piece:
    """The piece, to be laid where the other one belongs."""
    length, room = math.dist(*piece.side), math.dist(*place.meets)
    return replace(
        piece, side=_middle(piece.side, room / length), meets=_middle(place.meets, length / room), of=place.of
    )


def _middle(side: Side, share: float) -> Side:
    if share >= 1.0:
        return side
    return point_along(side, (1.0 - share) / 2.0), point_along(side, (1.0 + share) / 2.0)

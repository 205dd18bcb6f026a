"""Two pieces that follow each other laid at each other's places.

Why learners do it: with two marks to look up, each piece is right in itself and the letters are taken for each other.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from ....choice.slip import CannotBeMade
from ....geometry.rigid_motion import Side
from ....geometry.side import point_along
from ..model import Piece
from .model import Scene, Work

__all__ = ["changes", "next_piece"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """This piece and the next one change places; of marks of different lengths the middles meet.

    Raises : CannotBeMade for the last piece, and where the next one meets this one
    """
    name = next_piece(scene)
    if name is None:
        raise CannotBeMade(f"no piece follows {scene.piece}")
    one, other = work.piece(scene.piece), work.piece(name)
    if other.of == one.name:
        raise CannotBeMade(f"{other.name} meets {one.name}")
    return (work.with_pieces(_at(one, other), _at(other, one)),)


def next_piece(scene: Scene) -> str | None:
    """The name of the piece that follows."""
    names = [piece.name for piece in scene.item.pieces]
    return dict(pairwise(names)).get(scene.piece or "")


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

"""Solving a changed item for a slip: what comes of it, or why nothing does."""

from __future__ import annotations

from dataclasses import replace

from ...errors import ItemError
from ...item.model import Item, Piece
from ..laying import lay_pieces
from .model import CannotBeMade, Scene, Slipped

__all__ = ["replayed", "with_piece"]


def replayed(scene: Scene, item: Item, *, keeps_turn: str | None = None) -> Slipped:
    """Lay the pieces of a changed item.

    Raises : CannotBeMade where they do not lie as an item's must
    """
    try:
        placements = lay_pieces(item, keeps_turn=keeps_turn)
    except ItemError as error:
        raise CannotBeMade(error.faults[0].message) from error
    return Slipped(outline=placements[-1].after if placements else item.base, placements=placements)


def with_piece(item: Item, name: str | None, changed: Piece | None) -> Item:
    """The item with one piece changed, or left out."""
    pieces = ((changed if piece.name == name else piece) for piece in item.pieces)
    return replace(item, pieces=tuple(piece for piece in pieces if piece is not None))

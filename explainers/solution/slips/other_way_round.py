"""One piece cut away where it should be joined, or joined where it should be cut away."""

from __future__ import annotations

from dataclasses import replace

from ...item.model import Does
from .model import Scene, Slipped
from .replay import replayed, with_piece

__all__ = ["make"]


def make(scene: Scene) -> Slipped:
    """The outline when the piece lies on the wrong side of the marks."""
    piece = next(piece for piece in scene.item.pieces if piece.name == scene.piece)
    does = Does.CUT if piece.does is Does.JOIN else Does.JOIN
    return replayed(scene, with_piece(scene.item, piece.name, replace(piece, does=does)))

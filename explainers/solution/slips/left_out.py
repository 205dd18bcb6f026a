"""One piece forgotten."""

from __future__ import annotations

from .model import CannotBeMade, Scene, Slipped
from .replay import replayed, with_piece

__all__ = ["make"]


def make(scene: Scene) -> Slipped:
    """The outline without the piece.

    Raises : CannotBeMade where a later piece meets it
    """
    leaning = [piece.name for piece in scene.item.pieces if piece.of == scene.piece]
    if leaning:
        raise CannotBeMade(f"{leaning[0]} meets {scene.piece}")
    return replayed(scene, with_piece(scene.item, scene.piece, None))

"""One piece forgotten.

Why learners do it: with several pieces in mind at once, the one that is not being looked at is dropped.
"""

from __future__ import annotations

from dataclasses import replace

from ....choice.slip import CannotBeMade
from .model import Scene, Work

__all__ = ["changes"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """All but the piece.

    Raises : CannotBeMade where a later piece meets it
    """
    leaning = [piece.name for piece in work.item.pieces if piece.of == scene.piece]
    if leaning:
        raise CannotBeMade(f"{leaning[0]} meets {scene.piece}")
    left = tuple(piece for piece in work.item.pieces if piece.name != scene.piece)
    return (replace(work, item=replace(work.item, pieces=left)),)

"""One piece cut away where it should be joined, or joined where it should be cut away.

Why learners do it: both are done along a shared side, and which of them is asked is read once and soon forgotten.
"""

from __future__ import annotations

from dataclasses import replace

from ..model import Does
from .model import Scene, Work

__all__ = ["changes"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """The piece lies on the wrong side of the marks."""
    piece = work.piece(scene.piece)
    does = Does.CUT if piece.does is Does.JOIN else Does.JOIN
    return (work.with_pieces(replace(piece, does=does)),)

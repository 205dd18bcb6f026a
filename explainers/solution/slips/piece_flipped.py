"""One piece turned over before it meets its partner."""

from __future__ import annotations

from dataclasses import replace

from ...geometry.rigid_motion import Point
from .model import Scene, Slipped
from .replay import replayed, with_piece

__all__ = ["make"]


def make(scene: Scene) -> Slipped:
    """The outline when the piece shows its back; pieces that meet it meet the same sides of it."""
    piece = next(piece for piece in scene.item.pieces if piece.name == scene.piece)
    changed = replace(
        piece,
        corners=tuple(_over(point) for point in piece.corners),
        side=(_over(piece.side[0]), _over(piece.side[1])),
    )
    item = with_piece(scene.item, piece.name, changed)
    for other in item.pieces:
        if other.of == piece.name:
            item = with_piece(item, other.name, replace(other, meets=(_over(other.meets[0]), _over(other.meets[1]))))
    return replayed(scene, item)


def _over(point: Point) -> Point:
    return -point[0], point[1]

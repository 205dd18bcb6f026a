"""One piece turned over before it meets its partner.

Why learners do it: turning over brings the marks together as well as turning does, and nothing on paper forbids it.
"""

from __future__ import annotations

from dataclasses import replace

from ....geometry.rigid_motion import Point
from .model import Scene, Work

__all__ = ["changes"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """The piece shows its back; pieces that meet it meet the same sides of it."""
    piece = work.piece(scene.piece)
    changed = replace(
        piece,
        corners=tuple(_over(point) for point in piece.corners),
        side=(_over(piece.side[0]), _over(piece.side[1])),
        turned=-piece.turned,
    )
    leaning = [
        replace(other, meets=(_over(other.meets[0]), _over(other.meets[1])))
        for other in work.item.pieces
        if other.of == piece.name
    ]
    return (work.with_pieces(changed, *leaning),)


def _over(point: Point) -> Point:
    return -point[0], point[1]

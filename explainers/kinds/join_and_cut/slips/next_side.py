"""One piece meets the side after its partner's, going anticlockwise round the outline.

Why learners do it: the neighbouring side looks as good a match where the mark is not looked up again.
"""

from __future__ import annotations

from dataclasses import replace

from ....geometry.tolerance import authoring_tolerance
from .model import Scene, Work
from .neighbour import in_partners_coordinates, neighbouring

__all__ = ["changes"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """The piece lies at the neighbouring side, as far from its start as it should be from its partner's.

    Raises : CannotBeMade where that side is too short
    """
    goal = neighbouring(scene, authoring_tolerance(scene.item.extent), 1)
    piece = replace(work.piece(scene.piece), meets=in_partners_coordinates(scene, goal))
    return (work.with_pieces(piece),)

"""One piece turned the wrong way, by the right angle.

Why learners do it: the size of a turn is easier to keep in mind than its direction.
"""

from __future__ import annotations

from dataclasses import replace

from ....choice.slip import CannotBeMade
from ....geometry.tolerance import MEANT_DEG
from .model import Scene, Work

__all__ = ["changes"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """The piece turns by the same angle in the other direction, and the middles of the marked sides meet.

    Raises : CannotBeMade where both directions lead to the same place
    """
    turn_deg = scene.placement.turn_deg
    if abs(turn_deg) <= MEANT_DEG:
        raise CannotBeMade(f"{scene.piece} needs no turn")
    if abs(turn_deg) >= 180.0 - MEANT_DEG:
        raise CannotBeMade(f"{scene.piece} makes half a turn, which is the same both ways")
    return (replace(work, slip_turns=(*work.slip_turns, (work.piece(scene.piece).name, -turn_deg))),)

"""One piece brought to its partner without being turned.

Why learners do it: sliding in the mind is easier than turning, so the piece is kept as the sheet shows it.
"""

from __future__ import annotations

from dataclasses import replace

from ....choice.slip import CannotBeMade
from ....geometry.tolerance import MEANT_DEG
from .model import Scene, Work

__all__ = ["changes"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """The piece stays as the sheet shows it, and the middles of the marked sides meet.

    Raises : CannotBeMade where it needs no turn
    """
    if abs(scene.placement.turn_deg) <= MEANT_DEG:
        raise CannotBeMade(f"{scene.piece} needs no turn")
    return (replace(work, slip_turns=(*work.slip_turns, (work.piece(scene.piece).name, 0.0))),)

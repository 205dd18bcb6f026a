"""One piece brought to its partner without being turned."""

from __future__ import annotations

from .model import Scene, Slipped
from .replay import replayed

__all__ = ["make"]


def make(scene: Scene) -> Slipped:
    """The outline when the piece stays as the sheet shows it and the middles of the marked sides meet."""
    return replayed(scene, scene.item, keeps_turn=scene.piece)

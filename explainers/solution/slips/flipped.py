"""The finished outline turned over."""

from __future__ import annotations

from .model import Scene, Slipped

__all__ = ["make"]


def make(scene: Scene) -> Slipped:
    """The true outline, mirrored."""
    return Slipped(outline=scene.outline.mirrored())

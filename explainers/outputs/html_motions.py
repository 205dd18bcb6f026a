"""Motions as tracks of poses and shapes, which a page shows and interpolates without working out anything."""

from __future__ import annotations

from ..storyboard.model import Step
from .html_pictures import Shelf

__all__ = ["motions_data"]


def motions_data(step: Step, shelf: Shelf) -> list[dict[str, object]]:
    """The motions of a step in order; [] where nothing moves."""
    return []

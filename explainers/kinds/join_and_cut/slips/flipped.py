"""The finished outline turned over.

Why learners do it: a mirror image has the same sides and corners, so that it passes when checked one feature at a time.
"""

from __future__ import annotations

from dataclasses import replace

from .model import Scene, Work

__all__ = ["changes"]


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """All is done right, then the result is turned over."""
    return (replace(work, turned_over=not work.turned_over),)

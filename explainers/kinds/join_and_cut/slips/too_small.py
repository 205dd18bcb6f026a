"""One piece taken two thirds as large.

Why learners do it: a piece drawn beside a large base is remembered as smaller than it is.
"""

from __future__ import annotations

from .model import Scene, Work
from .resized import resized

__all__ = ["FACTOR", "changes"]

FACTOR = 2.0 / 3.0


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """The piece is two thirds as large; one end of its mark lies where it should, else its middle."""
    return resized(work, scene, FACTOR)

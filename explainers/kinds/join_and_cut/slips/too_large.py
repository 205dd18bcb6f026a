"""One piece taken half as large again.

Why learners do it: the size of a piece is judged by eye and not by the length of its marked side.
"""

from __future__ import annotations

from .model import Scene, Work
from .resized import resized

__all__ = ["FACTOR", "changes"]

FACTOR = 1.5


def changes(work: Work, scene: Scene) -> tuple[Work, ...]:
    """The piece is half as large again; one end of its mark lies where it should, else its middle."""
    return resized(work, scene, FACTOR)

"""A side as its two ends, walked with the material on the left."""

from __future__ import annotations

import math

from ..geometry.rigid_motion import Point

__all__ = ["Side", "is_one_side"]

Side = tuple[Point, Point]


def is_one_side(side: Side, other: Side, tolerance: float) -> bool:
    """Whether two sides have the same ends, walked the same way."""
    return all(math.dist(*ends) <= tolerance for ends in zip(side, other, strict=True))

"""Angles in degrees: wrapping, the shorter way round, the direction of a side.

Degrees everywhere, anticlockwise positive, zero along the positive x axis.
"""

from __future__ import annotations

import math

from .tolerance import ANGLE_DEG, MEANT_DEG

__all__ = ["bearing_deg", "is_odd_turn", "shortest_turn_deg", "wrapped_deg"]


def wrapped_deg(angle_deg: float) -> float:
    """The same direction in (-180, 180]; within 1e-9 of -180 it is 180, within 1e-9 of 0 it is 0 (never -0)."""
    wrapped = math.remainder(angle_deg, 360.0)
    if wrapped <= -180.0 + ANGLE_DEG or wrapped >= 180.0 - ANGLE_DEG:
        return 180.0
    return 0.0 if abs(wrapped) < ANGLE_DEG else wrapped


def shortest_turn_deg(*, from_deg: float, to_deg: float) -> float:
    """The turn that leads from one direction to another the shorter way round, in (-180, 180]."""
    return wrapped_deg(to_deg - from_deg)


def bearing_deg(start: tuple[float, float], end: tuple[float, float]) -> float:
    """Direction of the side from start to end, in (-180, 180]."""
    return wrapped_deg(math.degrees(math.atan2(end[1] - start[1], end[0] - start[0])))


def is_odd_turn(turn_deg: float) -> bool:
    """Whether a turn is meant to be by no multiple of 45 degrees."""
    return abs(turn_deg - 45.0 * round(turn_deg / 45.0)) > MEANT_DEG

"""The only place where a tolerance is defined.

Two kinds are kept apart. The *relative* one forgives what floating point does to numbers that are equal. The
*authoring* one forgives what a teacher's hand does to numbers that are meant to be equal: 2.828 typed for 2√2.
"""

from __future__ import annotations

__all__ = [
    "ANGLE_DEG",
    "AUTHORING",
    "MEANT_DEG",
    "PLAIN_DEG",
    "RELATIVE",
    "TURN_DEG",
    "authoring_tolerance",
    "computed",
    "grid_size",
    "plain",
    "within",
]

RELATIVE = 1e-9  # of the larger extent: two computed numbers are equal
AUTHORING = 1e-3  # of the base's larger extent: two typed numbers are meant to be equal
ANGLE_DEG = 1e-9  # degrees: a turn this close to -180 is written 180, this close to 0 is written 0
TURN_DEG = 1e-6  # degrees: two computed turns are equal
MEANT_DEG = 0.1  # degrees: two turns that are meant to be equal, for hand-typed corners tilt a piece a little
PLAIN_DEG = 3.0  # degrees: two angles whose difference a learner sees


def authoring_tolerance(extent: float) -> float:
    """The distance below which two points are meant to be one, in item units, for a base of this larger extent."""
    return AUTHORING * extent


def grid_size(extent: float) -> float:
    """The precision grid for overlays, in item units: fine against what is typed, coarse against rounding errors."""
    return 1e-10 * extent


def computed(tolerance: float) -> float:
    """The distance within which two computed points are one, given the authoring tolerance."""
    return tolerance * 1e-3


def plain(tolerance: float) -> float:
    """The distance that a learner plainly sees, given the authoring tolerance: a fiftieth of the base."""
    return tolerance * 20.0


def within(found: float, tolerance: float) -> bool:
    """Whether a difference is no more than a tolerance; rounding must not refuse one that is the tolerance itself."""
    return found <= tolerance * (1.0 + RELATIVE)

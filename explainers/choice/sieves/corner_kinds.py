"""Corners as they are seen without measuring: right-angled, sharp, wide, pointing inwards; or not clear."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point
from ...geometry.rings import interior_angles_deg, larger_extent, sides

__all__ = ["Corner", "CornerKind", "corners_seen", "kinds_known", "kinds_round"]

# Judgement, no source: what is told apart at a glance.
CLEAR_DEG = 15.0  # from a straight side, and of a sharp or wide corner from a right angle
RIGHT_DEG = 3.0  # a right angle is told from others that differ by more only where they differ by CLEAR_DEG
LEAST_SIDE = 0.04  # of the larger extent: a corner at a shorter side may be overlooked

_REMEMBERED = 256


class CornerKind(StrEnum):
    """What a corner of the outer edge looks like."""

    RIGHT = "right"  # a right angle, pointing outwards
    SHARP = "sharp"  # less than a right angle
    WIDE = "wide"  # more than a right angle, pointing outwards
    INWARD = "inward"  # pointing inwards, whatever its angle


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of the outer edge.

    kind     : which it is, measured
    is_clear : whether it is seen at a glance to be a corner, and which way it points
    is_known : whether its kind is seen at a glance
    """

    at: Point
    kind: CornerKind
    is_clear: bool
    is_known: bool

    @property
    def looks(self) -> CornerKind | None:
        """Its kind, where that is seen at a glance."""
        return self.kind if self.is_clear and self.is_known else None

    def may_look(self, kind: CornerKind) -> bool:
        """Whether it may be taken for one of that kind though it is not clear."""
        return self.looks is None and (not self.is_clear or kind is not CornerKind.INWARD)


def kinds_known(corners: Iterable[Corner]) -> tuple[CornerKind, ...] | None:
    """The kinds of corners in their order; None where one is not seen at a glance."""
    looks = [corner.looks for corner in corners]
    known = tuple(look for look in looks if look is not None)
    return known if len(known) == len(looks) else None


def kinds_round(outline: Outline) -> tuple[CornerKind, ...] | None:
    """The kinds of the corners going round, anticlockwise; None where one is not seen at a glance.

    outline : without needless corners
    """
    return kinds_known(corners_seen(outline))


@lru_cache(maxsize=_REMEMBERED)
def corners_seen(outline: Outline) -> tuple[Corner, ...]:
    """The corners of the outer edge, anticlockwise, in the order of the exterior.

    outline : without needless corners
    """
    ring = outline.exterior
    least = LEAST_SIDE * larger_extent(ring)
    lengths = [math.dist(*side) for side in sides(ring)]
    found = []
    for index, (at, angle) in enumerate(zip(ring, interior_angles_deg(ring), strict=True)):
        is_clear = abs(angle - 180.0) >= CLEAR_DEG and min(lengths[index - 1], lengths[index]) >= least
        kind = _kind(angle)
        is_known = kind in (CornerKind.INWARD, CornerKind.RIGHT) or abs(angle - 90.0) >= CLEAR_DEG
        found.append(Corner(at, kind, is_clear, is_known))
    return tuple(found)


def _kind(angle_deg: float) -> CornerKind:
    if angle_deg > 180.0:
        return CornerKind.INWARD
    if abs(angle_deg - 90.0) <= RIGHT_DEG:
        return CornerKind.RIGHT
    return CornerKind.SHARP if angle_deg < 90.0 else CornerKind.WIDE

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

__all__ = ["Corner", "CornerKind", "corner_of", "corners_seen", "kinds_known", "kinds_round"]

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

    kind        : which it is, measured
    is_clear    : whether it is seen at a glance to be a corner, and which way it points
    may_be      : the kinds that it may be taken for
    is_notch    : whether it points inwards and a right angle fits into it, measured
    looks_notch : whether it is seen at a glance to be such a one, or not to be; None where it may be taken for either
    """

    at: Point
    kind: CornerKind
    is_clear: bool
    may_be: frozenset[CornerKind]
    is_notch: bool
    looks_notch: bool | None

    @property
    def looks(self) -> CornerKind | None:
        """Its kind, where that is seen at a glance."""
        return self.kind if self.is_clear and len(self.may_be) == 1 else None

    def may_look(self, kind: CornerKind) -> bool:
        """Whether it may be taken for one of that kind though it is not clear."""
        return self.looks is None and kind in self.may_be


def corner_of(
    at: Point, kind: CornerKind, *, is_flat: bool, is_short: bool, is_square: bool, is_nearly_square: bool
) -> Corner:
    """What a corner is taken for, however it was looked at.

    is_flat          : hardly bent, so that it may be overlooked, or seen to point the other way
    is_short         : at a side so short that it may be overlooked, or taken for anything
    is_square        : one side stands square on the other
    is_nearly_square : not square, but so nearly that it may be taken for it
    """
    if is_short:
        may_be = frozenset(CornerKind)
    elif is_flat:
        may_be = frozenset((CornerKind.WIDE, CornerKind.INWARD))
    elif is_nearly_square and kind is not CornerKind.INWARD:
        may_be = frozenset((kind, CornerKind.RIGHT))
    else:
        may_be = frozenset((kind,))
    is_notch = kind is CornerKind.INWARD and is_square
    in_doubt = is_short or (kind is CornerKind.INWARD and is_nearly_square)
    return Corner(at, kind, not (is_flat or is_short), may_be, is_notch, None if in_doubt else is_notch)


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
        bent = abs(angle - 180.0)
        corner = corner_of(
            at,
            _kind(angle),
            is_flat=bent < CLEAR_DEG,
            is_short=min(lengths[index - 1], lengths[index]) < least,
            is_square=abs(bent - 90.0) <= RIGHT_DEG,
            is_nearly_square=RIGHT_DEG < abs(bent - 90.0) < CLEAR_DEG,
        )
        found.append(corner)
    return tuple(found)


def _kind(angle_deg: float) -> CornerKind:
    if angle_deg > 180.0:
        return CornerKind.INWARD
    if abs(angle_deg - 90.0) <= RIGHT_DEG:
        return CornerKind.RIGHT
    return CornerKind.SHARP if angle_deg < 90.0 else CornerKind.WIDE

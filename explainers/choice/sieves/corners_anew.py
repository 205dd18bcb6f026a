"""Corners read once more, by cross and dot products of sides that follow each other: the proof of what angles say."""

from __future__ import annotations

import math

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point
from .corner_kinds import CLEAR_DEG, LEAST_SIDE, RIGHT_DEG, Corner, CornerKind, corner_of, kinds_known

__all__ = ["are_clear_anew", "corners_anew", "kinds_anew"]


def kinds_anew(outline: Outline) -> tuple[CornerKind, ...] | None:
    """The kinds of the corners of the outer edge in order, by cross and dot products; None where one is not clear.

    outline : without needless corners
    """
    return kinds_known(corners_anew(outline))


def are_clear_anew(outline: Outline) -> bool:
    """Whether every corner of the outer edge is seen at a glance to be one, by cross and dot products.

    outline : without needless corners
    """
    return all(look.is_clear for look in corners_anew(outline))


def corners_anew(outline: Outline) -> tuple[Corner, ...]:
    """The corners of the outer edge in the order of the exterior, by cross and dot products.

    outline : without needless corners
    """
    ring, least = outline.exterior, LEAST_SIDE * outline.larger_extent
    walk = zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True)
    return tuple(_look_of(before, corner, after, least) for before, corner, after in walk)


def _look_of(before: Point, corner: Point, after: Point, least: float) -> Corner:
    (ux, uy), (vx, vy) = (corner[0] - before[0], corner[1] - before[1]), (after[0] - corner[0], after[1] - corner[1])
    lengths = math.hypot(ux, uy), math.hypot(vx, vy)
    sine, cosine = (ux * vy - uy * vx) / math.prod(lengths), (ux * vx + uy * vy) / math.prod(lengths)
    clear = math.sin(math.radians(CLEAR_DEG))
    is_square = abs(cosine) <= math.sin(math.radians(RIGHT_DEG))
    if sine < 0.0:
        kind = CornerKind.INWARD
    elif is_square:
        kind = CornerKind.RIGHT
    else:
        kind = CornerKind.SHARP if cosine < 0.0 else CornerKind.WIDE
    return corner_of(
        corner,
        kind,
        is_flat=cosine > 0.0 and abs(sine) < clear,
        is_short=min(lengths) < least,
        is_square=is_square,
        is_nearly_square=not is_square and abs(cosine) < clear,
    )

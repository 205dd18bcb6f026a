"""Where each mark's letter stands, so that it is free of outlines and of other letters wherever its piece may lie.

Places are chosen once, in the base's coordinates with every piece where it ends up; a letter then travels with its
piece. Each keeps a *disc* free about it, not a box, so that it stays free however the piece is turned.

On a piece the letter stands inside, near the marked side. On the partner it stands on the far side of the seam: inside
the cloth for a join, outside for a cut, so that the two letters face each other when the marks meet. Where there
is no place in the cloth, or one much farther from the side than one outside, it stands outside, as near as it may.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry import Point as PlanePoint
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points, unary_union

from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Side
from ....geometry.side import left_normal, midpoint
from ..model import Does
from ..solving.placement import Placement

__all__ = ["Letters", "letters"]

_MUCH_FARTHER = 1.5  # a place inside may be so many times as far from the side as one outside


@dataclass(frozen=True, slots=True, kw_only=True)
class Letters:
    """For each placement, in order, where its two letters stand, in the base's coordinates."""

    on_piece: tuple[Point, ...]
    on_partner: tuple[Point, ...]


def letters(
    base: Outline,
    placements: Sequence[Placement],
    *,
    radii: Sequence[float],
    ticks: Sequence[float],
    end: float,
    gap: float,
) -> Letters:
    """Places for all letters of an item.

    radii  : of the disc that each placement's letter needs, item units
    ticks  : how far each placement's tick marks reach from the middle of its marked side, item units
    end    : radius of the dots at the ends of a mark on a part of a side, item units
    gap    : between a disc and the nearest outline or disc, item units
    """
    placed = [Polygon(placement.ring) for placement in placements]
    material = Polygon(base.exterior, base.holes)
    everything = unary_union([material, *placed])
    outlines = [material.boundary, *(ring.boundary for ring in placed)]
    tick_discs = [
        PlanePoint(midpoint(placement.side)).buffer(reach) for placement, reach in zip(placements, ticks, strict=True)
    ]
    signs = [*tick_discs, *(PlanePoint(place).buffer(end) for placement in placements for place in placement.side)]
    taken: list[BaseGeometry] = []
    on_piece: list[Point] = []
    on_partner: list[Point] = []
    for placement, ring, radius, reach in zip(placements, placed, radii, ticks, strict=True):
        room = radius + gap
        past_ticks = reach + room  # the calmest place: straight in from the middle of the side, past its ticks
        outside = _clear_of(everything, reach=8 * room)
        near = _beside(placement.side, past_ticks)
        on_piece.append(_place(ring, outside, [*outlines, *signs, *taken], near, placement.side, room))
        taken.append(PlanePoint(on_piece[-1]).buffer(radius))
        of = [other for other in placements if other.piece.name == placement.piece.of]
        owner = Polygon(of[0].ring) if of else material
        inside = owner.intersection(Polygon(placement.before.exterior, placement.before.holes))
        join = placement.piece.does is Does.JOIN
        near = _beside(placement.partner, past_ticks if join else -past_ticks)
        blocked = [*outlines, *signs, *taken]
        on_partner.append(_place(inside if join else None, outside, blocked, near, placement.partner, room))
        taken.append(PlanePoint(on_partner[-1]).buffer(radius))
    return Letters(on_piece=tuple(on_piece), on_partner=tuple(on_partner))


def _place(
    inside: BaseGeometry | None,
    outside: BaseGeometry,
    blocked: Sequence[BaseGeometry],
    near: Point,
    side: Side,
    room: float,
) -> Point:
    """The place whose disc touches nothing blocked: inside, nearest to `near`, unless outside is much nearer the side.

    inside : the cloth where the letter should stand; None where it should stand outside
    """
    keep_off = unary_union([shape.buffer(room) for shape in blocked])
    middle = midpoint(side)
    within = None if inside is None else _nearest(inside.buffer(-room).difference(keep_off), near)
    # Outside there is always room; the nearer to the side, the plainer which side it speaks of.
    beside = _nearest(outside.buffer(-room).difference(keep_off), middle if inside is not None else near)
    if beside is None:
        raise AssertionError("the open ground around the outlines is never full")
    if within is not None and math.dist(within, middle) <= _MUCH_FARTHER * math.dist(beside, middle):
        return within
    return beside


def _nearest(free: BaseGeometry, near: Point) -> Point | None:
    if free.is_empty:
        return None
    nearest, _ = nearest_points(free, PlanePoint(near))
    return (nearest.x, nearest.y)


def _clear_of(everything: BaseGeometry, *, reach: float) -> BaseGeometry:
    """The plane around the outlines, as far out as a letter may stand."""
    left, bottom, right, top = everything.bounds
    return shapely.box(left - reach, bottom - reach, right + reach, top + reach).difference(everything)


def _beside(side: Side, distance: float) -> Point:
    """The point at this distance to the left of the middle of a side; to its right where it is negative."""
    (x, y), (nx, ny) = midpoint(side), left_normal(side)
    return (x + distance * nx, y + distance * ny)

"""Where each mark's sign or letter stands, free of outlines and of other marks wherever its piece may lie.

Places are chosen once, in the base's coordinates with every piece where it ends up; a sign then travels with its
piece. Each keeps a *disc* free about it, not a box, so that it stays free however the piece is turned. It keeps clear
of what is ever seen with it: a piece's own mark goes when the piece is done, and no later piece is there before.

On a piece the sign stands inside, near the ticks of the marked side. On the partner it stands on the far side of the
seam: inside the cloth for a join, outside for a cut, so that the two signs face each other when the marks meet. Where
there is no place in the cloth, or one much farther from the ticks than one outside, it stands outside, as near as may
be.

A sign stands beside its ticks. Where it has no room there, the ticks move along the side with it, on both sides alike,
so that they still meet; only where that does not do, each by itself.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

import shapely
from shapely.geometry import Point as PlanePoint
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points, unary_union

from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Side
from ....geometry.side import left_normal, point_along
from ..model import Does
from ..solving.placement import Placement

__all__ = ["MIDDLE", "TICK_PLACES", "Letters", "letters", "tick_places"]

_MUCH_FARTHER = 1.5  # a place inside may be so many times as far from the ticks as one outside
_CALM = 0.5  # a sign no farther from its ticks than so many of its radii stands well: nothing moves
MIDDLE = 0.5
TICK_PLACES = (MIDDLE, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)  # parts of the side, the best liked first
_MOVED = 0.2  # what moving ticks costs, in parts of the side's length


@dataclass(frozen=True, slots=True, kw_only=True)
class Letters:
    """For each placement, in order, where its two signs stand, in the base's coordinates, and its ticks.

    own_ticks, partner_ticks : as parts of the way along ``side`` and along ``partner``
    """

    on_piece: tuple[Point, ...]
    on_partner: tuple[Point, ...]
    own_ticks: tuple[float, ...]
    partner_ticks: tuple[float, ...]


@lru_cache(maxsize=128)  # a sheet is drawn again for another option: up to 60 scales, and the same places found
def letters(
    base: Outline,
    placements: tuple[Placement, ...],
    *,
    radii: tuple[float, ...],
    ticks: tuple[float, ...],
    spans: tuple[float, ...],
    end: float,
    gap: float,
) -> Letters:
    """Places for all signs and letters of an item.

    radii  : of the disc that each placement's sign needs, item units
    ticks  : how far each placement's tick marks reach from their middle, item units
    spans  : how far they reach along the side to either way, item units
    end    : radius of the dots at the ends of a mark on a part of a side, item units
    gap    : between a disc and the nearest outline or disc, item units
    """
    material = Polygon(base.exterior, base.holes)
    placed = [Polygon(placement.ring) for placement in placements]
    default = [_disc(point_along(each.partner, MIDDLE), reach) for each, reach in zip(placements, ticks, strict=True)]
    grown = _Grown([material.boundary, *(shape.boundary for shape in placed)])
    ends = [[_disc(place, end) for place in each.partner] for each in placements]
    owns: list[_Mark] = []
    partners: list[_Mark] = []
    for index, placement in enumerate(placements):
        radius, reach = radii[index], ticks[index]
        there = [material, *placed[: index + 1]]
        later = [disc for discs in ends[index + 1 :] for disc in discs] + default[index + 1 :]
        outside = _clear_of(unary_union(there), reach=8 * (radius + gap))
        is_join = placement.piece.does is Does.JOIN
        of = [other for other in placements if other.piece.name == placement.piece.of]
        owner = Polygon(of[0].ring) if of else material
        inside = owner.intersection(Polygon(placement.before.exterior, placement.before.holes)) if is_join else None
        size = _Size(radius=radius, reach=reach, room=radius + gap, span=spans[index] + end + gap)
        keep_off = grown.united(grown.edges(index + 2, size.room), [*ends[index], *later], size.room)
        own = _Ground(placement.side, 1.0, placed[index], outside, keep_off, later, size)
        before = [disc for mark in (*owns, *partners) for disc in mark.discs]
        before += [disc for discs in ends[:index] for disc in discs]
        keep_off = grown.united(keep_off, before, size.room)
        way = 1.0 if is_join else -1.0
        partner = _Ground(placement.partner, way, inside, outside, keep_off, [*later, *before], size)
        mark, other = _placed(own, partner, is_join=is_join)
        owns.append(mark)
        partners.append(other)
    return Letters(
        on_piece=tuple(mark.at for mark in owns),
        on_partner=tuple(mark.at for mark in partners),
        own_ticks=tuple(mark.along for mark in owns),
        partner_ticks=tuple(mark.along for mark in partners),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Size:
    radius: float
    reach: float
    room: float
    span: float  # along the side, with the dot at an end of it


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mark:
    """A sign and its ticks where they stand."""

    at: Point
    along: float
    discs: tuple[BaseGeometry, ...]  # of the sign, of the ticks
    astray: float  # how much farther the sign is from its ticks than it had to be


class _Grown:
    """What is grown by the room of a sign, each thing once for each room: most stands in the way of several signs."""

    def __init__(self, edges: Sequence[BaseGeometry]) -> None:
        """edges : of the base and of each piece in order"""
        self._edges = edges
        self._first: dict[tuple[int, float], BaseGeometry] = {}
        self._kept: dict[tuple[int, float], tuple[BaseGeometry, BaseGeometry]] = {}

    def edges(self, count: int, room: float) -> BaseGeometry:
        """So many of the edges, from the first, as one."""
        if (count, room) not in self._first:
            last = self._one(self._edges[count - 1], room)
            self._first[count, room] = last if count == 1 else unary_union([self.edges(count - 1, room), last])
        return self._first[count, room]

    def united(self, grown: BaseGeometry, shapes: Sequence[BaseGeometry], room: float) -> BaseGeometry:
        """What is grown already, and these, as one."""
        return unary_union([grown, *(self._one(shape, room) for shape in shapes)])

    def _one(self, shape: BaseGeometry, room: float) -> BaseGeometry:
        key = (id(shape), room)
        if key not in self._kept:
            self._kept[key] = (shape, shape.buffer(room))  # with the shape itself, so that no other one gets its id
        return self._kept[key][1]


class _Ground:
    """Where the sign of one side may stand."""

    def __init__(
        self,
        side: Side,
        way: float,
        inside: BaseGeometry | None,
        outside: BaseGeometry,
        keep_off: BaseGeometry,
        signs: Sequence[BaseGeometry],
        size: _Size,
    ) -> None:
        """way      : on which side of it the sign stands best: +1 left, -1 right
        inside   : the cloth where it should stand; None where it should stand outside
        keep_off : where the middle of the sign may not be
        signs    : what its ticks must keep clear of too
        """
        self.side, self.size = side, size
        self._way = way
        self._signs = signs
        self._all_outside = outside
        self._keep_off = keep_off
        self._inside = None if inside is None else inside.buffer(-size.room).difference(self._keep_off)

    @cached_property
    def _outside(self) -> BaseGeometry:
        """Asked for only where the cloth does not do: most signs stand in it."""
        return self._all_outside.buffer(-self.size.room).difference(self._keep_off)

    def mark(
        self, along: float, beside: Sequence[BaseGeometry] = (), clear: Sequence[BaseGeometry] = ()
    ) -> _Mark | None:
        """The sign with its ticks at a part of the way; None where the ticks have no room.

        beside : what else both must keep clear of
        clear  : what else the sign alone must keep clear of
        """
        size, middle = self.size, point_along(self.side, along)
        ticks = _disc(middle, size.reach)
        # What comes later leaves the middle of a side to its ticks.
        if any(ticks.intersects(disc) for disc in (*beside, *(self._signs if along != MIDDLE else ()))):
            return None
        nx, ny = left_normal(self.side)
        past = self._way * (size.reach + size.room)
        near = (middle[0] + past * nx, middle[1] + past * ny)
        keep_off = unary_union([ticks, *beside, *clear]).buffer(size.room)
        within = None if self._inside is None else _nearest(self._inside.difference(keep_off), near)
        # No place outside is nearer to the ticks than this.
        if within is not None and math.dist(within, middle) <= _MUCH_FARTHER * (size.reach + size.room):
            at = within
        else:
            at = self._beside(within, middle, middle if self._inside is not None else near, keep_off)
        astray = max(0.0, math.dist(at, middle) - size.reach - size.room)
        return _Mark(at=at, along=along, discs=(_disc(at, size.radius), ticks), astray=astray)

    def _beside(self, within: Point | None, middle: Point, target: Point, keep_off: BaseGeometry) -> Point:
        """The place outside, where there is always room, unless it is not much nearer to the ticks than the cloth's."""
        at = _nearest(self._outside.difference(keep_off), target)
        if at is None:
            raise AssertionError("the open ground around the outlines is never full")
        if within is not None and math.dist(within, middle) <= _MUCH_FARTHER * math.dist(at, middle):
            return within
        return at

    def places(self) -> Iterator[float]:
        return tick_places(math.dist(*self.side), self.size.span)


def tick_places(length: float, room: float) -> Iterator[float]:
    """Where ticks may stand along a side, as parts of the way, the best liked first.

    room : that they need to either side of their middle
    """
    return (along for along in TICK_PLACES if along == MIDDLE or room <= along * length <= length - room)


def _placed(own: _Ground, partner: _Ground, *, is_join: bool) -> tuple[_Mark, _Mark]:
    """Both marks of a piece: with ticks that meet where that does, else each where it is best."""
    length, calm = math.dist(*own.side), _CALM * own.size.radius
    best: tuple[float, _Mark, _Mark] | None = None
    for along in own.places():
        mark = own.mark(along)
        other = mark and partner.mark(1.0 - along if is_join else along, mark.discs[:1])
        if mark is None or other is None:
            continue
        cost = mark.astray + other.astray + _MOVED * abs(along - MIDDLE) * length
        if best is None or cost < best[0]:
            best = (cost, mark, other)
        if along == MIDDLE and max(mark.astray, other.astray) <= calm:
            break
    if best is None:
        raise AssertionError("ticks have room in the middle of their side")
    _, mark, other = best
    if mark.astray > calm:
        moved = _alone(own, mark, other.discs[1:])
        left = partner.mark(other.along, moved.discs[:1], moved.discs[1:])
        if left is not None and moved.astray + left.astray < mark.astray + other.astray:
            mark, other = moved, left
    if other.astray > calm:
        other = _alone(partner, other, mark.discs)
    return mark, other


def _alone(ground: _Ground, found: _Mark, beside: Sequence[BaseGeometry]) -> _Mark:
    """The best place for a sign with its ticks beside those of the other side of the seam."""
    marks = (ground.mark(along, beside) for along in ground.places())
    return min([found, *(mark for mark in marks if mark is not None)], key=lambda mark: mark.astray)


def _disc(at: Point, radius: float) -> Polygon:
    return PlanePoint(at).buffer(radius)


def _nearest(free: BaseGeometry, near: Point) -> Point | None:
    if free.is_empty:
        return None
    nearest, _ = nearest_points(free, PlanePoint(near))
    return (nearest.x, nearest.y)


def _clear_of(everything: BaseGeometry, *, reach: float) -> BaseGeometry:
    """The plane around the outlines, as far out as a letter may stand."""
    left, bottom, right, top = everything.bounds
    return shapely.box(left - reach, bottom - reach, right + reach, top + reach).difference(everything)

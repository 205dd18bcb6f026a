"""Joining a ring to an outline, cutting a ring out of it: what comes of it, how legal it is.

Corners are welded first, then overlaid on a precision grid: placed by floating-point turns, two sides that should lie
on each other miss by a rounding error, and a plain union then leaves slivers. Corners of the outline never move;
those of the placed ring that come within the tolerance of a corner are drawn to it, of a side are dropped onto it.

A region's *thickness* is twice its area over its perimeter: about the width of a strip. What is thinner than the
authoring tolerance is nothing.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
import shapely

from .locate import distance_to_side, nearest_corner
from .outline import Outline
from .rigid_motion import Point, Ring
from .rings import larger_extent, perimeter, sides, signed_area
from .tolerance import computed, grid_size

__all__ = [
    "Overlay",
    "cut_out",
    "drawn_to",
    "has_common_side",
    "is_simple",
    "joined",
    "pole_of_inaccessibility",
    "polygon",
    "regions",
    "shared_thickness",
    "thickness",
    "touches_itself_at",
    "welded",
]

Geometry = Any  # shapely carries no types


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlay:
    """What a join or a cut leaves."""

    ring: Ring  # the placed ring, welded, anticlockwise
    parts: tuple[Outline, ...]  # needless corners dropped, largest first; none where a cut leaves nothing
    too_much: float  # thickness of what a join overlaps, or of what a cut takes from outside; 0 where legal


NOTHING = 1e-12  # of the squared extent: area that comes of rounding errors

# Pure functions of frozen values: proving a fact asks the same of the same two outlines again and again.
_REMEMBERED = 512


@lru_cache(maxsize=_REMEMBERED)
def polygon(outline: Outline) -> Geometry:
    """The outline as a shapely polygon."""
    exterior, *holes = (shapely.linearrings(np.asarray((*ring, ring[0]), dtype=float)) for ring in outline.rings)
    return shapely.polygons(exterior, holes or None)


def is_simple(outline: Outline) -> bool:
    """Whether no ring crosses itself or another, and the material hangs together."""
    return bool(shapely.is_valid(polygon(outline)))


def thickness(geometry: Geometry) -> float:
    """The greatest thickness of any part of a geometry; 0 for points and lines."""
    areas = [(part.area, part.length) for part in shapely.get_parts(geometry) if part.geom_type == "Polygon"]
    return max((2 * area / length for area, length in areas if length > 0.0), default=0.0)


@lru_cache(maxsize=_REMEMBERED)
def shared_thickness(outline: Outline, other: Outline) -> float:
    """Thickness of the region that two outlines have in common."""
    return thickness(_overlaid(shapely.intersection, outline, other))


@lru_cache(maxsize=_REMEMBERED)
def regions(outline: Outline, other: Outline, tolerance: float) -> tuple[Outline, ...]:
    """The parts of ``outline`` outside ``other``, largest first, slivers and needless corners left out."""
    found = _parts(_overlaid(shapely.difference, outline, other), tolerance)
    return tuple(_simplified(region, min(tolerance, 0.1 * region.larger_extent)) for region in found)


def difference_area(outline: Outline, other: Outline) -> float:
    """The area where only one of two outlines has material, slivers and all; much quicker than their regions."""
    return float(shapely.area(_plainly(shapely.symmetric_difference, outline, other)))


def has_common_side(outline: Outline, other: Outline) -> bool:
    """Whether two outlines meet along a line without overlapping: touching at corners alone is not enough.

    Source : the intersection pattern FF*F1**** of DE-9IM, "interiors apart, boundaries share a line"
    """
    return bool(shapely.relate_pattern(polygon(outline), polygon(other), "FF*F1****"))


@lru_cache(maxsize=_REMEMBERED)
def pole_of_inaccessibility(outline: Outline) -> Point:
    """A point deep inside the material: the centre of the largest circle that fits, nearly."""
    shape = polygon(outline)
    line = shapely.maximum_inscribed_circle(shape, tolerance=0.01 * math.sqrt(shape.area))
    x, y = shapely.get_coordinates(line)[0]
    return float(x), float(y)


def inside_near(outline: Outline, point: Point) -> Point:
    """A point of the material as near to another as keeps half the clearance that the deepest point has."""
    core = _core(outline)
    if core.is_empty:
        return pole_of_inaccessibility(outline)
    line = shapely.shortest_line(core, shapely.Point(point))
    x, y = shapely.get_coordinates(line)[0]
    return float(x), float(y)


@lru_cache(maxsize=_REMEMBERED)
def _core(outline: Outline) -> Geometry:
    """What of the material keeps half the clearance that the deepest point has."""
    shape = polygon(outline)
    clearance = float(shapely.maximum_inscribed_circle(shape, tolerance=0.01 * math.sqrt(shape.area)).length)
    return shapely.buffer(shape, -0.5 * clearance)


def joined(outline: Outline, ring: Ring, tolerance: float, *, only_legal: bool = False) -> Overlay:
    """The outline with the ring's inside added.

    only_legal : whether what overlaps plainly may be handed back without parts, which is quicker
    """
    placed, host = welded(ring, outline, tolerance)
    piece = Outline.of(placed)
    shared = _plainly(shapely.intersection, host, piece)
    if only_legal and thickness(shared) > 2.0 * tolerance:
        return Overlay(ring=piece.exterior, parts=(), too_much=thickness(shared))
    if _is_nothing(shared, host):
        part = _with_seams_undone(host, piece.exterior, tolerance)
        if part is not None:
            return Overlay(ring=piece.exterior, parts=(part,), too_much=0.0)
    return Overlay(
        ring=piece.exterior,
        parts=_cleaned(_overlaid(shapely.union, host, piece), (host, piece), tolerance),
        too_much=_beyond(thickness(_overlaid(shapely.intersection, host, piece)), tolerance),
    )


def cut_out(outline: Outline, ring: Ring, tolerance: float, *, only_legal: bool = False) -> Overlay:
    """The outline with the ring's inside taken away.

    only_legal : whether what reaches outside plainly may be handed back without parts, which is quicker
    """
    placed, host = welded(ring, outline, tolerance)
    piece = Outline.of(placed)
    outside = _plainly(shapely.difference, piece, host)
    if only_legal and thickness(outside) > 2.0 * tolerance:
        return Overlay(ring=piece.exterior, parts=(), too_much=thickness(outside))
    if _is_nothing(outside, host):
        part = _with_seams_undone(host, piece.exterior[::-1], tolerance)
        if part is not None:
            return Overlay(ring=piece.exterior, parts=(part,), too_much=0.0)
    return Overlay(
        ring=piece.exterior,
        parts=_cleaned(_overlaid(shapely.difference, host, piece), (host, piece), tolerance),
        too_much=_beyond(thickness(_overlaid(shapely.difference, piece, host)), tolerance),
    )


def _is_nothing(geometry: Geometry, host: Outline) -> bool:
    return bool(shapely.area(geometry) <= NOTHING * host.larger_extent**2)


def _with_seams_undone(host: Outline, ring: Ring, tolerance: float) -> Outline | None:
    """What is left of all sides when those that run against each other go in pairs: exact, where nothing overlaps.

    ring    : the piece's, running anticlockwise to join, clockwise to cut
    Returns : None where that is no single outline, or one with a part or a hole of no width: an overlay must tell
    """
    following: dict[Point, Point] = {}
    against = {(end, start) for start, end in sides(ring)}
    for walked in (*host.rings, ring):
        for side in sides(walked):
            if walked is not ring and side in against:
                against.discard(side)
                continue
            if walked is ring and (side[1], side[0]) not in against:
                continue
            if side[0] in following:
                return None
            following[side[0]] = side[1]
    rings: list[Ring] = []
    while following:
        start, point = following.popitem()
        walk = [start]
        while point != start:
            walk.append(point)
            found = following.pop(point, None)
            if found is None:
                return None
            point = found
        rings.append(tuple(walk))
    outer = [walk for walk in rings if signed_area(walk) > 0.0]
    if len(outer) != 1 or any(2.0 * abs(signed_area(walk)) <= tolerance * perimeter(walk) for walk in rings):
        return None
    return _simplified(Outline(outer[0], tuple(walk for walk in rings if walk is not outer[0])), tolerance)


def welded(ring: Ring, outline: Outline, tolerance: float) -> tuple[Ring, Outline]:
    """(the ring drawn onto the outline, the outline with a corner wherever the ring has one on its sides).

    Afterwards the two have the same corners wherever they run along each other, so that an overlay finds their common
    sides without rounding.
    """
    drawn: list[Point] = []
    for point in ring:
        goal = _weld_point(point, outline, tolerance)
        if not drawn or goal != drawn[-1]:
            drawn.append(goal)
    if len(drawn) > 1 and drawn[0] == drawn[-1]:
        drawn.pop()
    corners = [corner for host in outline.rings for corner in host]
    closed = _without_spikes(_with_corners(tuple(drawn), corners, tolerance))
    return closed, Outline(
        _with_corners(outline.exterior, closed, tolerance),
        tuple(_with_corners(hole, closed, tolerance) for hole in outline.holes),
    )


def drawn_to(outline: Outline, other: Outline, tolerance: float) -> Outline:
    """The outline with those corners that come within the tolerance of the other's boundary drawn onto it."""
    drawn = Outline(*_drawn_rings(outline, other, tolerance))
    return drawn if is_simple(drawn) else outline


def _drawn_rings(outline: Outline, other: Outline, tolerance: float) -> tuple[Ring, tuple[Ring, ...]]:
    exterior, *holes = (tuple(_weld_point(point, other, tolerance) for point in ring) for ring in outline.rings)
    return exterior, tuple(holes)


def touches_itself_at(outline: Outline, tolerance: float) -> Point | None:
    """A corner that comes within the tolerance of a side that it does not end, or None.

    Corner against corner, corner in the middle of a side, any two rings: all are the same thing to a learner, an
    outline that pinches to nothing.
    """
    corners = [corner for ring in outline.rings for corner in ring]
    starts = np.asarray(corners, dtype=float) @ (1.0, 1.0j)
    following = np.arange(1, len(starts) + 1)
    first = 0
    for ring in outline.rings:
        following[first + len(ring) - 1] = first
        first += len(ring)
    along = starts[following] - starts
    # Every corner (columns) as seen from every side (rows): along it, and away from it.
    away = starts - starts[:, None]
    length = np.maximum(np.abs(along), np.finfo(float).tiny)
    away *= (along.conj() / length)[:, None]
    # Past neither end of the side by more than the tolerance, a box that is a little larger than a round-ended strip.
    near = np.abs(away.imag) <= tolerance
    near &= (away.real >= -tolerance) & (away.real <= length[:, None] + tolerance)
    own = np.arange(len(starts))
    near[own, own] = near[own, following] = False
    for row, column in np.argwhere(near).tolist():
        if distance_to_side(corners[column], (corners[row], corners[following[row]])) <= tolerance:
            return corners[column]
    return None


def _plainly(operation: Any, outline: Outline, other: Outline) -> Geometry:
    """Without a grid, which is quicker; welding may have made a ring touch or cross itself, which takes one."""
    try:
        return operation(polygon(outline), polygon(other))
    except shapely.errors.GEOSException:
        return _overlaid(operation, outline, other)


def _overlaid(operation: Any, outline: Outline, other: Outline) -> Geometry:
    extent = max(outline.larger_extent, other.larger_extent)
    first, second, grid = polygon(outline), polygon(other), grid_size(extent)
    try:
        return operation(first, second, grid_size=grid)
    except shapely.errors.GEOSException:  # a ring that crosses itself, by less than can be seen
        return operation(_areas(first), _areas(second), grid_size=grid)


def _areas(shape: Geometry) -> Geometry:
    """What a crossing ring encloses, without the lines that it leaves over: an overlay takes no mixture of the two."""
    return shapely.make_valid(shape, method="structure", keep_collapsed=False)


def _beyond(found: float, tolerance: float) -> float:
    return found if found > tolerance else 0.0


def _weld_point(point: Point, outline: Outline, tolerance: float) -> Point:
    x, y = point
    best, foot = math.inf, point
    for ring in outline.rings:
        for corner in ring:
            distance = math.hypot(corner[0] - x, corner[1] - y)
            if distance < best:
                best, foot = distance, corner
    if best <= tolerance:
        return foot
    best, foot = tolerance, point
    for ring in outline.rings:
        ax, ay = ring[-1]
        for bx, by in ring:
            px, py, dx, dy = x - ax, y - ay, bx - ax, by - ay
            squared = dx * dx + dy * dy
            along = px * dx + py * dy
            if 0.0 < along < squared:
                distance = abs(px * dy - py * dx) / math.sqrt(squared)
                if distance <= best:
                    best, foot = distance, (ax + along / squared * dx, ay + along / squared * dy)
            ax, ay = bx, by
    return foot


def _with_corners(ring: Ring, corners: Iterable[Point], tolerance: float) -> Ring:
    """The ring with those of the corners added that lie on one of its sides, away from the side's ends."""
    present = set(ring)
    others = [corner for corner in corners if corner not in present]
    if not others:
        return ring
    result: list[Point] = []
    for start, end in sides(ring):
        result.append(start)
        ax, ay = start
        dx, dy = end[0] - ax, end[1] - ay
        squared = dx * dx + dy * dy
        reach = tolerance * math.sqrt(squared)
        found: list[tuple[float, Point]] = []
        for corner in others:
            px, py = corner[0] - ax, corner[1] - ay
            if abs(px * dy - py * dx) <= reach and 0.0 < px * dx + py * dy < squared:
                found.append(((px * dx + py * dy) / squared, corner))
        if found:
            result.extend(corner for _, corner in sorted(set(found)))
    return tuple(result)


def _without_spikes(ring: Ring) -> Ring:
    """The ring without corners to which it goes out and straight back, as where one lies near two of its sides."""
    if len(set(ring)) == len(ring):
        return ring
    kept = list(ring)
    index = 0
    while index < len(kept) and len(kept) > 4:
        if kept[index - 1] == kept[(index + 1) % len(kept)]:
            for each in sorted((index, (index + 1) % len(kept)), reverse=True):
                del kept[each]
            index = 0
        else:
            index += 1
    return tuple(kept)


def _cleaned(geometry: Geometry, sources: Iterable[Outline], tolerance: float) -> tuple[Outline, ...]:
    """The parts, their corners drawn back from the grid to the corners that they came from."""
    known = {corner for source in sources for ring in source.rings for corner in ring}
    return tuple(_simplified(part, tolerance) for part in _parts(geometry, tolerance, sorted(known)))


def _simplified(outline: Outline, tolerance: float) -> Outline:
    """Without needless corners, unless the straight runs then cross each other, as the two sides of a thin tail may."""
    plainer = outline.simplified(tolerance)
    exactly = outline.simplified(computed(tolerance))  # what drops corners that lie in line cannot make sides cross
    return plainer if plainer == exactly or is_simple(plainer) else outline


def _parts(geometry: Geometry, tolerance: float, known: list[Point] | None = None) -> tuple[Outline, ...]:
    outlines = []
    for part in shapely.get_parts(geometry):
        if part.geom_type != "Polygon" or part.is_empty or thickness(part) <= tolerance:
            continue
        holes = [hole for hole in part.interiors if 2 * shapely.Polygon(hole).area / hole.length > tolerance]
        outlines.append(Outline.of(_ring(part.exterior, known), [_ring(hole, known) for hole in holes]))
    return tuple(sorted(outlines, key=lambda outline: -outline.area))


def _ring(line: Geometry, known: list[Point] | None) -> Ring:
    """known : sorted"""
    points = [(float(x), float(y)) for x, y in line.coords[:-1]]
    if known is None:
        return tuple(points)
    reach = 4.0 * grid_size(larger_extent(tuple(known)))
    drawn = []
    for point in points:
        # Of the known corners, which are sorted, those alone that are near enough from side to side.
        near = known[bisect_left(known, (point[0] - reach,)) : bisect_right(known, (point[0] + reach, math.inf))]
        distance, corner = nearest_corner(point, near) if near else (math.inf, point)
        drawn.append(corner if distance <= reach else point)
    return tuple(drawn)

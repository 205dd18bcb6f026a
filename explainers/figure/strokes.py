"""Strokes taken apart: an arrow into line and head, a dashed path into dashes.

What every writer needs to draw the same stroke, worked out once. Stage units.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from itertools import accumulate, pairwise

from ..geometry.angles import bearing_deg, shortest_turn_deg
from ..geometry.rigid_motion import Point, Ring
from ..geometry.side import point_along, unit_vector
from .model import Arrow

__all__ = ["arc", "arrow_parts", "circle_ring", "dashes"]

_HEAD_HALF_WIDTH = 0.42  # of the head's length
_BEND_DEG = 20.0  # a path that turns by more has a corner there
_TINY = 1e-9


def arrow_parts(arrow: Arrow) -> tuple[tuple[Point, ...], Ring]:
    """The line of an arrow, stopped inside its head, and the head's triangle, tip first.

    The head points the way the last stretch of the line, as long as the head, runs: on an arc it leans with the curve
    instead of standing off along the tangent.
    """
    path = arrow.path
    tip = path[-1]
    base = _point_before_end(path, arrow.head)
    length = math.dist(base, tip)
    if length == 0.0:
        return path, (tip, tip, tip)
    ux, uy = unit_vector((base, tip))
    half = _HEAD_HALF_WIDTH * arrow.head
    back = (tip[0] - arrow.head * ux, tip[1] - arrow.head * uy)
    head = (tip, (back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy, back[1] - half * ux))
    # The line ends a little inside the head, so that no gap of rounding shows between the two.
    return _cut_short(path, 0.75 * min(arrow.head, length)), head


def arc(centre: Point, radius: float, from_deg: float, turn_deg: float, *, step_deg: float = 4.0) -> tuple[Point, ...]:
    """Points along an arc, anticlockwise for a positive turn, for the path of an arrow."""
    steps = max(2, math.ceil(abs(turn_deg) / step_deg))
    angles = (math.radians(from_deg + turn_deg * k / steps) for k in range(steps + 1))
    return tuple((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles)


def circle_ring(centre: Point, radius: float, corners: int = 48) -> Ring:
    """A circle as a ring of corners, anticlockwise from the right."""
    return arc(centre, radius, 0.0, 360.0, step_deg=360.0 / corners)[:-1]


def dashes(path: tuple[Point, ...], dash: tuple[float, float], *, closed: bool = True) -> tuple[tuple[Point, ...], ...]:
    """The dashes of a path, each a polyline.

    A dash bends round every corner, half of it on either side, so that corners are always seen; in between, dash and
    gap are stretched or squeezed until a whole number fits. Small bends, as in a circle's ring, are no corners.

    path   : its points, the first not repeated
    dash   : length of dash and gap
    closed : whether the last point is joined to the first
    """
    on, off = dash
    pieces: list[tuple[Point, ...]] = []
    firsts: list[tuple[Point, ...]] = []  # of each stretch: the half dash it starts with, and the one it ends with
    lasts: list[tuple[Point, ...]] = []
    for points in _stretches(path, closed):
        length = sum(math.dist(a, b) for a, b in pairwise(points))
        count = max(1, round(length / (on + off)))
        step = length / count
        half = 0.5 * step * on / (on + off)
        firsts.append(_part(points, 0.0, half))
        lasts.append(_part(points, length - half, length))
        pieces += [_part(points, k * step - half, k * step + half) for k in range(1, count)]
    if not closed:
        pieces += [firsts.pop(0), lasts.pop()]
    else:
        firsts = firsts[1:] + firsts[:1]
    pieces += [(*last, *first[1:]) for last, first in zip(lasts, firsts, strict=True)]
    return tuple(pieces)


def _stretches(path: tuple[Point, ...], closed: bool) -> list[tuple[Point, ...]]:
    """The path taken apart at its corners; a closed one without any is taken apart at its first point."""
    if not closed:
        cuts = [0, *(k for k in range(1, len(path) - 1) if _is_corner(*path[k - 1 : k + 2])), len(path) - 1]
        return [path[a : b + 1] for a, b in pairwise(cuts)]
    round_trip = (*path, *path)
    cuts = [k for k in range(len(path)) if _is_corner(path[k - 1], path[k], round_trip[k + 1])] or [0]
    return [round_trip[a : b + 1] for a, b in pairwise([*cuts, cuts[0] + len(path)])]


def _is_corner(before: Point, corner: Point, after: Point) -> bool:
    turn_deg = shortest_turn_deg(from_deg=bearing_deg(before, corner), to_deg=bearing_deg(corner, after))
    return abs(turn_deg) > _BEND_DEG


def _part(points: tuple[Point, ...], start: float, end: float) -> tuple[Point, ...]:
    """The part of a polyline between two distances from its beginning."""
    gone = list(accumulate((math.dist(a, b) for a, b in pairwise(points)), initial=0.0))

    def at(distance: float) -> Point:
        k = min(max(bisect_right(gone, distance) - 1, 0), len(points) - 2)
        length = gone[k + 1] - gone[k]
        return points[k] if length == 0.0 else point_along((points[k], points[k + 1]), (distance - gone[k]) / length)

    inner = [point for point, distance in zip(points, gone, strict=True) if start + _TINY < distance < end - _TINY]
    return (at(start), *inner, at(end))


def _point_before_end(path: tuple[Point, ...], distance: float) -> Point:
    return _cut_short(path, distance)[-1]


def _cut_short(path: tuple[Point, ...], distance: float) -> tuple[Point, ...]:
    """The path without its last `distance`; its first point at least."""
    left = distance
    points = list(path)
    while len(points) > 1:
        end, before = points[-1], points[-2]
        length = math.dist(before, end)
        if length > left:
            points[-1] = point_along((end, before), left / length)
            break
        left -= length
        points.pop()
    return tuple(points)

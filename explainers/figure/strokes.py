"""Strokes taken apart: arrows into line and head, dashed lines into dashes.

What every writer needs to draw the same stroke, worked out once. Stage units.
"""

from __future__ import annotations

import math
from itertools import pairwise

from ..geometry.rigid_motion import Point, Ring
from .model import Arrow

__all__ = ["arc", "arrow_parts", "circle_ring", "dashes"]

_HEAD_HALF_WIDTH = 0.42  # of the head's length


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
    ux, uy = (tip[0] - base[0]) / length, (tip[1] - base[1]) / length
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


def dashes(path: tuple[Point, ...], dash: tuple[float, float], *, closed: bool) -> tuple[tuple[Point, ...], ...]:
    """The dashes of a path, each a polyline, for writers that cannot dash by themselves.

    dash : length of dash and gap. On a closed path both are stretched or squeezed so that a whole number fits round it.
    """
    points = (*path, path[0]) if closed else path
    total = sum(math.dist(a, b) for a, b in pairwise(points))
    if total == 0.0:
        return ()
    on, off = dash
    if closed:
        count = max(1, round(total / (on + off)))
        on, off = on * total / (count * (on + off)), off * total / (count * (on + off))
    pieces: list[tuple[Point, ...]] = []
    current: list[Point] = [points[0]]
    drawing, left = True, on
    for start, end in pairwise(points):
        length = math.dist(start, end)
        done = 0.0
        while length - done > left:
            done += left
            point = (start[0] + done / length * (end[0] - start[0]), start[1] + done / length * (end[1] - start[1]))
            if drawing:
                pieces.append((*current, point))
            drawing = not drawing
            left = on if drawing else off
            current = [point]
        left -= length - done
        if drawing and length > 0.0:
            current.append(end)
    if drawing and len(current) > 1 and math.dist(current[0], current[-1]) > 1e-9:
        pieces.append(tuple(current))
    return tuple(pieces)


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
            part = left / length
            points[-1] = (end[0] + part * (before[0] - end[0]), end[1] + part * (before[1] - end[1]))
            break
        left -= length
        points.pop()
    return tuple(points)

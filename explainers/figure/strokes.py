"""Strokes taken apart: an arrow into line and head, a dashed ring into dashes.

What every writer needs to draw the same stroke, worked out once. Stage units.
"""

from __future__ import annotations

import math

from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import sides
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


def dashes(ring: Ring, dash: tuple[float, float]) -> tuple[tuple[Point, ...], ...]:
    """The dashes round a closed ring, each a polyline.

    A dash bends round every corner, half of it on either side, so that corners are always seen; in between, dash and
    gap are stretched or squeezed until a whole number fits along the side.

    dash : length of dash and gap
    """
    on, off = dash
    pieces: list[tuple[Point, ...]] = []
    ends: list[tuple[Point, Point]] = []  # of each side: where its first half dash ends, where its last one starts
    for start, end in sides(ring):
        length = math.dist(start, end)
        count = max(1, round(length / (on + off)))
        step = 1.0 / count
        half = 0.5 * step * on / (on + off)
        ends.append((_between(start, end, half), _between(start, end, 1.0 - half)))
        pieces += [
            (_between(start, end, k * step - half), _between(start, end, k * step + half)) for k in range(1, count)
        ]
    for k, corner in enumerate(ring):
        pieces.append((ends[k - 1][1], corner, ends[k][0]))
    return tuple(pieces)


def _between(start: Point, end: Point, fraction: float) -> Point:
    return (start[0] + fraction * (end[0] - start[0]), start[1] + fraction * (end[1] - start[1]))


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

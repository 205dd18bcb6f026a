"""Patterns on cloth: lines and dots laid in a piece's own frame, clipped to its rings.

A pattern belongs to the cloth. It is laid about an anchor point of the piece, in a frame that turns with it, so that
the pattern of a turned piece is the turned pattern. Rings stand on the stage, in stage units; several are one shape by
the even-odd rule, as in ``model.Area``.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

import shapely

from ..geometry.angles import wrapped_deg
from ..geometry.rigid_motion import Point, RigidMotion, Ring, Side
from ..geometry.rings import centroid

__all__ = ["Disc", "dots", "hatch"]

Disc = tuple[Point, float]  # centre, radius

_DECIMALS = 6  # of the un-turned corners: what rounding leaves in them must not decide which side a line falls on


def hatch(
    rings: Sequence[Ring],
    spacing: float,
    angle_deg: float = 45.0,
    *,
    frame_deg: float = 0.0,
    anchor: Point | None = None,
    clear: Sequence[Disc] = (),
    inset: float = 0.0,
) -> tuple[Side, ...]:
    """Parallel lines as real segments, cut off `inset` short of every side.

    rings     : where they lie on the stage
    spacing   : distance between neighbouring lines
    angle_deg : their direction in the piece's own frame
    frame_deg : how far that frame is turned on the stage
    anchor    : the point of the piece about which the pattern is laid, by default the first ring's centre of gravity;
                the two middle lines pass half a spacing on either side of it
    clear     : discs kept free, for labels
    """
    if not rings:
        return ()
    frame = _frame(rings, frame_deg + angle_deg, anchor)
    region = _region(rings, frame, inset)
    for disc in _unturned(clear, frame):
        region = region.difference(shapely.Point(disc[0]).buffer(disc[1]))
    if region.is_empty:
        return ()
    left, bottom, right, top = region.bounds
    first, last = math.ceil(bottom / spacing - 0.5), math.floor(top / spacing - 0.5)
    lines = [
        shapely.LineString(((left - 1.0, (k + 0.5) * spacing), (right + 1.0, (k + 0.5) * spacing)))
        for k in range(first, last + 1)
    ]
    segments = []
    for line in lines:
        for part in _line_parts(region.intersection(line)):
            (ax, ay), (bx, by) = part.coords[0], part.coords[-1]
            if math.dist((ax, ay), (bx, by)) >= spacing / 4:  # a shorter one reads as a dot
                segments.append(((min(ax, bx), ay), (max(ax, bx), by)))
    segments.sort(key=lambda pair: (round(pair[0][1], _DECIMALS), pair[0][0]))
    return tuple(frame.apply_side(segment) for segment in segments)


def dots(
    rings: Sequence[Ring],
    spacing: float,
    radius: float,
    *,
    frame_deg: float = 0.0,
    anchor: Point | None = None,
    clear: Sequence[Disc] = (),
    inset: float = 0.0,
) -> tuple[Point, ...]:
    """Centres of whole dots in staggered rows, each at least `inset` from every side and outside every clear disc.

    Arguments as for ``hatch``. The rows are shifted, by a rule that does not look at the clear discs, so that as many
    dots as may be find room: a narrow piece must not be left bare because the rows happen to pass beside it.
    """
    if not rings:
        return ()
    frame = _frame(rings, frame_deg, anchor)
    region = _region(rings, frame, inset + radius)
    if region.is_empty:
        return ()
    row = spacing * math.sqrt(3) / 2
    shapely.prepare(region)
    best: list[Point] = []
    for across, up in _SHIFTS:
        inside = _lattice_inside(region, spacing, row, across, up)
        if len(inside) > len(best):
            best = inside
    discs = _unturned(clear, frame)
    kept = [p for p in best if all(math.dist(p, centre) >= reach + radius for centre, reach in discs)]
    return frame.apply(kept)


_SHIFTS = tuple((across / 4, up / 4) for up in (0, 2, 1, 3) for across in (0, 2, 1, 3))  # parts of a spacing


def _lattice_inside(region: Any, spacing: float, row: float, across: float, up: float) -> list[Point]:
    left, bottom, right, top = region.bounds
    points = []
    for j in range(math.floor(bottom / row - up), math.ceil(top / row - up) + 1):
        stagger = across + (0.5 if j % 2 else 0.0)
        y = (j + up) * row
        for i in range(math.floor(left / spacing - stagger), math.ceil(right / spacing - stagger) + 1):
            points.append(((i + stagger) * spacing, y))
    inside = shapely.contains_xy(region, [p[0] for p in points], [p[1] for p in points])
    return [point for point, is_in in zip(points, inside, strict=True) if is_in]


def _frame(rings: Sequence[Ring], turn_deg: float, anchor: Point | None) -> RigidMotion:
    """From the pattern's frame, whose origin is the anchor, to the stage."""
    return RigidMotion(turn_deg=wrapped_deg(turn_deg), shift=anchor or centroid(rings[0]))


def _region(rings: Sequence[Ring], frame: RigidMotion, inset: float) -> Any:
    """The cloth in the pattern's frame, drawn in by the inset."""
    back = frame.inverse()
    region = shapely.Polygon()
    for ring in rings:
        corners = [(round(x, _DECIMALS), round(y, _DECIMALS)) for x, y in back.apply(ring)]
        # What later cuts leave of a piece may touch itself at a point, which a polygon must not.
        region = region.symmetric_difference(shapely.make_valid(shapely.Polygon(corners)))
    return region.buffer(-inset, join_style="mitre") if inset > 0.0 else region


def _unturned(discs: Sequence[Disc], frame: RigidMotion) -> list[Disc]:
    back = frame.inverse()
    return [(back.apply_point(centre), reach) for centre, reach in discs]


def _line_parts(geometry: Any) -> Iterable[Any]:
    return [part for part in getattr(geometry, "geoms", [geometry]) if part.geom_type == "LineString" and part.length]

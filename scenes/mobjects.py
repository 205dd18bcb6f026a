"""manim mobjects for the entries of a display list, one function for each kind.

The stage, 16 x 9 with its origin in the lower left corner, is laid on manim's frame, 8 high about its middle; that
happens here and nowhere else. An entry becomes as few mobjects as it can, since manim's cost is per mobject, not per
point: all lines of an entry are one, all dots are one, all letters of a label are one.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from explainers.figure.mark_signs import sign_area
from explainers.figure.model import STAGE_HEIGHT, STAGE_WIDTH, Align, Area, Arrow, Circle, Dots, Entry, Label, Lines
from explainers.figure.strokes import arrow_parts, circle_ring, dashes
from explainers.geometry.nesting import alternately_wound
from explainers.geometry.rigid_motion import Point, Ring
from explainers.geometry.rings import extent
from explainers.typeface.faces import face

from .lettering import letters
from .shape import PathMobject, Points

__all__ = ["FRAME_HEIGHT", "FRAME_WIDTH", "in_frame", "mobject_of", "to_frame"]

FRAME_HEIGHT = 8.0  # manim's own, for which its line widths are meant
FRAME_WIDTH = FRAME_HEIGHT * STAGE_WIDTH / STAGE_HEIGHT

_PER_UNIT = FRAME_HEIGHT / STAGE_HEIGHT
_WIDTHS_PER_UNIT = 100.0 * _PER_UNIT  # manim draws a stroke of width 100 one frame unit wide
_CIRCLE_HANDLE = 4.0 / 3.0 * np.tan(np.pi / 16.0)  # of a cubic curve for an eighth of a circle of radius 1


def mobject_of(entry: Entry) -> PathMobject:
    """The mobject that shows an entry, in manim's frame.

    Raises : FontError for a label with a character that the typeface lacks
    """
    match entry:
        case Area():
            return area(entry)
        case Lines():
            return lines(entry)
        case Dots():
            return dots(entry)
        case Label() if entry.sign:
            return area(sign_area(entry))
        case Label():
            return label(entry)
        case Arrow():
            return arrow(entry)
        case Circle():
            return circle(entry)
    raise TypeError(f"an entry of kind {type(entry).__name__} cannot be drawn")


def to_frame(points: Sequence[Point] | Points) -> Points:
    """Points of the stage, shape (n, 2), as points of manim's frame, shape (n, 3)."""
    flat = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    placed = np.zeros((len(flat), 3))
    placed[:, :2] = (flat - (STAGE_WIDTH / 2, STAGE_HEIGHT / 2)) * _PER_UNIT
    return placed


def in_frame(turn: complex, shift: complex) -> tuple[complex, complex]:
    """A way to carry points of the stage, z to z * turn + shift, as the same way in manim's frame."""
    middle = complex(STAGE_WIDTH / 2, STAGE_HEIGHT / 2)
    return turn, (middle * turn + shift - middle) * _PER_UNIT


def area(entry: Area) -> PathMobject:
    """Rings with one filling and one outline; holes stay clear."""
    rings = [_rounded(ring, entry.rounded) if entry.rounded > 0.0 else ring for ring in entry.rings]
    path = _paths(
        [_polyline(to_frame(ring), closed=True) for ring in alternately_wound(rings)]
    )  # manim fills by winding
    if entry.dash is None or entry.stroke is None:
        return _shape(path, entry.opacity, fill=entry.fill, stroke=entry.stroke, width=entry.width)
    outline = [dash for ring in rings for dash in dashes(ring, entry.dash, closed=True)]
    return _dashed(path, outline, entry.opacity, fill=entry.fill, stroke=entry.stroke, width=entry.width)


def lines(entry: Lines) -> PathMobject:
    """All strokes of the entry, as one mobject, with round ends."""
    pairs = [pair for pair in entry.segments if pair[0] != pair[1]]
    path = _paths([_polyline(to_frame(pair), closed=False) for pair in pairs])
    return _shape(path, entry.opacity, stroke=entry.stroke, width=entry.width, round_ends=True)


def dots(entry: Dots) -> PathMobject:
    """All discs of the entry, as one mobject."""
    disc = _circle_path(entry.radius * _PER_UNIT)
    centres = to_frame(entry.centres)
    path = (centres[:, None, :] + disc[None, :, :]).reshape(-1, 3)
    return _shape(path, entry.opacity, fill=entry.fill)


def label(entry: Label) -> PathMobject:
    """One line of text: `at` is half way up the capitals, and the start, middle or end of the text's width."""
    typeface = face(entry.bold)
    width = typeface.width(entry.text, entry.size)
    x, y = entry.at
    start = {Align.START: x, Align.MIDDLE: x - width / 2, Align.END: x - width}[entry.align]
    baseline = y - typeface.cap_height(entry.size) / 2
    path = letters(entry.text, bold=entry.bold) * (entry.size * _PER_UNIT) + to_frame([(start, baseline)])
    return _shape(path, entry.opacity, fill=entry.colour)


def arrow(entry: Arrow) -> PathMobject:
    """A line, and the filled triangle of its head."""
    line, head = arrow_parts(entry)
    path = _polyline(to_frame(line), closed=False)
    shaft = _shape(path, entry.opacity, stroke=entry.stroke, width=entry.width, round_ends=True)
    shaft.add(_shape(_polyline(to_frame(head), closed=True), entry.opacity, fill=entry.stroke))
    return shaft


def circle(entry: Circle) -> PathMobject:
    """A ring or a disc."""
    path = _circle_path(entry.radius * _PER_UNIT) + to_frame([entry.centre])
    if entry.dash is None or entry.stroke is None:
        return _shape(path, entry.opacity, fill=entry.fill, stroke=entry.stroke, width=entry.width)
    outline = dashes(circle_ring(entry.centre, entry.radius), entry.dash, closed=True)
    return _dashed(path, outline, entry.opacity, fill=entry.fill, stroke=entry.stroke, width=entry.width)


def _shape(
    path: Points,
    opacity: float,
    *,
    fill: str | None = None,
    stroke: str | None = None,
    width: float = 0.0,
    round_ends: bool = False,
) -> PathMobject:
    """One mobject along a path of cubic curves; `width` in stage units."""
    drawn = stroke if width > 0.0 else None
    return PathMobject.along(
        path,
        fill=fill,
        stroke=drawn,
        width=width * _WIDTHS_PER_UNIT if drawn else 0.0,
        opacity=opacity,
        round_ends=round_ends,
    )


def _dashed(
    path: Points,
    outline: Sequence[Sequence[Point]],
    opacity: float,
    *,
    fill: str | None,
    stroke: str,
    width: float,
) -> PathMobject:
    """A filling, and over it the dashes of its outline."""
    strokes = _paths([_polyline(to_frame(dash), closed=False) for dash in outline])
    dashed = _shape(strokes, opacity, stroke=stroke, width=width, round_ends=True)
    if fill is None:
        return dashed
    filling = _shape(path, opacity, fill=fill)
    filling.add(dashed)
    return filling


def _polyline(points: Points, *, closed: bool) -> Points:
    """Straight sides as cubic curves, shape (4 n, 3)."""
    ends = np.roll(points, -1, axis=0) if closed else points[1:]
    starts = points if closed else points[:-1]
    thirds = np.array([0.0, 1.0, 2.0, 3.0])[None, :, None] / 3.0
    curves: Points = starts[:, None, :] + thirds * (ends - starts)[:, None, :]
    curves[:, 3] = ends  # to the last bit, or manim takes the next curve for the start of another path
    return curves.reshape(-1, 3)


def _paths(parts: Sequence[Points]) -> Points:
    return np.concatenate(parts) if parts else np.zeros((0, 3))


def _circle_path(radius: float) -> Points:
    """A circle about the origin, anticlockwise, as eight cubic curves."""
    angles = np.arange(9) * (np.pi / 4.0)
    on = np.stack([np.cos(angles), np.sin(angles), np.zeros(9)], axis=1) * radius
    along = np.stack([-np.sin(angles), np.cos(angles), np.zeros(9)], axis=1) * (radius * _CIRCLE_HANDLE)
    on[8] = on[0]
    curves = np.stack([on[:-1], on[:-1] + along[:-1], on[1:] - along[1:], on[1:]], axis=1)
    return curves.reshape(-1, 3)


def _rounded(ring: Ring, radius: float) -> Ring:
    """An upright rectangle with quarter circles for corners, each of twelve short sides."""
    left, bottom, right, top = extent(ring)
    reach = min(radius, (right - left) / 2, (top - bottom) / 2)
    centres = ((right - reach, top - reach), (left + reach, top - reach), (left + reach, bottom + reach),
               (right - reach, bottom + reach))  # fmt: skip
    corners = []
    for quarter, (x, y) in enumerate(centres):
        for step in range(13):
            angle = (quarter + step / 12.0) * np.pi / 2.0
            corners.append((x + reach * float(np.cos(angle)), y + reach * float(np.sin(angle))))
    return tuple(corners)

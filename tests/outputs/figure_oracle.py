"""A figure drawn in a second way, straight from its entries with cairo, to hold writers' pictures against.

It knows nothing of pages, writers or scenes: a stage unit is `unit` pixels and y is turned over here. Lines have round
ends and joins, as figures say.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

import cairo
import numpy as np

from explainers.figure.mark_signs import sign_rings
from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines
from explainers.figure.strokes import arrow_parts, circle_ring, dashes
from explainers.geometry.rigid_motion import Point
from explainers.typeface.faces import face, label_box

__all__ = ["drawn"]

SIZE = (1920, 1080)
UNIT = 120.0


def drawn(
    figure: Figure,
    *,
    size: tuple[int, int] = SIZE,
    unit: float = UNIT,
    corner: Point = (0.0, 0.0),
    entries: Sequence[Entry] | None = None,
    ground: str | None = None,
    lowered: float = 0.0,
) -> np.ndarray:
    """The picture, (height, width, 3).

    unit    : pixels in a stage unit
    corner  : where the stage's upper left corner lies, in pixels
    entries : in place of the figure's own
    ground  : the colour all over, in place of the figure's background
    lowered : how far words stand below where the figure has them, in ems
    """
    surface = cairo.ImageSurface(cairo.FORMAT_RGB24, *size)
    context = cairo.Context(surface)
    _ink(context, ground or figure.background, 1.0)
    context.paint()
    context.translate(*corner)
    context.scale(unit, -unit)
    context.translate(0.0, -9.0)
    context.set_line_cap(cairo.LINE_CAP_ROUND)
    context.set_line_join(cairo.LINE_JOIN_ROUND)
    context.set_fill_rule(cairo.FILL_RULE_EVEN_ODD)
    for entry in figure.entries if entries is None else entries:
        _draw(context, entry, lowered)
    surface.flush()
    pixels = np.frombuffer(surface.get_data(), dtype=np.uint8).reshape(size[1], surface.get_stride() // 4, 4)
    return pixels[:, : size[0], 2::-1].copy()


def _draw(context: cairo.Context, entry: Entry, lowered: float) -> None:
    match entry:
        case Area():
            rings = [_rounded(ring, entry.rounded) for ring in entry.rings]
            _filled_and_stroked(context, entry, rings)
        case Circle():
            _filled_and_stroked(context, entry, [circle_ring(entry.centre, entry.radius, corners=180)])
        case Lines():
            _stroke(context, entry.segments, entry.stroke, entry.width, entry.opacity)
        case Dots():
            for x, y in entry.centres:
                context.new_sub_path()
                context.arc(x, y, entry.radius, 0.0, 2 * math.pi)
            _ink(context, entry.fill, entry.opacity)
            context.fill()
        case Arrow():
            shaft, head = arrow_parts(entry)
            _stroke(context, [shaft], entry.stroke, entry.width, entry.opacity)
            _lay(context, [head], closed=True)
            _ink(context, entry.stroke, entry.opacity)
            context.fill()
        case Label() if entry.sign:
            context.set_fill_rule(cairo.FillRule.EVEN_ODD)
            _lay(context, sign_rings(entry.sign, entry.at, entry.size), closed=True)
            _ink(context, entry.colour, entry.opacity)
            context.fill()
        case Label():
            x, y = entry.at
            _write(context, replace(entry, at=(x, y - lowered * entry.size)))


def _filled_and_stroked(context: cairo.Context, entry: Area | Circle, rings: Sequence[Sequence[Point]]) -> None:
    if entry.fill is not None:
        _lay(context, rings, closed=True)
        _ink(context, entry.fill, entry.opacity)
        context.fill()
    if entry.stroke is not None and entry.dash is not None:
        broken = [part for ring in rings for part in dashes(tuple(ring), entry.dash)]
        _stroke(context, broken, entry.stroke, entry.width, entry.opacity)
    elif entry.stroke is not None:
        _stroke(context, rings, entry.stroke, entry.width, entry.opacity, closed=True)


def _stroke(
    context: cairo.Context,
    parts: Iterable[Sequence[Point]],
    colour: str,
    width: float,
    opacity: float,
    *,
    closed: bool = False,
) -> None:
    _lay(context, parts, closed=closed)
    _ink(context, colour, opacity)
    context.set_line_width(width)
    context.stroke()


def _lay(context: cairo.Context, parts: Iterable[Sequence[Point]], *, closed: bool) -> None:
    for part in parts:
        context.move_to(*part[0])
        for point in part[1:]:
            context.line_to(*point)
        if closed:
            context.close_path()


def _rounded(ring: Sequence[Point], radius: float) -> Sequence[Point]:
    """An upright rectangle with round corners; any ring where the radius is 0."""
    if radius == 0.0:
        return ring
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    left, right, bottom, top = min(xs) + radius, max(xs) - radius, min(ys) + radius, max(ys) - radius
    corners = [((right, top), 0), ((left, top), 90), ((left, bottom), 180), ((right, bottom), 270)]
    return [
        (x + radius * math.cos(math.radians(start + step)), y + radius * math.sin(math.radians(start + step)))
        for (x, y), start in corners
        for step in range(0, 91, 5)
    ]


def _write(context: cairo.Context, label: Label) -> None:
    letters = face(label.bold)
    left, baseline = label_box(label)[0], label.at[1] - letters.cap_height(label.size) / 2
    here = (0.0, 0.0)
    context.save()
    context.set_fill_rule(cairo.FILL_RULE_WINDING)
    for verb, points in letters.glyph_paths(label.text, label.size):
        places = [(left + x, baseline + y) for x, y in points]
        if verb == "M":
            context.move_to(*places[0])
        elif verb == "L":
            context.line_to(*places[0])
        elif verb == "Q":
            (ax, ay), (bx, by) = places
            (x, y) = here
            context.curve_to(
                x + 2 / 3 * (ax - x), y + 2 / 3 * (ay - y), bx + 2 / 3 * (ax - bx), by + 2 / 3 * (ay - by), bx, by
            )
        elif verb == "C":
            context.curve_to(*(value for place in places for value in place))
        else:
            context.close_path()
        here = places[-1] if places else here
    _ink(context, label.colour, label.opacity)
    context.fill()
    context.restore()


def _ink(context: cairo.Context, colour: str, opacity: float) -> None:
    red, green, blue = bytes.fromhex(colour.removeprefix("#"))
    context.set_source_rgba(red / 255, green / 255, blue / 255, opacity)

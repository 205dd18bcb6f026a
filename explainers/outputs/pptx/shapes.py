"""Entries of a figure as native slide shapes: DrawingML that a slide program can edit, never pictures.

Each entry becomes one ``p:sp`` element that carries all of its own looks and refers to no style of the theme, so that
no shadow or theme colour leaks in.

Dashes and hatching are real lines, since slide programs draw their own in other lengths.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...errors import OutputError
from ...figure.mark_signs import sign_area
from ...figure.model import Align, Area, Arrow, Circle, Dots, Entry, Label, Lines
from ...figure.strokes import arrow_parts, circle_ring, dashes
from ...frames.page import Page
from ...geometry.nesting import alternately_wound
from ...geometry.rigid_motion import Point, Ring
from ...geometry.rings import extent
from ...typeface.faces import face
from .markup import (
    Contours,
    EmuBox,
    closed,
    custom,
    dots,
    fill,
    identity,
    line,
    opened,
    preset,
    run,
    run_properties,
    text_body,
    transform,
)

__all__ = ["SIDES", "SUBSTITUTE_SLACK", "NativeShape", "group_of", "joined_alt", "shape_of"]

SUBSTITUTE_SLACK = 1.2  # a machine without our typeface shows another one, up to a fifth wider
SIDES = {Align.START: "l", Align.MIDDLE: "ctr", Align.END: "r"}

_LINE_HEIGHT = 1.4  # of a text box, in ems; the typeface itself asks for 1.24


@dataclass(frozen=True, slots=True)
class NativeShape:
    """One element for a slide's shape tree, and the box it fills."""

    xml: str
    box: EmuBox
    alt: str


def shape_of(entry: Entry, shape_id: int, language: str, page: Page) -> NativeShape | None:
    """The entry as one shape; None where there is nothing to be seen.

    shape_id : unique on the slide
    language : of its words, such as "en-GB"
    page     : where the stage lies on the slide, in EMU
    """
    if entry.opacity <= 0.0:
        return None
    match entry:
        case Area() if entry.rounded > 0.0:
            return _rounded(entry, shape_id, page)
        case Area():
            return _outline(entry, shape_id, page, alternately_wound(entry.rings))
        case Lines() if entry.segments:
            ink = [point for segment in entry.segments for point in segment]
            paths = [Contours([opened(segment) for segment in entry.segments], filled=False)]
            look = fill(None) + _stroke(entry, page)
            return _freeform(entry, shape_id, page, paths, ink, look)
        case Dots() if entry.centres:
            return _dots(entry, shape_id, page)
        case Label() if entry.sign:
            return _sign(entry, shape_id, page)
        case Label() if entry.text.strip():
            return _text(entry, shape_id, language, page)
        case Arrow():
            shaft, head = arrow_parts(entry)
            paths = [Contours([opened(shaft)], filled=False), Contours([closed(head)], stroked=False)]
            look = fill(entry.stroke, entry.opacity) + _stroke(entry, page)
            return _freeform(entry, shape_id, page, paths, [*shaft, *head], look)
        case Circle() if entry.dash is not None and entry.stroke is not None:
            return _outline(entry, shape_id, page, [circle_ring(entry.centre, entry.radius)])
        case Circle():
            (x, y), r = entry.centre, entry.radius
            box = _box_of([(x - r, y - r), (x + r, y + r)], page)
            return _shape(entry, shape_id, box, preset("ellipse"), _look(entry, page))
        case Lines() | Dots() | Label():
            return None
    raise OutputError(f"an entry of kind {type(entry).__name__} cannot be put on a slide")


def group_of(shapes: Sequence[NativeShape], shape_id: int, name: str, says: str = "") -> NativeShape:
    """Shapes that belong together as one group; its alternative text is `says`, then what its members say."""
    lefts, tops, rights, bottoms = zip(*(shape.box for shape in shapes), strict=True)
    box = (min(lefts), min(tops), max(rights), max(bottoms))
    alt = joined_alt(says, *(shape.alt for shape in shapes))
    xml = (
        f"<p:grpSp><p:nvGrpSpPr>{identity(shape_id, name, alt)}<p:cNvGrpSpPr/><p:nvPr/></p:nvGrpSpPr>"
        f"<p:grpSpPr>{transform(box, children=True)}</p:grpSpPr>"
        f"{''.join(shape.xml for shape in shapes)}</p:grpSp>"
    )
    return NativeShape(xml, box, alt)


def joined_alt(*parts: str) -> str:
    """Alternative texts as one, each said once."""
    return ". ".join(dict.fromkeys(part.rstrip(".") for part in parts if part))


def _freeform(
    entry: Entry, shape_id: int, page: Page, paths: Sequence[Contours], ink: Sequence[Point], look: str
) -> NativeShape:
    box = _box_of(ink, page)
    return _shape(entry, shape_id, box, custom(box, page, paths), look)


def _outline(entry: Area | Circle, shape_id: int, page: Page, rings: Sequence[Ring]) -> NativeShape:
    """Filled rings with their outline. Dashes are real lines, where the figure has them.

    Slide programs lay dashes each in their own way, and some lay none at all; then a cut would look like a join.
    """
    ink = [point for ring in rings for point in ring]
    outline = [closed(ring) for ring in rings]
    paths = [Contours(outline)]
    if entry.dash is not None and entry.stroke is not None:
        broken = [opened(part) for ring in rings for part in dashes(ring, entry.dash)]
        paths = [Contours(outline, stroked=False), Contours(broken, filled=False)]
    return _freeform(entry, shape_id, page, paths, ink, _look(entry, page))


def _dots(entry: Dots, shape_id: int, page: Page) -> NativeShape:
    """All dots of a pattern as one freeform."""
    r = round(page.length(entry.radius))
    places = [(round(x), round(y)) for x, y in map(page.point, entry.centres)]
    xs, ys = zip(*places, strict=True)
    box = (min(xs) - r, min(ys) - r, max(xs) + r, max(ys) + r)
    return _shape(entry, shape_id, box, dots(box, places, r), fill(entry.fill, entry.opacity) + line(None))


def _rounded(entry: Area, shape_id: int, page: Page) -> NativeShape:
    if len(entry.rings) != 1:
        raise OutputError(f"the area {entry.id!r} has {len(entry.rings)} rings; only one can have rounded corners")
    left, bottom, right, top = extent(entry.rings[0])
    geometry = preset("roundRect", entry.rounded / min(right - left, top - bottom))
    return _shape(entry, shape_id, _box_of([(left, bottom), (right, top)], page), geometry, _look(entry, page))


def _text(entry: Label, shape_id: int, language: str, page: Page) -> NativeShape:
    """A text box that neither wraps nor fits itself; wider than the words, for a typeface that stands in."""
    x, y = entry.at
    width = SUBSTITUTE_SLACK * face(entry.bold).width(entry.text, entry.size)
    left = x - {Align.START: 0.0, Align.MIDDLE: 0.5, Align.END: 1.0}[entry.align] * width
    # The middle of a line of this typeface lies half way up its capitals (to 0.4 % of an em), as `at` does.
    half = _LINE_HEIGHT * entry.size / 2
    box = _box_of([(left, y - half), (left + width, y + half)], page)
    properties = run_properties(
        size=page.length(entry.size), colour=entry.colour, bold=entry.bold, language=language, opacity=entry.opacity
    )
    body = text_body(run(entry.text, properties), side=SIDES[entry.align], wraps=False)
    return _shape(entry, shape_id, box, preset("rect"), fill(None) + line(None), body=body)


def _sign(label: Label, shape_id: int, page: Page) -> NativeShape:
    """A sign as a freeform, named as it is called; its group says so already, in what is told of the marked side."""
    area = sign_area(label)
    ink = [point for ring in area.rings for point in ring]
    paths = [Contours([closed(ring) for ring in alternately_wound(area.rings)])]
    return replace(_freeform(area, shape_id, page, paths, ink, _look(area, page)), alt="")


def _shape(entry: Entry, shape_id: int, box: EmuBox, geometry: str, look: str, *, body: str = "") -> NativeShape:
    # Words are read as they stand: a text box is never decoration, and needs no alternative text.
    kind = '<p:cNvSpPr txBox="1"/>' if body else "<p:cNvSpPr/>"
    xml = (
        f"<p:sp><p:nvSpPr>{identity(shape_id, entry.id, entry.alt, decorative=not body)}{kind}<p:nvPr/></p:nvSpPr>"
        f"<p:spPr>{transform(box)}{geometry}{look}<a:effectLst/></p:spPr>{body}</p:sp>"
    )
    return NativeShape(xml, box, entry.alt)


def _look(entry: Area | Circle, page: Page) -> str:
    return fill(entry.fill, entry.opacity) + line(entry.stroke, page.length(entry.width), entry.opacity)


def _stroke(entry: Lines | Arrow, page: Page) -> str:
    return line(entry.stroke, page.length(entry.width), entry.opacity)


def _box_of(points: Sequence[Point], page: Page) -> EmuBox:
    """The box round the points, at least one EMU each way: some programs drop a shape without height."""
    xs, ys = zip(*((round(x), round(y)) for x, y in map(page.point, points)), strict=True)
    return min(xs), min(ys), max(max(xs), min(xs) + 1), max(max(ys), min(ys) + 1)

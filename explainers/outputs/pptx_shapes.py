"""Entries of a figure as native slide shapes: DrawingML that a slide program can edit, never pictures.

Each entry becomes one ``p:sp`` element that carries all of its own looks and refers to no style of the theme, so that
no shadow or theme colour leaks in. Lengths are in EMU on a slide of 13.333 x 7.5 inches, y down.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from ..errors import OutputError
from ..figure.model import Align, Area, Arrow, Circle, Dots, Entry, Label, Lines
from ..figure.strokes import arrow_parts
from ..frames.page import SLIDE_EMU, SLIDE_PT
from ..geometry.nesting import inside
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import extent, signed_area
from ..typeface.faces import FAMILY, face

__all__ = ["NAMESPACES", "SUBSTITUTE_SLACK", "EmuBox", "Shape", "group_of", "joined_alt", "run_properties", "shape_of"]

NAMESPACES = (
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" '
    'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main" '
    'xmlns:adec="http://schemas.microsoft.com/office/drawing/2017/decorative"'
)
SUBSTITUTE_SLACK = 1.2  # a machine without our typeface shows another one, up to a fifth wider

_DECORATIVE = (
    '<a:extLst><a:ext uri="{C183D7F6-B498-43B3-948B-1728B52AA6E4}"><adec:decorative val="1"/></a:ext></a:extLst>'
)
_LINE_HEIGHT = 1.4  # of a text box, in ems; the typeface itself asks for 1.24
_WHOLE = 100_000  # DrawingML counts shares in thousandths of a per cent

EmuBox = tuple[int, int, int, int]  # left, top, right, bottom
EmuPoint = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Shape:
    """One element for a slide's shape tree, and the box it fills."""

    xml: str
    box: EmuBox
    alt: str


def shape_of(entry: Entry, shape_id: int, language: str) -> Shape | None:
    """The entry as one shape; None where there is nothing to be seen.

    shape_id : unique on the slide
    language : of its words, such as "en-GB"
    """
    if entry.opacity <= 0.0:
        return None
    match entry:
        case Area() if entry.rounded > 0.0:
            return _rounded(entry, shape_id)
        case Area():
            paths = [_closed(ring) for ring in _alternating(entry.rings)]
            ink = [point for ring in entry.rings for point in ring]
            look = _fill(entry.fill, entry.opacity) + _line(entry.stroke, entry.width, entry.opacity, entry.dash)
            return _freeform(entry, shape_id, [_Path(paths)], ink, look)
        case Lines() if entry.segments:
            paths = [_open(segment) for segment in entry.segments]
            ink = [point for segment in entry.segments for point in segment]
            look = _fill(None, 1.0) + _line(entry.stroke, entry.width, entry.opacity)
            return _freeform(entry, shape_id, [_Path(paths, filled=False)], ink, look)
        case Dots() if entry.centres:
            return _dots(entry, shape_id)
        case Label() if entry.text.strip():
            return _text(entry, shape_id, language)
        case Arrow():
            line, head = arrow_parts(entry)
            look = _fill(entry.stroke, entry.opacity) + _line(entry.stroke, entry.width, entry.opacity)
            parts = [_Path([_open(line)], filled=False), _Path([_closed(head)], stroked=False)]
            return _freeform(entry, shape_id, parts, [*line, *head], look)
        case Circle():
            return _ellipse(entry, shape_id)
        case Lines() | Dots() | Label():
            return None
    raise OutputError(f"an entry of kind {type(entry).__name__} cannot be put on a slide")


def group_of(shapes: Sequence[Shape], shape_id: int, name: str, says: str = "") -> Shape:
    """Shapes that belong together as one group; its alternative text is `says`, then what its members say."""
    lefts, tops, rights, bottoms = zip(*(shape.box for shape in shapes), strict=True)
    box = (min(lefts), min(tops), max(rights), max(bottoms))
    alt = joined_alt(says, *(shape.alt for shape in shapes))
    off, ext = _off(box), _ext(box)
    xml = (
        f"<p:grpSp><p:nvGrpSpPr>{_identity(shape_id, name, alt)}<p:cNvGrpSpPr/><p:nvPr/></p:nvGrpSpPr>"
        f"<p:grpSpPr><a:xfrm><a:off {off}/><a:ext {ext}/><a:chOff {off}/><a:chExt {ext}/></a:xfrm></p:grpSpPr>"
        f"{''.join(shape.xml for shape in shapes)}</p:grpSp>"
    )
    return Shape(xml, box, alt)


def joined_alt(*parts: str) -> str:
    """Alternative texts as one, each said once."""
    return ". ".join(dict.fromkeys(part.rstrip(".") for part in parts if part))


def run_properties(*, size: float, colour: str, bold: bool, language: str, opacity: float = 1.0) -> str:
    """How a run of text looks; `size` is the em in stage units."""
    # 34: a sans serif of varied widths, so that what stands in for it on another machine is one, too.
    typefaces = "".join(
        f'<a:{script} typeface={quoteattr(FAMILY)} pitchFamily="34" charset="0"/>' for script in ("latin", "ea", "cs")
    )
    return (
        f'<a:rPr lang={quoteattr(language)} sz="{round(SLIDE_PT.length(size) * 100)}" b="{int(bold)}" i="0" dirty="0">'
        f"{_solid(colour, opacity)}{typefaces}</a:rPr>"
    )


@dataclass(frozen=True, slots=True)
class _Path:
    """Contours drawn as one path, each a list of commands with its points."""

    contours: list[list[tuple[str, tuple[Point, ...]]]]
    filled: bool = True
    stroked: bool = True


def _closed(ring: Ring) -> list[tuple[str, tuple[Point, ...]]]:
    return [*_open(ring), ("close", ())]


def _open(points: Sequence[Point]) -> list[tuple[str, tuple[Point, ...]]]:
    return [("moveTo", (points[0],)), *(("lnTo", (point,)) for point in points[1:])]


def _alternating(rings: Iterable[Ring]) -> list[Ring]:
    """The rings, outer ones anticlockwise, holes clockwise, and so on inwards.

    Slide programs do not say by which rule they fill; with these directions every rule gives the same picture.
    """
    rings = list(rings)
    turned = []
    for ring in rings:
        (ax, ay), (bx, by) = ring[0], ring[1]
        middle = ((ax + bx) / 2, (ay + by) / 2)
        depth = sum(inside(middle, other) for other in rings if other is not ring)
        forward = signed_area(ring) > 0.0
        turned.append(ring if forward == (depth % 2 == 0) else ring[::-1])
    return turned


def _freeform(entry: Entry, shape_id: int, paths: Sequence[_Path], ink: Sequence[Point], look: str) -> Shape:
    box = _box_of(ink)
    left, top = box[:2]

    def place(point: Point) -> str:
        x, y = _emu(point)
        return f'<a:pt x="{x - left}" y="{y - top}"/>'

    drawn = []
    for path in paths:
        commands = "".join(
            f"<a:{verb}>{''.join(map(place, points))}</a:{verb}>" if points else f"<a:{verb}/>"
            for contour in path.contours
            for verb, points in contour
        )
        drawn.append(_path(box, commands, filled=path.filled, stroked=path.stroked))
    return _shape(entry, shape_id, box, _custom("".join(drawn)), look)


def _dots(entry: Dots, shape_id: int) -> Shape:
    """All dots of a pattern as one freeform. Two half turns a dot: not every program draws a whole turn at once."""
    r = round(SLIDE_EMU.length(entry.radius))
    places = [_emu(centre) for centre in entry.centres]
    xs, ys = zip(*places, strict=True)
    box = (min(xs) - r, min(ys) - r, max(xs) + r, max(ys) + r)
    commands = "".join(
        f'<a:moveTo><a:pt x="{x + r - box[0]}" y="{y - box[1]}"/></a:moveTo>'
        f'<a:arcTo wR="{r}" hR="{r}" stAng="0" swAng="10800000"/>'
        f'<a:arcTo wR="{r}" hR="{r}" stAng="10800000" swAng="10800000"/><a:close/>'
        for x, y in places
    )
    look = _fill(entry.fill, entry.opacity) + _line(None, 0.0, 1.0)
    return _shape(entry, shape_id, box, _custom(_path(box, commands)), look)


def _rounded(entry: Area, shape_id: int) -> Shape:
    if len(entry.rings) != 1:
        raise OutputError(f"the area {entry.id!r} has {len(entry.rings)} rings; only one can have rounded corners")
    left, bottom, right, top = extent(entry.rings[0])
    share = round(entry.rounded / min(right - left, top - bottom) * _WHOLE)
    geometry = f'<a:prstGeom prst="roundRect"><a:avLst><a:gd name="adj" fmla="val {share}"/></a:avLst></a:prstGeom>'
    look = _fill(entry.fill, entry.opacity) + _line(entry.stroke, entry.width, entry.opacity, entry.dash)
    return _shape(entry, shape_id, _box_of([(left, bottom), (right, top)]), geometry, look)


def _ellipse(entry: Circle, shape_id: int) -> Shape:
    (x, y), r = entry.centre, entry.radius
    look = _fill(entry.fill, entry.opacity) + _line(entry.stroke, entry.width, entry.opacity, entry.dash)
    return _shape(entry, shape_id, _box_of([(x - r, y - r), (x + r, y + r)]), _preset("ellipse"), look)


def _text(entry: Label, shape_id: int, language: str) -> Shape:
    """A text box that neither wraps nor fits itself; wider than the words, for a typeface that stands in."""
    x, y = entry.at
    width = SUBSTITUTE_SLACK * face(entry.bold).width(entry.text, entry.size)
    left = x - {Align.START: 0.0, Align.MIDDLE: 0.5, Align.END: 1.0}[entry.align] * width
    # The middle of a line of this typeface lies half way up its capitals (to 0.4 % of an em), as `at` does.
    half = _LINE_HEIGHT * entry.size / 2
    box = _box_of([(left, y - half), (left + width, y + half)])
    side = {Align.START: "l", Align.MIDDLE: "ctr", Align.END: "r"}[entry.align]
    run = run_properties(
        size=entry.size, colour=entry.colour, bold=entry.bold, language=language, opacity=entry.opacity
    )
    body = (
        '<p:txBody><a:bodyPr wrap="none" lIns="0" tIns="0" rIns="0" bIns="0" rtlCol="0" anchor="ctr"><a:noAutofit/>'
        f'</a:bodyPr><a:lstStyle/><a:p><a:pPr algn="{side}"/><a:r>{run}<a:t>{escape(entry.text)}</a:t></a:r></a:p>'
        "</p:txBody>"
    )
    look = _fill(None, 1.0) + _line(None, 0.0, 1.0)
    return _shape(entry, shape_id, box, _preset("rect"), look, body=body)


def _shape(entry: Entry, shape_id: int, box: EmuBox, geometry: str, look: str, *, body: str = "") -> Shape:
    # Words are read as they stand: a text box is never decoration, and needs no alternative text.
    identity = _identity(shape_id, entry.id, entry.alt, decorative=not body)
    kind = '<p:cNvSpPr txBox="1"/>' if body else "<p:cNvSpPr/>"
    xml = (
        f"<p:sp><p:nvSpPr>{identity}{kind}<p:nvPr/></p:nvSpPr>"
        f"<p:spPr><a:xfrm><a:off {_off(box)}/><a:ext {_ext(box)}/></a:xfrm>{geometry}{look}<a:effectLst/></p:spPr>"
        f"{body}</p:sp>"
    )
    return Shape(xml, box, entry.alt)


def _identity(shape_id: int, name: str, alt: str, *, decorative: bool = True) -> str:
    said = f" descr={quoteattr(alt)}" if alt else ""
    extension = _DECORATIVE if decorative and not alt else ""
    return f'<p:cNvPr id="{shape_id}" name={quoteattr(name)}{said}>{extension}</p:cNvPr>'


def _custom(paths: str) -> str:
    return (
        '<a:custGeom><a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/><a:rect l="0" t="0" r="r" b="b"/>'
        f"<a:pathLst>{paths}</a:pathLst></a:custGeom>"
    )


def _preset(name: str) -> str:
    return f'<a:prstGeom prst="{name}"><a:avLst/></a:prstGeom>'


def _path(box: EmuBox, commands: str, *, filled: bool = True, stroked: bool = True) -> str:
    fill = "" if filled else ' fill="none"'
    stroke = "" if stroked else ' stroke="0"'
    return f'<a:path w="{box[2] - box[0]}" h="{box[3] - box[1]}"{fill}{stroke}>{commands}</a:path>'


def _fill(colour: str | None, opacity: float) -> str:
    return "<a:noFill/>" if colour is None else _solid(colour, opacity)


def _line(colour: str | None, width: float, opacity: float, dash: tuple[float, float] | None = None) -> str:
    if colour is None or width <= 0.0:
        return "<a:ln><a:noFill/></a:ln>"
    dashes = ""
    if dash is not None:
        on, off = (round(length / width * _WHOLE) for length in dash)
        dashes = f'<a:custDash><a:ds d="{on}" sp="{off}"/></a:custDash>'
    cap = "flat" if dash else "rnd"
    return f'<a:ln w="{round(SLIDE_EMU.length(width))}" cap="{cap}">{_solid(colour, opacity)}{dashes}<a:round/></a:ln>'


def _solid(colour: str, opacity: float) -> str:
    alpha = f'<a:alpha val="{round(opacity * _WHOLE)}"/>' if opacity < 1.0 else ""
    return f'<a:solidFill><a:srgbClr val="{colour.removeprefix("#").upper()}">{alpha}</a:srgbClr></a:solidFill>'


def _emu(point: Point) -> EmuPoint:
    x, y = SLIDE_EMU.point(point)
    return round(x), round(y)


def _box_of(points: Sequence[Point]) -> EmuBox:
    """The box round the points, at least one EMU each way: some programs drop a shape without height."""
    xs, ys = zip(*(_emu(point) for point in points), strict=True)
    return min(xs), min(ys), max(max(xs), min(xs) + 1), max(max(ys), min(ys) + 1)


def _off(box: EmuBox) -> str:
    return f'x="{box[0]}" y="{box[1]}"'


def _ext(box: EmuBox) -> str:
    return f'cx="{box[2] - box[0]}" cy="{box[3] - box[1]}"'

"""One figure as one standalone SVG.

Text is drawn as the outlines of its letters, so that a picture never depends on the fonts of a machine, and is named
for readers who listen. The stage becomes a view box of 1600 by 900. The same figure gives the same text, to the byte.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape, quoteattr

from ..figure.layout import Box
from ..figure.mark_signs import sign_area
from ..figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role
from ..figure.strokes import arrow_parts, circle_ring, dashes
from ..frames.page import Page
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import extent
from ..typeface.faces import face, label_box

__all__ = ["VIEW", "Element", "element_text", "entry_elements", "svg_of"]

VIEW = Page(1600.0)  # the view box

Element = tuple[str, dict[str, str]]  # its tag, and its attributes as they are written


def svg_of(figure: Figure, *, width_px: float = 1920, ids: bool = True, box: Box | None = None) -> str:
    """The figure as the text of an SVG file.

    width_px : the width it asks for; it scales to any
    ids      : whether entries carry their ids, which are neutral; leave them out where several pictures share a page
    box      : the part of the stage that is seen, or room beyond it; the whole stage where none is given
    Raises   : FontError for a character that the typeface lacks
    """
    left, top, width, height = (0.0, 0.0, VIEW.width, VIEW.height) if box is None else _seen(box)
    x, y, across, down = (_number(length) for length in (left, top, width, height))
    title = next((e.text for e in figure.entries if isinstance(e, Label) and e.role == Role.HEADING), "")
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{x} {y} {across} {down}" width="{width_px}" '
        f'height="{_number(width_px * height / width)}" role="graphics-document document"'
        + (f" aria-label={quoteattr(figure.alt)}" if figure.alt else "")
        + ">",
        *([f"<title>{escape(title)}</title>"] if title else []),
        *([f"<desc>{escape(figure.alt)}</desc>"] if figure.alt else []),
        f'<rect {_corner(x, y)}width="{across}" height="{down}" fill="{figure.background}"/>',
        *(_group(entry, ids) for entry in figure.entries),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def entry_elements(entry: Entry) -> list[Element]:
    """What draws one entry, in order: paths and rectangles in units of the view box, without its opacity.

    Raises : FontError for a character that the typeface lacks
    """
    match entry:
        case Area() if entry.rounded > 0.0:
            return _rectangle(entry)
        case Area():
            return _shape(entry.rings, entry.fill, entry.stroke, entry.width, entry.dash)
        case Lines():
            return [_stroke(entry.segments, entry.stroke, entry.width)] if entry.segments else []
        case Dots():
            return [_path(_discs(entry.centres, entry.radius), fill=entry.fill)] if entry.centres else []
        case Label() if entry.sign:
            return entry_elements(sign_area(entry))
        case Label():
            return [_path(_letters(entry), fill=entry.colour)]
        case Arrow():
            line, head = arrow_parts(entry)
            return [_stroke([line], entry.stroke, entry.width), _path(_closed(head), fill=entry.stroke)]
        case Circle():
            disc, fill = _discs([entry.centre], entry.radius), entry.fill or "none"
            if entry.stroke is None or entry.dash is None:
                return [_path(disc, fill=fill, **_stroke_attributes(entry.stroke, entry.width))]
            arcs = dashes(circle_ring(entry.centre, entry.radius), entry.dash)
            return [_path(disc, fill=fill), _stroke(arcs, entry.stroke, entry.width)]
    raise TypeError(f"an entry of kind {type(entry).__name__} cannot be drawn")


def element_text(element: Element) -> str:
    """An element as it is written; what it draws with needs no escaping."""
    tag, own = element
    return f"<{tag}{''.join(f' {name}={quoteattr(value)}' for name, value in own.items())}/>"


def _seen(box: Box) -> tuple[float, float, float, float]:
    """Left, top, width and height of a part of the stage in the view."""
    left, top = VIEW.point((box.left, box.top))
    return left, top, VIEW.length(box.width), VIEW.length(box.height)


def _corner(x: str, y: str) -> str:
    """Where a rectangle starts, unless it is the origin."""
    return "" if x == y == "0" else f'x="{x}" y="{y}" '


def _group(entry: Entry, ids: bool) -> str:
    attributes = f" id={quoteattr(entry.id)}" if ids else ""
    name = entry.alt or (entry.text if isinstance(entry, Label) else "")
    attributes += f' role="img" aria-label={quoteattr(name)}' if name else ' aria-hidden="true"'
    if entry.opacity < 1.0:
        attributes += f' opacity="{_number(entry.opacity)}"'
    return f"<g{attributes}>{''.join(element_text(element) for element in entry_elements(entry))}</g>"


def _shape(
    rings: Sequence[Ring], fill: str | None, stroke: str | None, width: float, dash: tuple[float, float] | None
) -> list[Element]:
    path = "".join(_closed(ring) for ring in rings)
    dashed = stroke is not None and dash is not None
    elements = []
    if fill is not None or not dashed:
        elements.append(
            _path(
                path,
                fill=fill or "none",
                **{"fill-rule": "evenodd"},
                **({} if dashed else _stroke_attributes(stroke, width)),
            )
        )
    if stroke is not None and dash is not None:
        elements.append(_stroke([piece for ring in rings for piece in dashes(ring, dash)], stroke, width))
    return elements


def _rectangle(entry: Area) -> list[Element]:
    elements = []
    for ring in entry.rings:
        left, bottom, right, top = extent(ring)
        x, y = _place((left, top)).split(" ")
        own = {"x": x, "y": y, "width": _length(right - left), "height": _length(top - bottom)}
        own |= {"rx": _length(entry.rounded), "fill": entry.fill or "none"}
        elements.append(("rect", own | _stroke_attributes(entry.stroke, entry.width)))
    return elements


def _path(path: str, **attributes: str) -> Element:
    return "path", {"d": path, **attributes}


def _stroke(polylines: Iterable[Sequence[Point]], stroke: str, width: float) -> Element:
    path = "".join("M" + "L".join(_place(point) for point in points) for points in polylines)
    return _path(path, fill="none", **_stroke_attributes(stroke, width))


def _stroke_attributes(stroke: str | None, width: float) -> dict[str, str]:
    if stroke is None or width <= 0.0:
        return {}
    return {
        "stroke": stroke,
        "stroke-width": _length(width),
        "stroke-linecap": "round",
        "stroke-linejoin": "round",
    }


def _discs(centres: Iterable[Point], radius: float) -> str:
    r, across = _length(radius), _length(2 * radius)
    return "".join(
        f"M{_place((x - radius, y))}a{r} {r} 0 1 0 {across} 0a{r} {r} 0 1 0 -{across} 0z" for x, y in centres
    )


def _letters(label: Label) -> str:
    letters = face(label.bold)
    left = label_box(label)[0]
    baseline = label.at[1] - letters.cap_height(label.size) / 2
    return "".join(
        verb + " ".join(_place((left + x, baseline + y)) for x, y in points)
        for verb, points in letters.glyph_paths(label.text, label.size)
    )


def _closed(ring: Ring) -> str:
    return "M" + "L".join(_place(point) for point in ring) + "Z"


def _place(point: Point) -> str:
    x, y = VIEW.point(point)
    return f"{_number(x)} {_number(y)}"


def _length(length: float) -> str:
    return _number(VIEW.length(length))


def _number(value: float) -> str:
    """To three decimals, without needless noughts and never -0."""
    written = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written

"""The sketch of a slide with native shapes: rectangles, triangles, freeforms and others with straight sides, grouped,
turned or flipped.

The parts of a presentation are read here, not by the library that writes decks: that one unpacks and parses all of a
file, and hands on no corners of a freeform. Here the list of slides and one slide are unpacked, to a bound each; a
part that declares entities is refused; what points outside the file is never followed.
"""

from __future__ import annotations

import math
import posixpath
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from xml.etree import ElementTree

from ..geometry.rigid_motion import Point, Ring, cos_sin_deg
from ..geometry.rings import signed_area
from ..item.svg_tree import local_name, tree_of_text
from .archive import Archive
from .plane import Plane
from .preset_shapes import PRESETS
from .sketch import MOST_SHAPES, DrawnShape, DrawnWords, Passed, Refused, Sketch, too_many

__all__ = ["CENTIMETRE", "sketch_of_slide"]

CENTIMETRE = 360_000  # of a slide's own units
MAX_ELEMENTS = 5_000
MAX_POINTS = 5_000
MAX_DEPTH = 40  # of groups in groups
MAX_WORDS = 200
_MAX_NUMBER = 1e12
_RELATED = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
_STRAIGHT = "draw it with straight sides; curves cannot be outlines here"

Place = Callable[[Point], Point]


@dataclass(frozen=True, slots=True)
class _Box:
    """Where a shape lies: its box before it is turned, in whatever holds it."""

    x: float
    y: float
    wide: float
    high: float
    turned: float  # degrees clockwise as one looks at the slide
    flipped: tuple[bool, bool]  # left to right, top to bottom

    def place(self, point: Point) -> Point:
        """A point of the box, counted from its upper left corner, flipped, turned and shifted."""
        x, y = point[0] - self.wide / 2, point[1] - self.high / 2
        x, y = (-x if self.flipped[0] else x), (-y if self.flipped[1] else y)
        cos, sin = cos_sin_deg(self.turned)  # y runs down, so that this turns clockwise
        return self.x + self.wide / 2 + cos * x - sin * y, self.y + self.high / 2 + sin * x + cos * y


def sketch_of_slide(data: bytes, *, unit: float = 1.0, slide: int = 1) -> Sketch:
    """Every straight shape of a slide in its place, and the words of its text boxes.

    unit   : how many centimetres one item unit is
    slide  : its number, counted from 1
    Raises : Refused where it cannot be read, or has no such slide
    """
    archive = Archive(data)
    slides, size = _slides(archive)
    if not 1 <= slide <= len(slides):
        have = f"{len(slides)} slide{'s' if len(slides) != 1 else ''}"
        raise Refused(f"the presentation has {have}, so there is no slide {slide}", "give another number")
    root = _xml(archive, slides[slide - 1])
    tree = next((element for element in root.iter() if local_name(element) == "spTree"), None)
    if tree is None:
        raise Refused("the slide has no shapes", "draw the outlines as shapes on it")
    found = _Found(unit * CENTIMETRE)
    for element, place in _elements(tree):
        found.take(element, place)
    if len(found.shapes) > MOST_SHAPES:
        raise too_many(len(found.shapes))
    others = f"; it is one of {len(slides)}" if len(slides) > 1 else ""
    return Sketch(
        shapes=tuple(found.shapes),
        words=tuple(found.words),
        passed=tuple(found.passed),
        remarks=(f"Slide {slide} was read{others}; 1 is {unit:g} cm on it.",),
        size=size,
        plane=Plane.flat(unit * CENTIMETRE),
    )


def _xml(archive: Archive, name: str) -> ElementTree.Element:
    part = archive.part(name)
    if part is None:
        raise Refused("a part of the presentation is missing", "save the presentation anew as .pptx")
    try:
        return tree_of_text(part).root
    except Refused as stop:
        message = stop.message.replace("the drawing", "the presentation").replace(" as an SVG drawing is", "")
        raise Refused(message, "save the presentation anew as .pptx") from stop


def _slides(archive: Archive) -> tuple[list[str], Point]:
    """The parts of the slides in their order, and how large a slide is."""
    if archive.part("ppt/presentation.xml") is None:
        raise Refused("the file is an archive, but not a presentation", "give a file that ends in .pptx")
    root = _xml(archive, "ppt/presentation.xml")
    related = _xml(archive, "ppt/_rels/presentation.xml.rels")
    targets = {
        each.get("Id", ""): posixpath.normpath(posixpath.join("/ppt", each.get("Target", ""))).lstrip("/")
        for each in related.iter()
        if local_name(each) == "Relationship" and each.get("TargetMode") != "External"
    }
    ids = [each.get(_RELATED, "") for each in root.iter() if local_name(each) == "sldId"]
    size = next((each for each in root.iter() if local_name(each) == "sldSz"), None)
    wide, high = (_number(size.get(key, "0")) if size is not None else 0.0 for key in ("cx", "cy"))
    return [targets[each] for each in ids if each in targets], (wide, high)


def _elements(tree: ElementTree.Element) -> Iterator[tuple[ElementTree.Element, Place]]:
    """Every element of a slide that is shown and no group, with what brings its points onto the slide."""
    stack: list[tuple[ElementTree.Element, Place, int]] = [(each, _stay, 0) for each in reversed(tree)]
    seen = 0
    while stack:
        element, place, depth = stack.pop()
        seen += 1
        if seen > MAX_ELEMENTS or depth > MAX_DEPTH:
            what = f"more than {MAX_ELEMENTS:,} elements" if seen > MAX_ELEMENTS else f"groups {MAX_DEPTH} deep"
            raise Refused(f"the slide has {what}", "keep only the question on it, ungrouped")
        properties = _first(element, "cNvPr")
        if properties is not None and properties.get("hidden") in ("1", "true"):
            continue
        if local_name(element) != "grpSp":
            yield element, place
            continue
        inner = _in_group(element, place)
        stack += [(child, inner, depth + 1) for child in reversed(element)]


def _stay(point: Point) -> Point:
    return point


def _in_group(group: ElementTree.Element, place: Place) -> Place:
    """What brings points of a group's own plane onto the slide; nowhere for a group that has none."""
    own = next((child for child in group if local_name(child) == "grpSpPr"), None)
    found = own if own is None else next((child for child in own if local_name(child) == "xfrm"), None)
    if found is None:
        return place
    try:
        box = _box(found)
        inner = {local_name(child): child for child in found}
        x, y = _pair(inner, "chOff", "x", "y")
        wide, high = _pair(inner, "chExt", "cx", "cy")
    except Refused:
        return _nowhere
    across = box.wide / wide if wide else 1.0
    down = box.high / high if high else 1.0
    return lambda point: place(box.place(((point[0] - x) * across, (point[1] - y) * down)))


def _nowhere(point: Point) -> Point:
    raise Refused("the group that it is in has no place", "ungroup it")


class _Found:
    """What is taken of a slide, element by element."""

    def __init__(self, unit: float) -> None:
        self._unit = unit
        self._count = 0
        self.shapes: list[DrawnShape] = []
        self.words: list[DrawnWords] = []
        self.passed: list[Passed] = []

    def take(self, element: ElementTree.Element, place: Place) -> None:
        """One element: a shape, words, or what is passed by."""
        kind = local_name(element)
        named = _first(element, "cNvPr")
        if kind not in ("sp", "pic", "cxnSp", "graphicFrame"):
            return
        self._count += 1
        typed = named.get("name", "") if named is not None else ""
        called = _plain((named.get("title") or typed) if named is not None else "")
        name = called or f"shape number {self._count}"
        at = None
        try:
            if kind != "sp":
                what = {"pic": "a picture", "cxnSp": "a single line", "graphicFrame": "a table or a chart"}[kind]
                raise Refused(f"it is {what}", "draw the outline as a shape; give a picture as a file of its own")
            own = next((child for child in element if local_name(child) == "spPr"), None)
            found = own if own is None else next((child for child in own if local_name(child) == "xfrm"), None)
            said = _said(element)
            if own is None or found is None:
                if said:
                    raise Refused("it takes its place from the slide's layout", "move it once, so that it has its own")
                return
            box = _box(found)
            at = place(box.place((box.wide / 2, box.high / 2)))
            if said:
                self._say(said, at)
            if _is_words(element):
                return
            rings = [tuple(place(box.place(point)) for point in ring) for ring in _rings(own, box)]
            self.shapes.append(self._shape(name, called, rings))
        except Refused as stop:
            self.passed.append(Passed(name=name, message=stop.message, fix=stop.fix, on_source=at))

    def _say(self, said: str, at: Point) -> None:
        if len(self.words) < MAX_WORDS:
            self.words.append(DrawnWords(text=said, at=(at[0] / self._unit, -at[1] / self._unit)))

    def _shape(self, name: str, called: str, rings: list[Ring]) -> DrawnShape:
        apart = list[Ring]()
        for ring in rings:
            points = tuple(here for before, here in zip((None, *ring), ring, strict=False) if here != before)
            points = points[:-1] if len(points) > 1 and math.dist(points[0], points[-1]) < 1.0 else points
            if len(points) < 3 or abs(signed_area(points)) < 1.0:
                raise Refused("it encloses nothing", "draw it anew, or delete it")
            apart.append(points)
        apart.sort(key=lambda ring: -abs(signed_area(ring)))
        placed = tuple(tuple((x / self._unit, -y / self._unit) for x, y in ring) for ring in apart)
        return DrawnShape(name=name, called=called, rings=placed)


def _said(element: ElementTree.Element) -> str:
    runs = "".join(each.text or "" for each in element.iter() if local_name(each) == "t")
    return _plain(" ".join(runs[:1000].split()))


def _is_words(element: ElementTree.Element) -> bool:
    """Whether it is there for its words: a text box, or a place for a title that has some."""
    own = _first(element, "cNvSpPr")
    holder = any(local_name(each) == "ph" for each in element.iter())
    return holder or (own is not None and own.get("txBox") in ("1", "true"))


def _rings(own: ElementTree.Element, box: _Box) -> list[Ring]:
    shape = next((child for child in own if local_name(child) in ("prstGeom", "custGeom")), None)
    if shape is None:
        raise Refused("it has no outline of its own", "draw it as a shape")
    if box.wide <= 0.0 or box.high <= 0.0:
        raise Refused("it has no width or no height", "draw it anew, or delete it")
    if local_name(shape) == "custGeom":
        return _freeform(shape, box)
    kind = _plain(shape.get("prst", ""))
    preset = PRESETS.get(kind)
    if preset is None:
        raise Refused(f"it is of the kind {kind or 'none'}, whose corners are not known here", _STRAIGHT)
    grips = {**preset.grips, **_grips(shape)}
    return [preset.corners(box.wide, box.high, grips)]


def _grips(shape: ElementTree.Element) -> dict[str, float]:
    found = dict[str, float]()
    for each in list(shape.iter())[:20]:
        words = each.get("fmla", "").split()
        if local_name(each) == "gd" and len(words) == 2 and words[0] == "val":
            found[each.get("name", "")] = min(max(_number(words[1]), 0.0), 10_000_000.0)
    return found


def _freeform(shape: ElementTree.Element, box: _Box) -> list[Ring]:
    rings = list[list[Point]]()
    count = 0
    for path in (each for each in shape.iter() if local_name(each) == "path"):
        wide, high = _number(path.get("w", "0")), _number(path.get("h", "0"))
        across = box.wide / wide if wide else 1.0
        down = box.high / high if high else 1.0
        for step in path:
            kind = local_name(step)
            count += 1
            if count > MAX_POINTS:
                raise Refused(f"it has more than {MAX_POINTS:,} points", "draw it with fewer")
            if kind == "close":
                continue
            if kind not in ("moveTo", "lnTo"):
                raise Refused("it has a side that is a curve", _STRAIGHT)
            point = next((each for each in step if local_name(each) == "pt"), None)
            if point is None:
                raise Refused("one of its points cannot be read", "draw it anew")
            if kind == "moveTo" or not rings:
                rings.append([])
            rings[-1].append((_number(point.get("x", "")) * across, _number(point.get("y", "")) * down))
    kept = [tuple(ring) for ring in rings if len(ring) > 1]
    if not kept:
        raise Refused("it encloses nothing", "draw it anew, or delete it")
    return kept


def _box(found: ElementTree.Element) -> _Box:
    inner = {local_name(child): child for child in found}
    x, y = _pair(inner, "off", "x", "y")
    wide, high = _pair(inner, "ext", "cx", "cy")
    flipped = (found.get("flipH") in ("1", "true"), found.get("flipV") in ("1", "true"))
    return _Box(x, y, wide, high, _number(found.get("rot", "0")) / 60_000 % 360, flipped)


def _pair(inner: Mapping[str, ElementTree.Element], name: str, *keys: str) -> Point:
    element = inner.get(name)
    if element is None:
        raise Refused("it has no place of its own", "move it once, so that it has one")
    first, second = (_number(element.get(key, "")) for key in keys)
    return first, second


def _number(text: str) -> float:
    try:
        value = float(text) if len(text) <= 30 else math.nan
    except ValueError:
        value = math.nan
    if not abs(value) <= _MAX_NUMBER:
        raise Refused("one of its numbers cannot be read", "draw it anew")
    return value


def _first(element: ElementTree.Element, name: str) -> ElementTree.Element | None:
    """The first of that name among the properties of an element, which stand at its head."""
    return next((each for child in element[:1] for each in child.iter() if local_name(each) == name), None)


def _plain(name: str) -> str:
    return "".join(char if char.isprintable() else " " for char in name[:120])[:60].strip()

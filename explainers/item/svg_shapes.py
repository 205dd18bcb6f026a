"""The shapes of an SVG drawing with straight sides, as rings in the drawing's own units, y down.

Nothing is fetched and nothing is run: a drawing that declares entities is refused before it is parsed, what it points
to is never opened, and its size and number of elements are bounded.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from xml.etree import ElementTree
from xml.parsers import expat

from svgelements import Close, Line, Matrix, Move
from svgelements import Path as PathData

from ..errors import Fault
from ..geometry.rigid_motion import Point

__all__ = ["Drawing", "Refused", "Shape", "shapes_of"]

MAX_BYTES = 2_000_000
MAX_ELEMENTS = 20_000
MAX_POINTS = 5_000

_CONTAINERS = ("svg", "g", "a", "switch")
_SHAPES = ("path", "polygon", "polyline", "rect", "circle", "ellipse", "line", "use")
_LABEL = "{http://www.inkscape.org/namespaces/inkscape}label"
_NUMBERS = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_SEPARATORS = re.compile(r"[\s,]*")
_HIDDEN = re.compile(r"(^|;)\s*display\s*:\s*none")
_TRANSFORM = re.compile(
    r"\s*((matrix|translate|scale|rotate|skewX|skewY)\s*\(\s*[-+\d.eE]+([\s,]+[-+\d.eE]+|[-+][\d.eE]+)*\s*\)[\s,]*)*"
)


class Refused(Exception):
    """Why a drawing, or a shape of it, cannot be an outline."""

    def __init__(self, message: str, fix: str) -> None:
        super().__init__(message)
        self.message, self.fix = message, fix


@dataclass(frozen=True, slots=True)
class Shape:
    """One element with straight sides; more rings than one are an outline with holes."""

    name: str  # its id, else its kind and number
    names: tuple[str, ...]  # every name that it answers to
    kind: str  # of the element, such as polygon
    rings: tuple[tuple[Point, ...], ...]
    closed: tuple[bool, ...]  # for each ring, whether the drawing says so
    line: int  # of the file, on which the element begins


@dataclass(frozen=True, slots=True)
class Drawing:
    """What a drawing holds, in its order."""

    shapes: tuple[Shape, ...]
    faults: tuple[tuple[tuple[str, ...], Fault], ...]  # (names of the element, why it is refused)


def shapes_of(path: Path) -> Drawing:
    """Every shape of a drawing; one with a curve is among the faults, by its name.

    Raises: Refused where the file is no drawing that can be read
    """
    root, lines = _parsed(path)
    shapes: list[Shape] = []
    faults: list[tuple[tuple[str, ...], Fault]] = []
    counts: dict[str, int] = {}
    for element, kind, matrix in _elements(root):
        counts[kind] = counts.get(kind, 0) + 1
        numbered = f"{kind} number {counts[kind]}"
        typed = (element.get("id"), element.get(_LABEL))
        own = ["".join(char if char.isprintable() else " " for char in name)[:60] for name in typed if name]
        name, names = (own or [numbered])[0], (*own, numbered)
        try:
            transform = matrix or Matrix()
            if matrix is None:
                raise Refused("its transform cannot be read", "ungroup it, or draw it anew")
            rings, closed = _rings(element, kind)
            rings = tuple(tuple(_moved(point, transform) for point in ring) for ring in rings)
        except Refused as stop:
            fault = Fault(file=str(path), line=lines[element], field=name, message=stop.message, fix=stop.fix)
            faults.append((names, fault))
        else:
            shapes.append(Shape(name, names, kind, rings, closed, lines[element]))
    return Drawing(tuple(shapes), tuple(faults))


def _parsed(path: Path) -> tuple[ElementTree.Element, dict[ElementTree.Element, int]]:
    """The drawing, and the line on which each of its elements begins."""
    save = "save the drawing as plain SVG"
    try:
        with path.open("rb") as stream:
            raw = stream.read(MAX_BYTES + 1)
    except OSError as error:
        raise Refused(f"the file cannot be opened: {error.strerror or error}", "check its name") from error
    if len(raw) > MAX_BYTES:
        raise Refused(f"the drawing has more than {MAX_BYTES:,} bytes", "keep only the outline in it")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refused("the drawing is not UTF-8", save) from error
    if "<!ENTITY" in text or re.search(r"<!DOCTYPE[^>]*\[", text):
        raise Refused("the drawing declares entities of its own", save)
    try:
        root = ElementTree.fromstring(text)
    except (ElementTree.ParseError, ValueError) as error:
        raise Refused(f"the file is not XML as an SVG drawing is ({error})", save) from error
    if _kind(root) != "svg":
        raise Refused("the file is not an SVG drawing", "name a file that ends in .svg")
    return root, dict(zip(root.iter(), _lines(text), strict=True))


def _lines(text: str) -> list[int]:
    """The line on which each element begins, in their order: the tree does not say."""
    found: list[int] = []
    parser = expat.ParserCreate("utf-8")
    parser.StartElementHandler = lambda name, attributes: found.append(parser.CurrentLineNumber)
    parser.Parse(text.encode("utf-8"), True)
    return found


def _kind(element: ElementTree.Element) -> str:
    return element.tag.rsplit("}", 1)[-1] if isinstance(element.tag, str) else ""


def _elements(root: ElementTree.Element) -> Iterator[tuple[ElementTree.Element, str, Matrix | None]]:
    """Every shape that is shown, in order, with what moves it; None where that cannot be read."""
    stack: list[tuple[ElementTree.Element, Matrix | None]] = [(root, Matrix())]
    seen = 0
    while stack:
        element, matrix = stack.pop()
        seen += 1
        if seen > MAX_ELEMENTS:
            raise Refused(f"the drawing has more than {MAX_ELEMENTS:,} elements", "keep only the outline in it")
        if element.get("display") == "none" or _HIDDEN.search(element.get("style", "")):
            continue
        kind = _kind(element)
        own = element.get("transform", "")
        if matrix is not None and own:
            matrix = _transform(own, matrix)
        if kind in _SHAPES:
            yield element, kind, matrix
        elif kind in _CONTAINERS and (kind != "svg" or element is root):
            stack += [(child, matrix) for child in reversed(element)]
        elif kind == "svg":
            yield element, "inner drawing", matrix


def _transform(text: str, around: Matrix) -> Matrix | None:
    if not _TRANSFORM.fullmatch(text):
        return None
    try:
        return Matrix(text) * around
    except (ValueError, IndexError, TypeError):
        return None


def _moved(point: Point, matrix: Matrix) -> Point:
    x, y = point
    moved = (matrix.a * x + matrix.c * y + matrix.e, matrix.b * x + matrix.d * y + matrix.f)
    if not all(map(math.isfinite, moved)):
        raise Refused("one of its numbers is too large", "draw it smaller")
    return moved


Rings = tuple[tuple[tuple[Point, ...], ...], tuple[bool, ...]]


def _rings(element: ElementTree.Element, kind: str) -> Rings:
    if kind in ("circle", "ellipse"):
        raise Refused(f"it is {'a circle' if kind == 'circle' else 'an ellipse'}", _STRAIGHT)
    if kind == "line":
        raise Refused("it is a single line, which encloses nothing", "draw the outline as one closed shape")
    if kind == "use":
        raise Refused(
            "it is a copy that points to another element", "unlink the copy, so that it is a shape of its own"
        )
    if kind == "inner drawing":
        raise Refused("it is a drawing within the drawing", "ungroup it, or save its shapes in a file of their own")
    if kind == "rect":
        return _rect(element)
    if kind == "path":
        return _path(element.get("d", ""))
    numbers = _numbers(element.get("points", ""))
    if not numbers:
        raise Refused("it has no points", "draw it anew, or delete it")
    if len(numbers) % 2:
        raise Refused("one of its points has no second number", "draw it anew")
    return (tuple(zip(numbers[::2], numbers[1::2], strict=True)),), (kind == "polygon",)


_STRAIGHT = "draw it with straight sides; curves cannot be outlines here"


def _rect(element: ElementTree.Element) -> Rings:
    x, y, width, height, *rounded = (
        _length(element.get(name, "0"), name) for name in ("x", "y", "width", "height", "rx", "ry")
    )
    if any(rounded):
        raise Refused("it is a rectangle with round corners", "set its corner radius (rx, ry) to 0")
    if width <= 0 or height <= 0:
        raise Refused("it is a rectangle without width or height", "draw it anew")
    return (((x, y), (x + width, y), (x + width, y + height), (x, y + height)),), (True,)


def _length(text: str, name: str) -> float:
    found = re.fullmatch(rf"\s*({_NUMBERS.pattern})\s*(px)?\s*", text)
    if text.strip() == "auto":
        return 0.0
    if found is None:
        raise Refused(
            f"its {name} is {text[:40]!r}, not a plain number", "save the drawing in its own units, as plain SVG"
        )
    return float(found[1])


def _numbers(text: str) -> list[float]:
    """Numbers with white space or commas between them."""
    if len(text) > MAX_BYTES or _SEPARATORS.sub("", _NUMBERS.sub("", text)):
        raise Refused("its points are not plain numbers", "draw it anew, or save as plain SVG")
    return [float(number) for number in _NUMBERS.findall(text)]


def _path(data: str) -> Rings:
    """Each subpath; only straight segments are let through."""
    try:
        return _subpaths(list(PathData(data)))
    except (ValueError, IndexError, TypeError, AttributeError) as error:
        raise Refused("its path data cannot be read", "draw it anew, or save as plain SVG") from error


def _subpaths(segments: Iterable[Any]) -> Rings:
    """Raises, besides: TypeError or AttributeError where a segment lacks a number."""
    rings: list[list[Point]] = []
    closed: list[bool] = []
    for segment in segments:
        if isinstance(segment, Move):
            rings.append([])
            closed.append(False)
        elif not isinstance(segment, Line | Close):
            kind = {"CubicBezier": "curve", "QuadraticBezier": "curve", "Arc": "arc"}.get(
                type(segment).__name__, "curve"
            )
            raise Refused(f"it has a side that is {'an arc' if kind == 'arc' else 'a curve'}", _STRAIGHT)
        if not rings or segment.end is None:
            raise Refused("its path data cannot be read", "draw it anew, or save as plain SVG")
        if isinstance(segment, Close):
            closed[-1] = True
        else:
            if closed[-1]:  # it goes on from where it closed
                rings.append([(float(segment.start.x), float(segment.start.y))])
                closed.append(False)
            rings[-1].append((float(segment.end.x), float(segment.end.y)))
        if sum(map(len, rings)) > MAX_POINTS:
            raise Refused(f"it has more than {MAX_POINTS:,} points", "draw it with fewer")
    kept = [(tuple(ring), shut) for ring, shut in zip(rings, closed, strict=True) if len(ring) > 1]
    if not kept:
        raise Refused("its path encloses nothing", "draw it anew")
    return tuple(ring for ring, _ in kept), tuple(shut for _, shut in kept)

"""The shapes of an SVG drawing with straight sides, as rings in the drawing's own units, y down.

Nothing is fetched and nothing is run: what a drawing points to is never opened, and its number of elements, of points
and of characters are bounded before they are looked into.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from svgelements import Close, Line, Matrix, Move
from svgelements import Path as PathData

from ..errors import Fault
from ..geometry.rigid_motion import Point
from .svg_tree import Refused, Tree, local_name, tree_in, tree_of_file

__all__ = ["Drawing", "Refused", "SvgShape", "SvgText", "shapes_in", "shapes_of"]

MAX_ELEMENTS = 20_000
MAX_POINTS = 5_000
MAX_TEXT = 250_000  # characters of one element's points or path
MAX_LENGTH = 100  # characters of a width or another length
MAX_TRANSFORM = 2_000  # characters
MAX_CLOSINGS = 100  # the library looks back along the whole path for each

_CONTAINERS = ("svg", "g", "a", "switch")
_SHAPES = ("path", "polygon", "polyline", "rect", "circle", "ellipse", "line", "use")
MAX_TEXTS = 200
MAX_SAID = 60  # characters of a text that are kept
_LABEL = "{http://www.inkscape.org/namespaces/inkscape}label"
_NUMBERS = re.compile(r"[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?")
_LENGTH = re.compile(rf"\s*({_NUMBERS.pattern})\s*(?:px\s*)?")
_NOT_OF_PATHS = re.compile(r"[^MmZzLlHhVvCcSsQqTtAa0-9\s,.eE+-]")
_SEPARATORS = re.compile(r"[\s,]*")
_HIDDEN = re.compile(r"(^|;)\s*display\s*:\s*none")
_FONT_SIZE = re.compile(r"font-size\s*:\s*(\d{1,6}(?:\.\d{1,6})?)")
_TRANSFORM = re.compile(
    r"\s*((matrix|translate|scale|rotate|skewX|skewY)\s*\(\s*[-+\d.eE]+([\s,]+[-+\d.eE]+)*\s*\)[\s,]*)*"
)


@dataclass(frozen=True, slots=True)
class SvgShape:
    """One element with straight sides; more rings than one are an outline with holes."""

    name: str  # its id, else its kind and number
    names: tuple[str, ...]  # every name that it answers to
    kind: str  # of the element, such as polygon
    rings: tuple[tuple[Point, ...], ...]
    closed: tuple[bool, ...]  # for each ring, whether the drawing says so
    line: int  # of the file, counted from 1
    called: str = ""  # what a person named it: its title, label or id


@dataclass(frozen=True, slots=True)
class SvgText:
    """Words that stand in a drawing."""

    text: str
    at: Point  # about its middle


@dataclass(frozen=True, slots=True)
class Drawing:
    """What a drawing holds, in its order."""

    shapes: tuple[SvgShape, ...]
    faults: tuple[tuple[tuple[str, ...], Fault], ...]  # (names of the element, why it is refused)
    texts: tuple[SvgText, ...] = ()


def shapes_of(path: Path) -> Drawing:
    """Every shape of a drawing; one with a curve is among the faults, by its name.

    Raises: Refused where the file is no drawing that can be read
    """
    return _drawing(tree_of_file(path), str(path))


def shapes_in(raw: bytes, file: str) -> Drawing:
    """The same of a drawing that has been read; `file` is what faults call it.

    Raises: Refused where it is no drawing that can be read
    """
    return _drawing(tree_in(raw), file)


def _drawing(tree: Tree, file: str) -> Drawing:
    shapes: list[SvgShape] = []
    faults: list[tuple[tuple[str, ...], Fault]] = []
    texts: list[SvgText] = []
    counts: dict[str, int] = {}
    for element, kind, matrix in _elements(tree):
        if kind == "text":
            texts += _text(element, matrix) if len(texts) < MAX_TEXTS else []
            continue
        counts[kind] = counts.get(kind, 0) + 1
        numbered = f"{kind} number {counts[kind]}"
        title = next((child.text for child in element if local_name(child) == "title"), None)
        typed = (element.get("id"), element.get(_LABEL), title)
        own = [_plain(name) for name in typed if name]
        name, names = (own or [numbered])[0], (*own, numbered)
        line = tree.lines[element]
        try:
            transform = matrix or Matrix()
            if matrix is None:
                raise Refused("its transform cannot be read", "ungroup it, or draw it anew")
            rings, closed = _rings(element, kind)
            rings = tuple(tuple(_moved(point, transform) for point in ring) for ring in rings)
        except Refused as stop:
            fault = Fault(file=file, line=line, field=name, message=stop.message, fix=stop.fix)
            faults.append((names, fault))
        else:
            shapes.append(SvgShape(name, names, kind, rings, closed, line, own[-1] if own else ""))
    return Drawing(tuple(shapes), tuple(faults), tuple(texts))


def _plain(name: str) -> str:
    return "".join(char if char.isprintable() else " " for char in name[: 2 * MAX_SAID])[:MAX_SAID]


def _text(element: ElementTree.Element, matrix: Matrix | None) -> list[SvgText]:
    """What a text says and about where its middle lies; nothing where that cannot be read."""
    said = _plain(" ".join("".join(element.itertext())[:1000].split()))
    parts = [element, *(child for child in element if local_name(child) == "tspan")][:4]
    try:
        places = [next((value for part in parts if (value := part.get(name))), "0").split()[0] for name in ("x", "y")]
        x, y = _length(places[0], "x"), _length(places[1], "y")
        style = [(part.get("style", ""), part.get("font-size", ""), part.get("text-anchor", "")) for part in parts]
        written = [f"{own[:2000]};font-size:{size[:20]}" for own, size, _ in style]
        sizes = [found[1] for each in written if (found := _FONT_SIZE.search(each))]
        size = float(sizes[0]) if sizes else 16.0
        wide = 0.6 * size * len(said)
        anchored = " ".join(f"{own[:2000]} {anchor}" for own, _, anchor in style)
        left = wide / 2 if "middle" in anchored else wide if re.search(r"anchor:\s*end| end\b", anchored) else 0.0
        middle = _moved((x - left + wide / 2, y - 0.35 * size), matrix or Matrix())
    except (Refused, ValueError, IndexError):
        return []
    return [SvgText(said, middle)] if said and matrix is not None else []


def _elements(tree: Tree) -> Iterator[tuple[ElementTree.Element, str, Matrix | None]]:
    """Every shape that is shown, in order, with what moves it; None where that cannot be read."""
    root = tree.root
    stack: list[tuple[ElementTree.Element, Matrix | None]] = [(root, Matrix())]
    seen = 0
    while stack:
        element, matrix = stack.pop()
        seen += 1
        if seen > MAX_ELEMENTS:
            message = f"the drawing has more than {MAX_ELEMENTS:,} elements"
            raise Refused(message, "keep only the outline in it", tree.lines[element])
        if element.get("display") == "none" or _HIDDEN.search(element.get("style", "")):
            continue
        kind = local_name(element)
        own = element.get("transform", "")
        if matrix is not None and own:
            matrix = _transform(own, matrix)
        if kind in _SHAPES or kind == "text":
            yield element, kind, matrix
        elif kind in _CONTAINERS and (kind != "svg" or element is root):
            stack += [(child, matrix) for child in reversed(element)]
        elif kind == "svg":
            yield element, "inner drawing", matrix


def _transform(text: str, around: Matrix) -> Matrix | None:
    if len(text) > MAX_TRANSFORM or not _TRANSFORM.fullmatch(text):
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
        return _path(_within(element, "d"))
    numbers = _numbers(_within(element, "points"))
    if not numbers:
        raise Refused("it has no points", "draw it anew, or delete it")
    if len(numbers) % 2:
        raise Refused("one of its points has no second number", "draw it anew")
    return (tuple(zip(numbers[::2], numbers[1::2], strict=True)),), (kind == "polygon",)


def _within(element: ElementTree.Element, name: str) -> str:
    text = element.get(name, "")
    if len(text) > MAX_TEXT:
        raise Refused(f"its {name} has more than {MAX_TEXT:,} characters", "draw it with fewer points")
    return text


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
    found = _LENGTH.fullmatch(text) if len(text) <= MAX_LENGTH else None
    if text.strip() == "auto":
        return 0.0
    if found is None:
        raise Refused(
            f"its {name} is {text[:40]!r}, not a plain number", "save the drawing in its own units, as plain SVG"
        )
    return float(found[1])


def _numbers(text: str) -> list[float]:
    """Numbers with white space or commas between them."""
    if _SEPARATORS.sub("", _NUMBERS.sub("", text)):
        raise Refused("its points are not plain numbers", "draw it anew, or save as plain SVG")
    return [float(number) for number in _NUMBERS.findall(text)]


def _path(data: str) -> Rings:
    """Each subpath; only straight segments are let through."""
    if data.count("z") + data.count("Z") > MAX_CLOSINGS:
        raise Refused(f"its path closes more than {MAX_CLOSINGS} times", "draw it with fewer holes")
    if _NOT_OF_PATHS.search(data):
        raise Refused("its path data cannot be read", "draw it anew, or save as plain SVG")
    try:
        return _subpaths(list(PathData(data)))
    except (ValueError, IndexError, TypeError, AttributeError) as error:
        raise Refused("its path data cannot be read", "draw it anew, or save as plain SVG") from error


def _subpaths(segments: Iterable[Any]) -> Rings:
    """Raises, besides: TypeError or AttributeError where a segment lacks a number."""
    rings: list[list[Point]] = []
    closed: list[bool] = []
    for count, segment in enumerate(segments):
        if count > MAX_POINTS:
            raise Refused(f"it has more than {MAX_POINTS:,} points", "draw it with fewer")
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
    kept = [(tuple(ring), shut) for ring, shut in zip(rings, closed, strict=True) if len(ring) > 1]
    if not kept:
        raise Refused("its path encloses nothing", "draw it anew")
    return tuple(ring for ring, _ in kept), tuple(shut for _, shut in kept)

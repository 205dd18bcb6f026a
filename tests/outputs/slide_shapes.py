"""The shapes of a slide read back from its XML and held against the entries of a figure, without drawing either."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import shapely

from explainers.figure.mark_signs import sign_rings
from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Label, Lines
from explainers.figure.strokes import arrow_parts, dashes
from explainers.geometry.rigid_motion import Point
from explainers.geometry.rings import signed_area

__all__ = ["WHOLE_SLIDE", "Stage", "faults_of", "leaves_of"]

A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"


@dataclass(frozen=True)
class Stage:
    """Where the stage lies on a slide, in EMU."""

    unit: float = 762_000.0
    left: float = 0.0
    top: float = 0.0

    def point(self, x: float, y: float) -> Point:
        """A place on the slide as a point of the stage."""
        return (x - self.left) / self.unit, 9.0 - (y - self.top) / self.unit

    @property
    def near(self) -> float:
        """Two pixels at 1080p, as a length on the stage."""
        return 2 / 1920 * 12_192_000 / self.unit


WHOLE_SLIDE = Stage()


def leaves_of(tree: Any) -> list[Any]:
    """Every shape that is no group, in reading order."""
    return list(tree.iter(f"{P}sp"))


def faults_of(tree: Any, entries: Sequence[Entry], title: str, stage: Stage = WHOLE_SLIDE) -> Iterator[str]:
    """What a slide lacks, has too much or has elsewhere than the entries say: a clause each, the quickest first.

    tree : the slide's ``p:spTree``
    """
    shapes = leaves_of(tree)
    kinds = [kind for shape in shapes for kind in [_placeholder(shape)] if kind]
    if kinds != ["title", "sldNum"]:
        yield f"placeholders are {kinds}"
    for shape in shapes:
        if _placeholder(shape) == "title" and _text(shape) != title:
            yield f"the title is {_text(shape)!r}"
    free = [shape for shape in shapes if not _placeholder(shape)]
    seen = [entry for entry in entries if entry.opacity > 0.0]
    names, ids = [_name(shape) for shape in free], [entry.id for entry in seen]
    if sorted(names) != sorted(ids):
        yield f"shapes are {names}, entries {ids}"
    by_name = {_name(shape): shape for shape in free}
    for entry in seen:
        if entry.id in by_name:
            for fault in _faults(by_name[entry.id], entry, stage):
                yield f"{entry.id}: {fault}"


def _faults(shape: Any, entry: Entry, stage: Stage) -> Iterator[str]:
    looks = shape.find(f"{P}spPr")
    if entry.alt and entry.alt.rstrip(".") not in shape.find(f".//{P}cNvPr").get("descr", ""):
        yield f"does not say {entry.alt!r}"
    if isinstance(entry, Label) and entry.sign:
        if shape.find(f".//{P}cNvPr").get("descr") != entry.text:
            yield f"is not called {entry.text!r}"
        entry = _as_area(entry)
    if isinstance(entry, Label):
        yield from _faults_of_words(shape, entry, stage)
        return
    fill = entry.stroke if isinstance(entry, Arrow) else getattr(entry, "fill", None)
    if _colour(looks) != (fill and (fill, round(entry.opacity, 3))):
        yield f"is filled with {_colour(looks)}"
    line = looks.find(f"{A}ln")
    stroke = getattr(entry, "stroke", None)
    if _colour(line) != (stroke and (stroke, round(entry.opacity, 3))):
        yield f"is lined with {_colour(line)}"
    if stroke and abs(int(line.get("w")) / stage.unit - entry.width) > 1e-3:  # type: ignore[union-attr]
        yield f"has a line {int(line.get('w')) / stage.unit:.3f} wide"
    wanted, found = list(_wanted(entry)), list(_contours(shape, stage))
    if len(wanted) != len(found):
        yield f"has {len(found)} contours, not {len(wanted)}"
    for ours, theirs in zip(wanted, found, strict=False):
        off = max(_off(ours, theirs), _off(theirs, ours))
        if off > stage.near:
            yield f"lies {off:.3f} off"


def _faults_of_words(shape: Any, label: Label, stage: Stage) -> Iterator[str]:
    left, top, right, bottom = _box(shape, stage)
    if _text(shape) != label.text:
        yield f"says {_text(shape)!r}"
    run = shape.find(f".//{A}rPr")
    if _colour(run) != (label.colour, round(label.opacity, 3)):
        yield f"is written in {_colour(run)}"
    if abs(int(run.get("sz")) * 127 / stage.unit - label.size) > 2e-4 * 12_192_000 / stage.unit / 16:
        yield f"is {int(run.get('sz')) * 127 / stage.unit:.3f} large"
    if (run.get("b") == "1") != label.bold:
        yield "has another weight"
    anchor = {"start": left, "middle": (left + right) / 2, "end": right}[str(label.align)]
    if math.dist((anchor, (top + bottom) / 2), label.at) > stage.near:
        yield f"stands at ({anchor:.2f}, {(top + bottom) / 2:.2f})"


def _as_area(label: Label) -> Area:
    """The ink of a sign; its name is not said again."""
    rings = sign_rings(label.sign, label.at, label.size)
    return Area(id=label.id, group=label.group, role=label.role, opacity=label.opacity, rings=rings, fill=label.colour)


def _wanted(entry: Entry) -> Iterator[Sequence[Point]]:
    match entry:
        case Area() if entry.rounded:
            xs, ys = zip(*entry.rings[0], strict=True)
            yield [(min(xs), min(ys)), (max(xs), max(ys))]
        case Area():
            # Which way round decides what is clear: outer contours one way, holes the other.
            shapes = [shapely.Polygon(ring) for ring in entry.rings]
            for number, ring in enumerate(entry.rings):
                inside = sum(other.contains(shapes[number]) for other in shapes if other is not shapes[number])
                outer = inside % 2 == 0
                yield ring if (signed_area(ring) > 0.0) == outer else ring[::-1]
            if entry.dash is not None:
                for ring in entry.rings:
                    yield from dashes(ring, entry.dash)
        case Lines():
            yield from entry.segments
        case Arrow():
            yield from arrow_parts(entry)
        case Dots():
            for x, y in entry.centres:
                yield [(x, y), (x + entry.radius, y)]
        case Circle():
            (x, y), r = entry.centre, entry.radius
            yield [(x - r, y - r), (x + r, y + r)]


def _contours(shape: Any, stage: Stage) -> Iterator[list[Point]]:
    left, top, right, bottom = _box(shape, stage)
    if shape.find(f".//{A}prstGeom") is not None:
        yield [(left, bottom), (right, top)]
        return
    off = shape.find(f".//{A}off")
    x0, y0 = int(off.get("x")), int(off.get("y"))
    for path in shape.iter(f"{A}path"):
        contour: list[Point] = []
        for command in path:
            kind = command.tag.removeprefix(A)
            if kind == "moveTo" and contour:
                yield contour
                contour = []
            if kind == "arcTo":  # a disc: its middle, and the point on its right from which both arcs start
                x, y = contour[0]
                radius = int(command.get("wR")) / stage.unit
                contour = [(x - radius, y), (x, y)] if len(contour) == 1 else contour
                continue
            contour += [stage.point(x0 + int(p.get("x")), y0 + int(p.get("y"))) for p in command]
        if contour:
            yield contour


def _off(points: Sequence[Point], others: Sequence[Point]) -> float:
    """How far the farthest of the points is from the nearest of the others."""
    return max(min(math.dist(point, other) for other in others) for point in points)


def _box(shape: Any, stage: Stage) -> tuple[float, float, float, float]:
    """Left, top, right, bottom on the stage."""
    off, ext = (shape.find(f"{P}spPr/{A}xfrm/{A}{kind}") for kind in ("off", "ext"))
    left, top = stage.point(int(off.get("x")), int(off.get("y")))
    right, bottom = stage.point(int(off.get("x")) + int(ext.get("cx")), int(off.get("y")) + int(ext.get("cy")))
    return left, top, right, bottom


def _colour(owner: Any) -> tuple[str, float] | None:
    """The colour with which something is filled, and its opacity."""
    solid = owner.find(f"{A}solidFill/{A}srgbClr") if owner is not None else None
    if solid is None:
        return None
    alpha = solid.find(f"{A}alpha")
    return "#" + solid.get("val"), 1.0 if alpha is None else round(int(alpha.get("val")) / 100_000, 3)


def _name(shape: Any) -> str:
    return str(shape.find(f".//{P}cNvPr").get("name"))


def _text(shape: Any) -> str:
    return "".join(run.text or "" for run in shape.iter(f"{A}t"))


def _placeholder(shape: Any) -> str:
    found = shape.find(f".//{P}ph")
    return "" if found is None else str(found.get("type"))

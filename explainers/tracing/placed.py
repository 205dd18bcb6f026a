"""The shapes of a sketch set on the grid where they are near it, named, the base first and its lower left at (0, 0)."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..document.fields import MAX_CORNERS, MAX_NAME
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import point_in_polygon, signed_area
from ..item.outline_reader import outline_yaml
from ..item.svg_outlines import check_readable
from ..item.walk_reader import rounded
from .plane import Plane
from .proposal import OpenQuestion, TracedOutline
from .sketch import DrawnShape, DrawnWords, Passed, Refused, Sketch

__all__ = ["Placed", "placed"]

# Of the grid's spacing: a corner nearer than that was meant to lie on it. A measured one errs more than a drawn one.
_NEAR_DRAWN = 0.2
_NEAR_MEASURED = 0.3
_MOST = 1e9  # item units
_OFF_GRID = 0.75  # times as sure is a measured outline that has a corner off the grid
_DIGITS = 3  # of a corner that is left where it lies
_WORDS = re.compile(r"[a-z]+")
# What programs call a shape until somebody gives it a name.
_MADE_NAMES = frozenset(
    _WORDS.findall(
        "path rect polygon polyline g shape svg layer use freeform rectangle triangle right isosceles textbox group "
        "parallelogram trapezoid diamond hexagon octagon pentagon chevron cross plus corner form freihandform "
        "rechteck dreieck gruppe"
    )
)
_NOT_OF_NAMES = re.compile(r"[^a-z0-9]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Outlines that can be read, and words in the same coordinates."""

    outlines: tuple[TracedOutline, ...]  # the base first
    words: tuple[DrawnWords, ...]  # those that named an outline left out
    passed: tuple[Passed, ...]
    open: tuple[OpenQuestion, ...]
    plane: Plane


def placed(sketch: Sketch, *, grid: float, base: str | int = "base") -> Placed:
    """The outlines of a sketch, its base among them.

    grid   : item units between the places that corners go to where they are near
    base   : what the base is called on the source, or its number; where nothing is, the largest is the base
    Raises : Refused where no outline is left
    """
    passed = list(sketch.passed)
    shapes = _named_base_first(sorted(sketch.shapes, key=lambda shape: -_area(shape)), base)
    # A drawing's squares are counted from its base, for who draws on none; those of a picture are known.
    anchor = _lower_left(shapes[0].rings[0]) if shapes and sketch.exact else (0.0, 0.0)
    near = grid * (_NEAR_DRAWN if sketch.exact else _NEAR_MEASURED)
    outlines = list[TracedOutline]()
    for shape in shapes:
        try:
            outlines.append(_on_grid(shape, anchor, grid, near, measured=not sketch.exact))
        except Refused as stop:
            at = sketch.plane.on_source(shape.rings[0][0])
            passed.append(Passed(name=shape.name, message=stop.message, fix=stop.fix, on_source=at))
    if not outlines:
        raise Refused(*_nothing(passed))
    shift = (0.0, 0.0)
    if not sketch.exact:
        left, low = _lower_left(outlines[0].corners)
        shift = (round(left / grid) * grid, round(low / grid) * grid)
    corner = (anchor[0] + shift[0], anchor[1] + shift[1])
    plane = sketch.plane.from_corner(corner)
    outlines = [_shifted(outline, shift, plane) for outline in outlines]
    words = [replace(each, at=(each.at[0] - corner[0], each.at[1] - corner[1])) for each in sketch.words]
    outlines, words, doubled = _named(_once(outlines, passed), words)
    return Placed(outlines=tuple(outlines), words=tuple(words), passed=tuple(passed), open=tuple(doubled), plane=plane)


def _nothing(passed: Sequence[Passed]) -> tuple[str, str]:
    if passed:
        first = passed[0]
        more = f" ({len(passed) - 1} more beside it)" if len(passed) > 1 else ""
        return f"nothing on it can be an outline{more}: {first.name}: {first.message}", first.fix
    return "no shape is drawn on it", "draw each outline as one closed shape with straight sides"


def _area(shape: DrawnShape) -> float:
    return abs(signed_area(shape.rings[0])) if len(shape.rings[0]) > 2 else 0.0


def _named_base_first(shapes: list[DrawnShape], base: str | int) -> list[DrawnShape]:
    if isinstance(base, int):
        first = next((shape for shape in shapes if shape.number == base), None)
    else:
        wanted = base.strip().lower()
        first = next((shape for shape in shapes if wanted in (shape.called.strip().lower(), shape.name.lower())), None)
    return [first, *(shape for shape in shapes if shape is not first)] if first else shapes


def _lower_left(ring: Ring) -> Point:
    return min(x for x, _ in ring), min(y for _, y in ring)


def _on_grid(shape: DrawnShape, anchor: Point, grid: float, near: float, *, measured: bool) -> TracedOutline:
    moved, off = 0.0, list[Point]()
    rings = list[Ring]()
    for ring in shape.rings:
        corners = list[Point]()
        for point in ring:
            at = (point[0] - anchor[0], point[1] - anchor[1])
            if not all(map(math.isfinite, at)) or max(map(abs, at)) > _MOST:
                raise Refused("one of its numbers is too large", "draw it smaller, or say how long 1 is by --unit")
            goal = (round(at[0] / grid) * grid, round(at[1] / grid) * grid)
            if math.dist(at, goal) <= near:
                moved = max(moved, math.dist(at, goal))
            else:
                goal = (round(at[0], _DIGITS), round(at[1], _DIGITS))
                off.append(rounded(goal))
            if not corners or rounded(goal) != corners[-1]:
                corners.append(rounded(goal))
        if len(corners) > 1 and corners[0] == corners[-1]:
            del corners[-1]
        if len(corners) < 3:
            raise Refused(
                f"on a grid of {grid:g} it has fewer than 3 corners", "choose a finer --grid, or the right --unit"
            )
        if len(corners) > MAX_CORNERS:
            raise Refused(f"it has more than {MAX_CORNERS} corners", "draw it with straight sides")
        rings.append(_upright(tuple(corners)))
    check_readable(outline_yaml(rings[0], rings[1:], indent=""))
    sure, doubts = shape.sure, list(shape.doubts)
    if measured and off:
        sure *= _OFF_GRID
        count = "a corner lies" if len(off) == 1 else f"{len(off)} corners lie"
        doubts.append(f"{count} near no point of the grid")
    return TracedOutline(
        name=shape.called,
        source=shape.name,
        corners=rings[0],
        holes=tuple(rings[1:]),
        moved=moved,
        off_grid=tuple(off),
        sure=sure,
        on_source=(),
        doubts=tuple(doubts),
        number=shape.number,
        hole_numbers=shape.hole_numbers,
    )


def _upright(ring: Ring) -> Ring:
    """Anticlockwise from its lowest corner, of two the one on the left."""
    forward = ring if signed_area(ring) > 0 else ring[::-1]
    start = min(range(len(forward)), key=lambda index: (forward[index][1], forward[index][0]))
    return (*forward[start:], *forward[:start])


def _shifted(outline: TracedOutline, shift: Point, plane: Plane) -> TracedOutline:
    """The outline counted from a corner, with its place on the source."""

    def by(ring: Ring) -> Ring:
        return tuple(rounded((x - shift[0], y - shift[1])) for x, y in ring)

    corners, holes = by(outline.corners), tuple(map(by, outline.holes))
    places = tuple(map(plane.ring_on_source, (corners, *holes)))
    return replace(outline, corners=corners, holes=holes, off_grid=by(outline.off_grid), on_source=places)


def _once(outlines: list[TracedOutline], passed: list[Passed]) -> list[TracedOutline]:
    """A shape that lies exactly on another is left out, and said: a fill and its edge are often drawn apart."""
    kept = list[TracedOutline]()
    for outline in outlines:
        twin = next((each for each in kept if set(each.corners) == set(outline.corners)), None)
        if twin is None:
            kept.append(outline)
        else:
            message, fix = f"it lies exactly on {twin.source}", "delete one of the two"
            passed.append(Passed(name=outline.source, message=message, fix=fix, on_source=outline.on_source[0][0]))
    return kept


def _named(
    outlines: list[TracedOutline], words: list[DrawnWords]
) -> tuple[list[TracedOutline], list[DrawnWords], list[OpenQuestion]]:
    """Each outline with a name that files take: its maker's, else a word inside it, else its number."""
    left, doubts = list(words), list[OpenQuestion]()
    used, named = set[str](), list[TracedOutline]()
    for index, outline in enumerate(outlines):
        own = "" if _MADE_NAMES.issuperset(_WORDS.findall(outline.name.lower())) else _name(outline.name)
        inside = [each for each in left if len(each.text) > 3 and _innermost(each.at, outlines) is outline]
        if inside:
            own = own or _name(inside[0].text)
            left = [each for each in left if each is not inside[0]]
        name = "base" if index == 0 else own or f"piece-{index}"
        if name in used or (index and name == "base"):
            again = f"{name[: MAX_NAME - 4]}-{index}"
            message = f"two outlines are called {name}; this one is written as {again}"
            place = outline.on_source[0][0]
            doubts.append(OpenQuestion(about=again, message=message, fix="give it another name", on_source=place))
            name = again
        used.add(name)
        named.append(replace(outline, name=name))
    return named, left, doubts


def _name(text: str) -> str:
    plain = unicodedata.normalize("NFKD", text.lower()).encode("ascii", "ignore").decode()
    return _NOT_OF_NAMES.sub("-", plain).strip("-")[:MAX_NAME].strip("-")


def _innermost(point: Point, outlines: Sequence[TracedOutline]) -> TracedOutline | None:
    around = [outline for outline in outlines if point_in_polygon(point, outline.outline.rings)]
    return min(around, key=lambda outline: outline.outline.area, default=None)

"""A drawn shape as the corners of an outline: y turned up, scaled, its lower left at (0, 0), set on a grid."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from ..document.composing import compose_text
from ..document.fields import Faults, Table
from ..document.nodes import MapNode
from ..errors import Fault, ItemError
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import signed_area
from .outline_reader import outline_of, outline_yaml
from .svg_shapes import Drawing, Refused, SvgShape, shapes_of
from .walk_reader import rounded

__all__ = ["DrawnOutline", "check_readable", "outlines_in"]


@dataclass(frozen=True, slots=True)
class DrawnOutline:
    """One shape of a drawing, ready to paste."""

    name: str
    kind: str
    corners: Ring  # item units, on the grid
    holes: tuple[Ring, ...]
    moved: float  # how far the grid moved a corner at most, item units

    @property
    def lines(self) -> list[str]:
        """Its keys as they stand in a file."""
        return outline_yaml(self.corners, self.holes, indent="")


def outlines_in(
    path: Path, *, grid: float, unit: float, name: str | None = None, keep_positions: bool = False
) -> tuple[tuple[DrawnOutline, ...], tuple[Fault, ...]]:
    """The outlines of a drawing in its order, with what is wrong in the other shapes.

    grid : item units between the places that a corner may take
    unit : how long one item unit is in the drawing's units
    name : the id or label of one shape; None: all
    keep_positions : leave the shapes where they lie to one another, the lower left of all of them at (0, 0)
    Raises: ItemError where the file cannot be read, has no shape, or none of that name
    """
    try:
        drawing = shapes_of(path)
    except Refused as stop:
        raise ItemError([Fault(file=str(path), line=stop.line, field="", message=stop.message, fix=stop.fix)]) from stop
    chosen = _chosen(path, drawing, name)
    corner = _lower_left(drawing.shapes, unit) if keep_positions else None
    outlines: list[DrawnOutline] = []
    faults = [fault for _, fault in chosen.faults]
    for shape in chosen.shapes:
        try:
            outlines.append(_outline(shape, grid, unit, corner))
        except Refused as stop:
            faults.append(Fault(file=str(path), line=shape.line, field=shape.name, message=stop.message, fix=stop.fix))
    return tuple(outlines), tuple(sorted(faults, key=lambda fault: fault.line))


def _chosen(path: Path, drawing: Drawing, name: str | None) -> Drawing:
    if not drawing.shapes and not drawing.faults:
        message = "no shape is drawn in it"
        fix = "draw the outline as a polygon, a rectangle or a path with straight sides"
        raise ItemError([Fault(file=str(path), field="", message=message, fix=fix)])
    if name is None:
        return drawing
    found = Drawing(
        tuple(shape for shape in drawing.shapes if name in shape.names),
        tuple(entry for entry in drawing.faults if name in entry[0]),
    )
    if found.shapes or found.faults:
        return found
    known = [shape.name for shape in drawing.shapes] + [names[0] for names, _ in drawing.faults]
    shown = ", ".join(known[:12]) + (" ..." if len(known) > 12 else "")
    message = f"there is no shape called {name[:40]}"
    raise ItemError([Fault(file=str(path), field="", message=message, fix=f"choose one of {shown}")])


def _lower_left(shapes: Iterable[SvgShape], unit: float) -> Point | None:
    points = [(x / unit, -y / unit) for shape in shapes for ring in shape.rings for x, y in ring]
    return (min(x for x, _ in points), min(y for _, y in points)) if points else None


def _outline(shape: SvgShape, grid: float, unit: float, corner: Point | None) -> DrawnOutline:
    """corner : of the drawing that becomes (0, 0); None for the lower left of the shape"""
    turned_up = [tuple((x / unit, -y / unit) for x, y in ring) for ring in shape.rings]
    left, low = corner or _lower_left([shape], unit) or (0.0, 0.0)
    moved = 0.0
    rings: list[Ring] = []
    for ring, closed in zip(turned_up, shape.closed, strict=True):
        placed = [(x - left, y - low) for x, y in ring]
        if len(set(placed)) < 3:
            raise Refused(
                "it has fewer than 3 points that differ, which enclose nothing",
                "draw the outline as one closed shape, or delete it; a scale of 0 makes one point of all",
            )
        snapped = [_on_grid(point, grid) for point in placed]
        moved = max([moved, *(math.dist(*pair) for pair in zip(placed, snapped, strict=True))])
        if not closed and snapped[0] != snapped[-1]:
            raise Refused("it is not closed: its last point is not its first", "close the shape, or join its ends")
        corners = tuple(here for before, here in zip([snapped[-1], *snapped], snapped, strict=False) if here != before)
        if len(corners) < 3:
            raise Refused(
                f"on a grid of {grid:g} it has fewer than 3 corners",
                "choose a finer --grid, or the right --unit: how long 1 is in the drawing",
            )
        rings.append(corners)
    exterior = max(rings, key=lambda ring: abs(signed_area(ring)))
    holes = tuple(ring for ring in rings if ring is not exterior)
    found = DrawnOutline(shape.name, shape.kind, _upright(exterior), tuple(map(_upright, holes)), moved)
    check_readable(found.lines)
    return found


def _on_grid(point: Point, grid: float) -> Point:
    try:
        return rounded((round(point[0] / grid) * grid, round(point[1] / grid) * grid))
    except OverflowError as error:
        raise Refused("one of its numbers is too large", "draw it smaller, or give a larger --unit") from error


def _upright(ring: Ring) -> Ring:
    """Anticlockwise from its lowest corner, of two the one on the left: as a teacher would list it."""
    forward = ring if signed_area(ring) > 0 else ring[::-1]
    start = min(range(len(forward)), key=lambda index: (forward[index][1], forward[index][0]))
    return (*forward[start:], *forward[:start])


def check_readable(lines: Iterable[str]) -> None:
    """Read the lines of an outline as a file would be.

    Raises: Refused with the first thing that is wrong
    """
    root = compose_text("\n".join(lines), "").root
    faults = Faults()
    assert isinstance(root, MapNode)
    outline_of(Table(root, "", faults, owner="the shape"))
    if faults.found:
        fix = "draw it so that its sides do not meet, or choose a finer --grid"
        raise Refused(faults.found[0].message, fix)

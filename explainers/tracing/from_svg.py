"""The sketch of an SVG drawing."""

from __future__ import annotations

from ..geometry.rigid_motion import Ring
from ..geometry.rings import signed_area
from ..item.svg_shapes import SvgShape, shapes_in
from .plane import Plane
from .sketch import MOST_SHAPES, DrawnShape, DrawnWords, Passed, Refused, Sketch, too_many

__all__ = ["sketch_of_svg"]


def sketch_of_svg(data: bytes, *, unit: float = 1.0) -> Sketch:
    """Every straight shape in its place, and the words.

    unit   : how long one item unit is in the drawing's units
    Raises : Refused where it cannot be read, or nothing on it can be taken
    """
    drawing = shapes_in(data, "")
    if len(drawing.shapes) > MOST_SHAPES:
        raise too_many(len(drawing.shapes))
    shapes = list[DrawnShape]()
    passed = [
        Passed(name=names[0], message=fault.message, fix=fault.fix, line=fault.line) for names, fault in drawing.faults
    ]
    for shape in drawing.shapes:
        try:
            shapes.append(_shape(shape, unit))
        except Refused as stop:
            passed.append(Passed(name=shape.name, message=stop.message, fix=stop.fix, line=shape.line))
    words = tuple(DrawnWords(text=each.text, at=(each.at[0] / unit, -each.at[1] / unit)) for each in drawing.texts)
    corners = [point for shape in drawing.shapes for ring in shape.rings for point in ring]
    size = (max((x for x, _ in corners), default=0.0), max((y for _, y in corners), default=0.0))
    return Sketch(shapes=tuple(shapes), words=words, passed=tuple(passed), size=size, plane=Plane.flat(unit))


def _shape(shape: SvgShape, unit: float) -> DrawnShape:
    rings = list[Ring]()
    for ring, closed in zip(shape.rings, shape.closed, strict=True):
        points = tuple(here for before, here in zip((None, *ring), ring, strict=False) if here != before)
        if not closed and points[0] != points[-1]:
            raise Refused("it is not closed: its last point is not its first", "close the shape, or join its ends")
        points = points[:-1] if len(points) > 1 and points[0] == points[-1] else points
        if len(set(points)) < 3:
            raise Refused("it has fewer than 3 points that differ, which enclose nothing", "draw it anew, or delete it")
        rings.append(points)
    rings.sort(key=lambda ring: -abs(signed_area(ring)))
    placed = tuple(tuple((x / unit, -y / unit) for x, y in ring) for ring in rings)
    return DrawnShape(name=shape.name, called=shape.called, rings=placed)

"""Checks a figure for what makes it hard to read: labels that overlap something, and things drawn too small.

Only what is seen counts: a stroke that a later filled area covers is passed over, and so is what has faded by half.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import shapely

from ..geometry.rings import extent, shortest_side, sides
from ..typeface.faces import Bounds, label_box, label_disc_radius
from .model import (
    CAPTION_TOP,
    PX_PER_UNIT,
    STAGE_HEIGHT,
    STAGE_WIDTH,
    Area,
    Arrow,
    Circle,
    Dots,
    Entry,
    Figure,
    Label,
    Lines,
    Role,
    is_material,
)
from .strokes import arrow_parts
from .theme_checks import LEAST_TYPE

__all__ = ["LEAST_SIDE", "overlaps", "too_small"]

LEAST_SIDE = 24 / PX_PER_UNIT  # no side of cloth is drawn shorter, in stage units

_SEEN = 0.5  # an entry less opaque than this is on its way in or out
_OPAQUE = 0.999
_SLACK = 1e-6


def overlaps(figure: Figure) -> list[str]:
    """What is wrong with the places of the labels, one sentence a fault; [] where nothing is.

    A label may not leave the stage, reach into the strip left for captions, touch another label's box, or be crossed
    by a stroke, a dot or an arrow. Boxes are those of ``typeface.faces.label_box``; a sign has a disc.
    """
    seen = [(order, entry) for order, entry in enumerate(figure.entries) if entry.opacity >= _SEEN]
    covers = [(order, entry, _bounds(entry)) for order, entry in seen if _covers(entry)]
    boxes = [
        (order, label, label_box(label))
        for order, label in seen
        if isinstance(label, Label) and not _hidden(_room(label), order, covers)
    ]
    strokes = [(order, entry, _bounds(entry)) for order, entry in seen if not isinstance(entry, Label)]
    faults = []
    for index, (_, label, box) in enumerate(boxes):
        name = f"label {label.id!r} ({label.text!r})"
        if box[0] < -_SLACK or box[2] > STAGE_WIDTH + _SLACK or box[3] > STAGE_HEIGHT + _SLACK or box[1] < -_SLACK:
            faults.append(f"{name} leaves the stage")
        elif box[1] < CAPTION_TOP - _SLACK:
            faults.append(f"{name} reaches into the strip for captions")
        for _, other, other_box in boxes[index + 1 :]:
            if _meet(box, other_box) and _room(label).intersection(_room(other)).area > _SLACK:
                faults.append(f"{name} overlaps label {other.id!r} ({other.text!r})")
        for order, entry, bounds in strokes:
            if bounds is not None and _meet(box, bounds) and _crosses(entry, order, label, covers):
                faults.append(f"{name} is crossed by {entry.id!r}")
    return faults


def too_small(figure: Figure) -> list[str]:
    """What is drawn too small at 1080p, one sentence a fault: type under 32 px, sides of cloth under 24 px."""
    faults = []
    for entry in figure.entries:
        if entry.opacity < _SEEN:
            continue
        if isinstance(entry, Label) and entry.size < LEAST_TYPE - _SLACK:
            faults.append(f"label {entry.id!r} ({entry.text!r}) is set at {entry.size * PX_PER_UNIT:.1f} px")
        if isinstance(entry, Area) and is_material(entry.role):
            shortest = shortest_side(entry.rings) if entry.rings else 1.0
            if shortest < LEAST_SIDE - _SLACK:
                faults.append(f"{entry.id!r} has a side of {shortest * PX_PER_UNIT:.1f} px")
    return faults


def _room(label: Label) -> Any:
    """What must be free for a label: the box of its text, the disc of its sign."""
    if label.sign:
        return shapely.Point(label.at).buffer(label_disc_radius(label))
    return shapely.box(*label_box(label))


def _crosses(entry: Entry, order: int, label: Label, covers: list[tuple[int, Entry, Bounds | None]]) -> bool:
    """Whether any of the entry that can be seen lies in the label's room.

    The faint broken line of how something lay before may run under a letter, which is read all the same.
    """
    if entry.role == Role.TURN and entry.opacity < _OPAQUE:
        return False
    inked = shapely.union_all(list(_inked(entry, label_box(label)))).intersection(_room(label))
    return not inked.is_empty and not _hidden(inked, order, covers)


def _hidden(shape: Any, order: int, covers: list[tuple[int, Entry, Bounds | None]]) -> bool:
    left = shape
    for later, cover, bounds in covers:
        if later > order and bounds is not None and _meet(left.bounds, bounds):
            left = left.difference(_filled(cover))
            if left.is_empty or left.area < _SLACK:
                return True
    return bool(left.is_empty or left.area < _SLACK)


def _covers(entry: Entry) -> bool:
    return isinstance(entry, Area | Circle) and entry.fill is not None and entry.opacity >= _OPAQUE


def _filled(entry: Entry) -> Any:
    if isinstance(entry, Circle):
        return shapely.Point(entry.centre).buffer(entry.radius, quad_segs=24)
    assert isinstance(entry, Area)
    area = shapely.Polygon()
    for ring in entry.rings:
        area = area.symmetric_difference(shapely.Polygon(ring))
    return area


def _inked(entry: Entry, box: Bounds) -> Iterator[Any]:
    """The strokes and discs of an entry that come near the box, as areas."""
    match entry:
        case Area() if entry.stroke is not None:
            for ring in entry.rings:
                for side in sides(ring):
                    yield from _stroke(side, entry.width, box)
        case Lines():
            for segment in entry.segments:
                yield from _stroke(segment, entry.width, box)
        case Dots():
            for centre in entry.centres:
                if _meet((*centre, *centre), _grown(box, entry.radius)):
                    yield shapely.Point(centre).buffer(entry.radius)
        case Circle() if entry.stroke is not None:
            yield shapely.Point(entry.centre).buffer(entry.radius, quad_segs=24).exterior.buffer(entry.width / 2)
        case Arrow():
            path, head = arrow_parts(entry)
            for segment in pairwise(path):
                yield from _stroke(segment, entry.width, box)
            yield shapely.Polygon(head)


def _stroke(segment: tuple[Any, Any], width: float, box: Bounds) -> Iterator[Any]:
    (ax, ay), (bx, by) = segment
    if _meet((min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)), _grown(box, width)):
        yield shapely.LineString(segment).buffer(width / 2)


def _bounds(entry: Entry) -> Bounds | None:
    """A box that holds the entry, its strokes included; None for one that shows nothing."""
    match entry:
        case Area():
            points, reach = [point for ring in entry.rings for point in ring], entry.width / 2
        case Lines():
            points, reach = [point for segment in entry.segments for point in segment], entry.width / 2
        case Dots():
            points, reach = list(entry.centres), entry.radius
        case Circle():
            points, reach = [entry.centre], entry.radius + entry.width / 2
        case Arrow():
            points, reach = list(entry.path), max(entry.width, entry.head)
        case _:
            return None
    if not points:
        return None
    return _grown(extent(points), reach)


def _grown(box: Bounds, by: float) -> Bounds:
    return (box[0] - by, box[1] - by, box[2] + by, box[3] + by)


def _meet(one: Bounds, other: Bounds) -> bool:
    """Whether two boxes, either of which may be flat, have more in common than a rim."""
    return (
        one[0] < other[2] - _SLACK
        and other[0] < one[2] - _SLACK
        and one[1] < other[3] - _SLACK
        and other[1] < one[3] - _SLACK
    )

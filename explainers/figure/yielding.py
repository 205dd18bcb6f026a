"""Labels that make way while something passes over them."""

from __future__ import annotations

from dataclasses import replace

import shapely
from shapely.geometry import Point as PlanePoint
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from ..typeface.faces import label_disc_radius
from .model import Area, Entry, Figure, Label
from .motion import Glide, Motion

__all__ = ["making_way"]

_LOOKS = 12  # how many moments of a motion are looked at


def making_way(motion: Motion) -> Motion:
    """The motion with the labels named that would be passed over, or that would pass over something themselves."""
    gliding = {move.group for move in motion.moves if isinstance(move, Glide)}
    if not gliding:
        return motion
    lasting = {entry.id for entry in motion.end.entries}
    yields: set[str] = set()
    for look in range(1, _LOOKS):
        figure = motion.figure_at(look / _LOOKS)
        cloth = _areas(figure, gliding)
        others = _sides(figure, gliding)
        for entry in figure.entries:
            if not isinstance(entry, Label) or entry.id not in lasting or entry.id in yields:
                continue
            disc = PlanePoint(entry.at).buffer(label_disc_radius(entry))
            if entry.group in gliding:
                own = _areas(figure, {entry.group})
                hidden = own.contains(disc)  # what lies under its own cloth cannot be seen through it
                if not hidden and (others.intersects(disc) or _other_labels(figure, entry).intersects(disc)):
                    yields.add(entry.id)
            elif cloth.intersects(disc):
                yields.add(entry.id)
    return replace(motion, yields=tuple(sorted(yields)))


def _areas(figure: Figure, groups: set[str]) -> BaseGeometry:
    return unary_union([_shape(e) for e in figure.entries if isinstance(e, Area) and e.group in groups])


def _sides(figure: Figure, without: set[str]) -> BaseGeometry:
    return unary_union(
        [_shape(e).boundary for e in figure.entries if isinstance(e, Area) and e.stroke and e.group not in without]
    )


def _other_labels(figure: Figure, label: Label) -> BaseGeometry:
    others = [e for e in figure.entries if isinstance(e, Label) and e.id != label.id]
    return unary_union([PlanePoint(e.at).buffer(label_disc_radius(e)) for e in others])


def _shape(entry: Entry) -> BaseGeometry:
    assert isinstance(entry, Area)
    shape: BaseGeometry = Polygon()
    for ring in entry.rings:  # even-odd
        shape = shapely.symmetric_difference(shape, shapely.make_valid(Polygon(ring)))
    return shape

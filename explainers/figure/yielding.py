"""Labels that make way while something passes over them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..geometry.locate import distance_to_side
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import point_in_polygon, sides
from ..typeface.faces import label_disc_radius
from .model import Area, Dots, Figure, Label, Lines, Role
from .motion import Glide, Motion

__all__ = ["with_yielding_labels"]

_LOOKS = 12  # how many moments of a motion are looked at
_CLEAR = 0.03  # about half of the widest line that may pass


def with_yielding_labels(motion: Motion) -> Motion:
    """The motion with the labels named that would be passed over, or that would pass over something themselves."""
    gliding = {move.group for move in motion.moves if isinstance(move, Glide)}
    if not gliding:
        return motion
    lasting = {entry.id for entry in motion.end.entries}
    radii = {
        entry.id: label_disc_radius(entry) + _CLEAR
        for entry in motion.start.entries
        if isinstance(entry, Label) and entry.id in lasting
    }
    if not radii:
        return motion
    yields: set[str] = set()
    for look in range(1, _LOOKS):
        figure = motion.figure_at(look / _LOOKS)
        for entry in figure.entries:
            if (
                isinstance(entry, Label)
                and entry.id in radii
                and entry.id not in yields
                and _is_crossed(entry, figure, gliding, radii)
            ):
                yields.add(entry.id)
    return replace(motion, yields=tuple(sorted(yields)))


def _is_crossed(label: Label, figure: Figure, gliding: set[str], radii: dict[str, float]) -> bool:
    """Whether at this moment anything that can be seen runs through the disc of a label."""
    at, radius = label.at, radii[label.id]
    areas = [entry for entry in figure.entries if isinstance(entry, Area)]
    glides = label.group in gliding
    if not glides and any(_touches(area.rings, at, radius) for area in areas if area.group in gliding):
        return True
    for entry in figure.entries:
        if not (glides or entry.group in gliding):
            continue
        if isinstance(entry, Lines) and entry.role == Role.MARK:
            reach = radius + entry.width / 2
            if any(distance_to_side(at, pair) < reach for pair in entry.segments):
                return True
        if isinstance(entry, Dots) and entry.role == Role.MARK and _dotted(entry, at, radius):
            return True
        if isinstance(entry, Label) and entry.id != label.id:
            apart = math.dist(at, entry.at)
            if apart < radius + radii.get(entry.id, 0.0):
                return True
    if not glides:
        return False
    own = [area for area in areas if area.group == label.group]
    if any(point_in_polygon(at, area.rings) and not _nears(area.rings, at, radius) for area in own):
        return False  # what lies under its own cloth cannot be seen through it
    return any(_nears(area.rings, at, radius) for area in areas if area.stroke)


def _dotted(dots: Dots, at: Point, radius: float) -> bool:
    return any(math.dist(at, centre) < radius + dots.radius for centre in dots.centres)


def _touches(rings: Sequence[Ring], at: Point, radius: float) -> bool:
    return point_in_polygon(at, rings) or _nears(rings, at, radius)


def _nears(rings: Sequence[Ring], at: Point, radius: float) -> bool:
    return any(distance_to_side(at, side) < radius for ring in rings for side in sides(ring))

"""Labels that make way while something passes over them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..geometry.locate import distance_to_side
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import point_in_polygon, sides
from ..typeface.faces import label_box, label_disc_radius
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
    discs = {
        entry.id: _discs(entry) for entry in motion.start.entries if isinstance(entry, Label) and entry.id in lasting
    }
    if not discs:
        return motion
    yields: set[str] = set()
    for look in range(1, _LOOKS):
        figure = motion.figure_at(look / _LOOKS)
        for entry in figure.entries:
            if (
                isinstance(entry, Label)
                and entry.id in discs
                and entry.id not in yields
                and any(_is_crossed(entry, disc, figure, gliding, discs) for disc in discs[entry.id])
            ):
                yields.add(entry.id)
    return replace(motion, yields=tuple(sorted(yields)))


@dataclass(frozen=True, slots=True)
class _Disc:
    """A part of a label: how far it is from the place of the label, and how large."""

    aside: float
    radius: float


def _discs(label: Label) -> tuple[_Disc, ...]:
    """The discs that a label takes up: one for a letter, a row of them for words, since text is always upright."""
    (x, y), (left, bottom, right, top) = label.at, label_box(label)
    width, height = right - left, 2.0 * max(y - bottom, top - y)
    if width <= 2.0 * height:
        return (_Disc(0.0, label_disc_radius(label) + _CLEAR),)
    count = math.ceil(width / height)
    step = width / count
    radius = math.hypot(step, height) / 2 + _CLEAR
    return tuple(_Disc(left - x + (number + 0.5) * step, radius) for number in range(count))


def _is_crossed(
    label: Label, disc: _Disc, figure: Figure, gliding: set[str], discs: dict[str, tuple[_Disc, ...]]
) -> bool:
    """Whether at this moment anything that can be seen runs through a disc of a label."""
    at, radius = (label.at[0] + disc.aside, label.at[1]), disc.radius
    areas = [entry for entry in figure.entries if isinstance(entry, Area)]
    glides = label.group in gliding
    if not glides and any(_touches(area.rings, at, radius) for area in areas if area.group in gliding):
        return True
    for entry in figure.entries:
        if not (glides or entry.group in gliding):
            continue
        clear = 2.0 * _CLEAR if entry.group == label.group else 0.0  # what travels as one was given room once
        if isinstance(entry, Lines) and entry.role == Role.MARK:
            reach = radius - clear + entry.width / 2
            if any(distance_to_side(at, pair) < reach for pair in entry.segments):
                return True
        if isinstance(entry, Dots) and entry.role == Role.MARK and _dotted(entry, at, radius):
            return True
        if isinstance(entry, Label) and entry.id != label.id:
            others = discs.get(entry.id, (_Disc(0.0, 0.0),))
            if any(
                math.dist(at, (entry.at[0] + other.aside, entry.at[1])) < radius + other.radius - clear
                for other in others
            ):
                return True
    if not glides:
        return False
    own = [area for area in areas if area.group == label.group]
    if any(point_in_polygon(at, area.rings) and not _nears(area.rings, at, radius) for area in own):
        return False  # what lies under its own cloth cannot be seen through it
    # A thin line that only shows how something lay may run under a letter, which is read all the same.
    return any(_nears(area.rings, at, radius) for area in areas if area.stroke and area.role != Role.TURN)


def _dotted(dots: Dots, at: Point, radius: float) -> bool:
    return any(math.dist(at, centre) < radius + dots.radius for centre in dots.centres)


def _touches(rings: Sequence[Ring], at: Point, radius: float) -> bool:
    return point_in_polygon(at, rings) or _nears(rings, at, radius)


def _nears(rings: Sequence[Ring], at: Point, radius: float) -> bool:
    return any(distance_to_side(at, side) < radius for ring in rings for side in sides(ring))

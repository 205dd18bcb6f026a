"""The rectangle that entries take up on the stage."""

from __future__ import annotations

from collections.abc import Iterable

from ..geometry.rigid_motion import Point
from ..typeface.faces import label_disc_radius
from .layout import Box, extent_of
from .model import Area, Arrow, Circle, Dots, Entry, Label, Lines

__all__ = ["extent_of_entries"]


def extent_of_entries(entries: Iterable[Entry]) -> Box:
    """The rectangle that holds what is drawn; a label counts as the disc that holds it at every turn."""
    points: list[Point] = []
    for entry in entries:
        match entry:
            case Area():
                points += [point for ring in entry.rings for point in ring]
            case Lines():
                points += [point for pair in entry.segments for point in pair]
            case Arrow():
                points += entry.path
            case Dots():
                points += entry.centres
            case Label():
                points += _corners(entry.at, label_disc_radius(entry))
            case Circle():
                points += _corners(entry.centre, entry.radius)
    return extent_of(points)


def _corners(centre: Point, radius: float) -> list[Point]:
    x, y = centre
    return [(x - radius, y - radius), (x + radius, y + radius)]

"""Where things go on the stage: boxes, what entries take up, the scale at which outlines fit.

One layout serves clip, slide and still. A question sheet has the base and the pieces above and the options in a row
below; the lesson itself has a work table on the left five eighths and a tray on the right three eighths.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from ..geometry.rigid_motion import Point, Ring, Similarity
from ..geometry.rings import extent
from ..typeface.faces import label_disc_radius
from .model import CAPTION_TOP, STAGE_WIDTH, Area, Arrow, Circle, Dots, Entry, Label, Lines

__all__ = [
    "HEADING_Y",
    "MARGIN",
    "NARROW_TABLE",
    "PANEL_FOOT",
    "PANEL_TOP",
    "PROGRESS_Y",
    "TABLE",
    "TRAY",
    "WHOLE",
    "WIDE_TRAY",
    "Box",
    "extent_of",
    "extent_of_entries",
    "fitting_scale",
    "view_into",
]

MARGIN = 0.4  # from the edge of the stage, and between panels
PANEL_TOP = 7.78
PANEL_FOOT = CAPTION_TOP + 0.15
HEADING_Y = 8.24  # the middle of the heading's capital letters
PROGRESS_Y = 8.78


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle on the stage."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    @property
    def middle(self) -> Point:
        """The centre."""
        return ((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    @property
    def ring(self) -> Ring:
        """Its four corners, anticlockwise."""
        return (
            (self.left, self.bottom),
            (self.right, self.bottom),
            (self.right, self.top),
            (self.left, self.top),
        )

    def inset(self, by: float) -> Box:
        """Smaller by this much on every side."""
        return Box(self.left + by, self.bottom + by, self.right - by, self.top - by)

    def cells(self, columns: int, rows: int) -> tuple[Box, ...]:
        """Equal cells, row by row from the top left."""
        width, height = self.width / columns, self.height / rows
        return tuple(
            Box(
                self.left + column * width,
                self.top - (row + 1) * height,
                self.left + (column + 1) * width,
                self.top - row * height,
            )
            for row in range(rows)
            for column in range(columns)
        )


WHOLE = Box(MARGIN, PANEL_FOOT, STAGE_WIDTH - MARGIN, PANEL_TOP)  # table and tray as one
TABLE = Box(MARGIN, PANEL_FOOT, 10.0, PANEL_TOP)
TRAY = Box(10.3, PANEL_FOOT, STAGE_WIDTH - MARGIN, PANEL_TOP)
WIDE_TRAY = Box(8.3, PANEL_FOOT, STAGE_WIDTH - MARGIN, PANEL_TOP)  # where options need more room
NARROW_TABLE = Box(MARGIN, PANEL_FOOT, 8.0, PANEL_TOP)


def extent_of(points: Iterable[Point]) -> Box:
    """The smallest upright rectangle that holds the points."""
    return Box(*extent(points))


def fitting_scale(shape: Box, room: Box) -> float:
    """The largest scale at which the shape's rectangle fits into the room."""
    return min(
        room.width / shape.width if shape.width > 0 else math.inf,
        room.height / shape.height if shape.height > 0 else math.inf,
    )


def view_into(shape: Box, room: Box, scale: float, motion: Similarity | None = None) -> Similarity:
    """The similarity that draws at this scale with the middle of the shape's rectangle in the middle of the room.

    motion : what is done to the outline before it is measured and drawn, such as the turn that a sheet shows; `shape`
             is the rectangle after it.
    """
    x, y = shape.middle
    room_x, room_y = room.middle
    view = Similarity(scale=scale, shift=(room_x - scale * x, room_y - scale * y))
    return view if motion is None else view.after(motion)


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

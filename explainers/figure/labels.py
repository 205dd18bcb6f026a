"""Label placement: where text stands free of outlines, of strokes and of other labels.

A mark's letter keeps a disc free about it, not a box, so that it stays free however its piece turns. Words that stand
still keep their box free. Stage units.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import shapely

from ..geometry.rigid_motion import Point, Ring
from ..typeface.faces import Box, label_box, label_disc_radius
from .legibility import overlaps, too_small
from .model import CAPTION_TOP, STAGE_HEIGHT, STAGE_WIDTH, Align, Label, Role
from .theme import Theme

__all__ = ["Obstacles", "mark_radius", "overlaps", "place_label", "place_mark", "text_box", "too_small"]

_SAFE = 0.12  # labels keep this far from the rim of the stage


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacles:
    """What a label must not touch.

    lines : segments with no width: sides, ticks, arrows
    discs : centre and radius: other letters
    boxes : left, bottom, right, top: other words
    """

    lines: tuple[tuple[Point, Point], ...] = ()
    discs: tuple[tuple[Point, float], ...] = ()
    boxes: tuple[Box, ...] = ()

    @classmethod
    def rings(cls, rings: Iterable[Ring]) -> Obstacles:
        """The sides of closed rings."""
        return cls(lines=tuple(side for ring in rings for side in zip(ring, ring[1:] + ring[:1], strict=True)))

    def __add__(self, other: Obstacles) -> Obstacles:
        return Obstacles(
            lines=self.lines + other.lines, discs=self.discs + other.discs, boxes=self.boxes + other.boxes
        )

    def shape(self) -> Any:
        """All of them as one geometry."""
        return shapely.union_all(
            [
                shapely.MultiLineString(list(self.lines)),
                *(shapely.Point(centre).buffer(radius) for centre, radius in self.discs),
                *(shapely.box(*box) for box in self.boxes),
            ]
        )


def mark_radius(text: str, theme: Theme) -> float:
    """Radius of the disc that the letter of a side mark keeps free: the theme's, or more for a longer mark."""
    return max(theme.mark_radius, label_disc_radius(_label(text, (0.0, 0.0), theme.mark_size, bold=True)))


def text_box(text: str, at: Point, size: float, *, bold: bool = False, align: Align = Align.MIDDLE) -> Box:
    """The box round a text that is not a label yet."""
    return label_box(_label(text, at, size, bold=bold, align=align))


def place_mark(
    rings: Sequence[Ring],
    side: tuple[Point, Point],
    *,
    radius: float,
    gap: float,
    where: str = "inside",
    obstacles: Obstacles | None = None,
) -> Point | None:
    """Middle of a disc for a mark's letter, near the middle of the marked side.

    rings  : of the cloth that the side belongs to, even-odd
    side   : the marked part, with the cloth on its left
    radius : of the disc (see ``mark_radius``)
    gap    : between the disc and every side, stroke or other disc
    where  : "inside" the cloth or "outside" it, tried first; the other comes next
    Returns: opposite the middle of the side where that is free, at the least depth that is; else slid along it; else
             the free place nearest to it. None where the cloth has no room and neither has a band around it.
    """
    cloth = _area(rings)
    left, bottom, right, top = cloth.bounds
    margin = 6 * (radius + gap)
    around = shapely.box(left - margin, bottom - margin, right + margin, top + margin).difference(cloth)
    blocked = shapely.union_all([cloth.boundary, (obstacles or Obstacles()).shape()])
    tries = ((cloth, 1.0), (around, -1.0)) if where == "inside" else ((around, -1.0), (cloth, 1.0))
    for region, inward in tries:
        free = region.buffer(-(radius + gap)).difference(blocked.buffer(radius + gap - 1e-9))
        if free.is_empty:
            continue
        for point in _opposite(side, inward, radius + gap):
            if shapely.intersects_xy(free, *point):
                return point
        nearest = shapely.shortest_line(shapely.Point(_along(side, 0.5)), free)
        x, y = nearest.coords[-1]
        return (float(x), float(y))
    return None


def place_label(
    text: str,
    size: float,
    *,
    preferred: Sequence[Point],
    obstacles: Obstacles,
    bold: bool = False,
    gap: float = 0.06,
    within: Box = (_SAFE, CAPTION_TOP + _SAFE, STAGE_WIDTH - _SAFE, STAGE_HEIGHT - _SAFE),
) -> Point:
    """Middle of an upright text whose box is free: the first preferred place that is, else the free place nearest.

    preferred : middles, the best first
    gap       : kept between the text's box and every obstacle
    within    : the part of the stage it must stay in
    Raises    : ValueError where no place in `within` is free; a picture that full is a fault of its composer
    """
    left, bottom, right, top = text_box(text, (0.0, 0.0), size, bold=bold)
    blocked = obstacles.shape()
    shapely.prepare(blocked)

    def is_free(x: float, y: float) -> bool:
        if not (within[0] <= x + left and x + right <= within[2] and within[1] <= y + bottom and y + top <= within[3]):
            return False
        return not blocked.intersects(shapely.box(x + left - gap, y + bottom - gap, x + right + gap, y + top + gap))

    for place in preferred:
        if is_free(*place):
            return place
    x0, y0 = preferred[0]
    step = size / 4
    for ring in range(1, math.ceil(STAGE_WIDTH / step)):
        count = max(8, math.ceil(2 * math.pi * ring / 1.5))
        for k in range(count):
            angle = math.tau * k / count
            x, y = x0 + ring * step * math.cos(angle), y0 + ring * step * math.sin(angle)
            if is_free(x, y):
                return (x, y)
    raise ValueError(f"no room for the label {text!r}")


def _opposite(side: tuple[Point, Point], inward: float, room: float) -> Iterator[Point]:
    """Places facing the side: its middle first, deeper and deeper; then off the middle, either way in turn."""
    (ax, ay), (bx, by) = side
    length = math.dist(*side)
    nx, ny = -inward * (by - ay) / length, inward * (bx - ax) / length
    for slid in (0.0, -0.12, 0.12, -0.24, 0.24, -0.36, 0.36):
        x, y = _along(side, 0.5 + slid)
        for depth in range(12):
            far = room * (1.0 + depth / 6)
            yield (x + far * nx, y + far * ny)


def _along(side: tuple[Point, Point], fraction: float) -> Point:
    (ax, ay), (bx, by) = side
    return (ax + fraction * (bx - ax), ay + fraction * (by - ay))


def _area(rings: Sequence[Ring]) -> Any:
    area = shapely.Polygon()
    for ring in rings:
        area = area.symmetric_difference(shapely.Polygon(ring))
    return area


def _label(text: str, at: Point, size: float, *, bold: bool, align: Align = Align.MIDDLE) -> Label:
    return Label(
        id="-", group="-", role=Role.WORD, text=text, at=at, size=size, colour="#000000", bold=bold, align=align
    )

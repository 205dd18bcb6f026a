"""Word placement: where a line of text stands free of outlines, of strokes and of other labels.

For words that stand still, which need only their box; letters that travel with a piece keep a disc free about them and
are placed by ``letters``. Stage units.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import shapely

from ..geometry.rigid_motion import Point, Ring
from ..typeface.faces import Box, label_box
from .legibility import overlaps, too_small
from .model import CAPTION_TOP, STAGE_HEIGHT, STAGE_WIDTH, Align, Label, Role

__all__ = ["Obstacles", "overlaps", "place_label", "text_box", "too_small"]

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
        return Obstacles(lines=self.lines + other.lines, discs=self.discs + other.discs, boxes=self.boxes + other.boxes)

    def shape(self) -> Any:
        """All of them as one geometry."""
        return shapely.union_all(
            [
                *(shapely.LineString(line) if line[0] != line[1] else shapely.Point(line[0]) for line in self.lines),
                *(shapely.Point(centre).buffer(radius) for centre, radius in self.discs),
                *(shapely.box(*box) for box in self.boxes),
            ]
        )


def text_box(text: str, at: Point, size: float, *, bold: bool = False, align: Align = Align.MIDDLE) -> Box:
    """The box round a text that is not a label yet."""
    return label_box(_label(text, at, size, bold=bold, align=align))


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


def _label(text: str, at: Point, size: float, *, bold: bool, align: Align = Align.MIDDLE) -> Label:
    return Label(
        id="-", group="-", role=Role.WORD, text=text, at=at, size=size, colour="#000000", bold=bold, align=align
    )

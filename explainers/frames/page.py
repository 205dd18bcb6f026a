"""Stage units to pixels, points or EMU, the only place where y is turned over."""

from __future__ import annotations

from dataclasses import dataclass

from ..figure.model import STAGE_HEIGHT, STAGE_WIDTH
from ..geometry.rigid_motion import Point

__all__ = ["HD_PX", "SLIDE_EMU", "SLIDE_PT", "Page"]


@dataclass(frozen=True, slots=True)
class Page:
    """A page on which the stage lies, origin at the page's upper left corner, y down; one unit for everything.

    width     : of the stage on the page
    left, top : where the stage's upper left corner lies; the page is as wide as the stage where both are 0
    """

    width: float
    left: float = 0.0
    top: float = 0.0

    @property
    def unit(self) -> float:
        """Length of one stage unit on the page."""
        return self.width / STAGE_WIDTH

    @property
    def height(self) -> float:
        """Height of the stage on the page."""
        return STAGE_HEIGHT * self.unit

    def length(self, length: float) -> float:
        """A length, width or type size."""
        return length * self.unit

    def point(self, point: Point) -> Point:
        """A point of the stage (y up) as a point of the page (y down)."""
        x, y = point
        return self.left + x * self.unit, self.top + (STAGE_HEIGHT - y) * self.unit


HD_PX = Page(1920.0)
SLIDE_PT = Page(960.0)  # 13.333 inches of 72 points
SLIDE_EMU = Page(12_192_000.0)  # 914,400 EMU an inch

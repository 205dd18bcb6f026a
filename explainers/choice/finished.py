"""The finished outline in figures."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point
from ..geometry.rings import perimeter
from ..geometry.tolerance import computed
from ..words.names import area_in_words, number_of
from . import fingerprint
from .fact import Fact, Stated

__all__ = ["OutlineFact", "outline_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineFact(Fact):
    """The finished outline in figures."""

    outline: Outline
    corners: int  # of the exterior and of every hole
    holes: int
    area: float

    def holds(self) -> bool:
        """Corners, holes and area are those of the outline, and none of the corners is needless."""
        return (
            self.outline.simplified(self.tolerance).corner_count == self.corners == self.outline.corner_count
            and len(self.outline.holes) == self.holes
            and abs(self.outline.area - self.area) <= computed(self.tolerance) * perimeter(self.outline.exterior)
        )

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """Its figures, and where its corners are."""
        area = fingerprint.length(self.area)
        return ("outline", self.corners, self.holes, area, fingerprint.shape(self.outline, origin))

    def stated(self) -> Stated:
        """The outline."""
        return Stated(outlines=(self.outline,))

    def as_line(self) -> str:
        """As a plain line."""
        counted = f"{number_of(self.corners, 'corner')}, {number_of(self.holes, 'hole')}"
        return f"the outline: {counted}, {area_in_words(self.area)}"


def outline_fact(outline: Outline, tolerance: float) -> OutlineFact:
    """The figures of an outline without needless corners."""
    return OutlineFact(
        tolerance=tolerance,
        outline=outline,
        corners=outline.corner_count,
        holes=len(outline.holes),
        area=outline.area,
    )

"""An outline: one exterior ring and any holes, material to the left of every side.

The exterior therefore runs anticlockwise and each hole clockwise, so that one rule, "the material is on the left",
serves for both wherever two sides are laid against each other.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .rigid_motion import Point, Ring, Side, Similarity
from .rings import larger_extent, sides, signed_area, without_needless_corners

__all__ = ["Outline"]


@dataclass(frozen=True, slots=True)
class Outline:
    """Exterior anticlockwise, holes clockwise; build one with ``Outline.of`` to have them turned the right way."""

    exterior: Ring
    holes: tuple[Ring, ...] = ()

    @classmethod
    def of(cls, exterior: Iterable[Point], holes: Iterable[Iterable[Point]] = ()) -> Outline:
        """From corners in either direction."""
        outer = tuple(exterior)
        inner = [tuple(hole) for hole in holes]
        return cls(
            exterior=outer if signed_area(outer) > 0 else outer[::-1],
            holes=tuple(hole if signed_area(hole) < 0 else hole[::-1] for hole in inner),
        )

    @property
    def rings(self) -> tuple[Ring, ...]:
        """The exterior, then the holes."""
        return (self.exterior, *self.holes)

    @property
    def sides(self) -> tuple[Side, ...]:
        """The sides of every ring, the exterior's first, each with the material on its left."""
        return tuple(side for ring in self.rings for side in sides(ring))

    @property
    def area(self) -> float:
        """Area of the material, net of holes."""
        return sum(signed_area(ring) for ring in self.rings)

    @property
    def larger_extent(self) -> float:
        """The larger of width and height of the exterior."""
        return larger_extent(self.exterior)

    @property
    def corner_count(self) -> int:
        """Corners of the exterior and of every hole."""
        return sum(len(ring) for ring in self.rings)

    def moved(self, motion: Similarity) -> Outline:
        """The outline after a motion; a motion never flips, so directions stay as they are."""
        return Outline(motion.apply(self.exterior), tuple(motion.apply(hole) for hole in self.holes))

    def mirrored(self) -> Outline:
        """The outline turned over about the y axis: only ever used to show or to detect a flip."""
        return Outline.of(((-x, y) for x, y in self.exterior), (((-x, y) for x, y in hole) for hole in self.holes))

    def simplified(self, tolerance: float) -> Outline:
        """Without needless corners."""
        return Outline(
            without_needless_corners(self.exterior, tolerance),
            tuple(without_needless_corners(hole, tolerance) for hole in self.holes),
        )

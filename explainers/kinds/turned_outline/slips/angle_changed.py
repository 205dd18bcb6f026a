"""One corner that lies farther along one of its two sides, or less far, so that its angle is another.

Why learners do it: corners are counted and sides compared, while how far an angle opens is taken for granted.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ....choice import fingerprint
from ....choice.slip import CannotBeMade
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point
from ....geometry.tolerance import computed
from .change import Change, ring_with, with_ring

__all__ = ["CornerMoved", "changes"]

STEPS = (0.25, 0.2, 0.3, 0.375, 0.15)  # how far the corner moves, in parts of the larger extent; the best first


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerMoved(Change):
    """A corner is moved along the line of one of its sides."""

    corner: Point
    to: Point

    @property
    def told_as(self) -> str:
        """The name of the slip."""
        return "angle-changed"

    def made_on(self, outline: Outline, tolerance: float) -> Outline:
        """The outline with the corner there.

        Raises : CannotBeMade where there is no such corner, or the place is not in line with one of its sides
        """
        index = ring_with(outline, self.corner)
        ring = outline.rings[index]
        at = ring.index(self.corner)
        ends = ring[at - 1], ring[(at + 1) % len(ring)]
        if min(_off_line(self.to, self.corner, end) for end in ends) > computed(tolerance):
            raise CannotBeMade("the corner is not moved along one of its sides")
        return with_ring(outline, index, (*ring[:at], self.to, *ring[at + 1 :]))

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """Where the corner was, and where it is."""
        return (self.told_as, fingerprint.points((self.corner,), origin), fingerprint.points((self.to,), origin))


def changes(outline: Outline, tolerance: float) -> Iterator[Change]:
    """Every corner, the exterior's first, moved back along each of its sides or beyond it."""
    extent = outline.larger_extent
    corners = [
        (corner, ring[at - 1], ring[(at + 1) % len(ring)]) for ring in outline.rings for at, corner in enumerate(ring)
    ]
    for step in STEPS:
        for corner, *ends in corners:
            for end in ends:
                for way in (1.0, -1.0):
                    part = way * step * extent / math.dist(corner, end)
                    if part < 0.8:  # else the corner comes too near to the other end, or passes it
                        to = corner[0] + part * (end[0] - corner[0]), corner[1] + part * (end[1] - corner[1])
                        yield CornerMoved(corner=corner, to=to)


def _off_line(point: Point, start: Point, end: Point) -> float:
    """How far a point is from the line through two others."""
    along, there = complex(*end) - complex(*start), complex(*point) - complex(*start)
    return abs((along.conjugate() * there).imag) / abs(along)

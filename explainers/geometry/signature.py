"""What turning, shifting and scaling leave of an outline as it is: two outlines that differ in it are not the same.

Comparing two outlines corner for corner is dear; this rules most of them out first, and never one that is the same.
"""

from __future__ import annotations

import math
from functools import cached_property

from .outline import Outline
from .rings import interior_angles_deg, perimeter, shortest_side

__all__ = ["Signature"]


class Signature:
    """What turning, shifting and scaling leave of an outline as it is; the dearer figures only when asked for."""

    def __init__(self, outline: Outline, tolerance: float) -> None:
        """Of an outline without needless corners; tolerance in its own units."""
        self._outline, self._tolerance = outline, tolerance
        self.corners = (len(outline.exterior), *sorted(map(len, outline.holes)))

    @cached_property
    def roundness(self) -> tuple[float, float]:
        """(area over squared perimeter, how far the tolerance may change it)."""
        around, area = sum(perimeter(ring) for ring in self._outline.rings), self._outline.area
        # Each corner moves by the tolerance at most: so do both ends of every side, and a strip along all of them.
        slack = self._tolerance * (4.0 * self._outline.corner_count / around + around / area)
        return area / around**2, 2.0 * slack * area / around**2

    @cached_property
    def angles_deg(self) -> tuple[tuple[float, ...], float]:
        """(angles of material by size, how far the tolerance may change one)."""
        shortest = shortest_side(self._outline.rings)
        angles = sorted(angle for ring in self._outline.rings for angle in interior_angles_deg(ring))
        return tuple(angles), 2.0 * math.degrees(4.0 * self._tolerance / shortest)

    def may_be(self, other: Signature) -> bool:
        """Whether the two outlines may be the same by turning and scaling."""
        if self.corners != other.corners:
            return False
        (one, slack), (two, other_slack) = self.roundness, other.roundness
        if abs(one - two) > max(slack, other_slack):
            return False
        (angles, slack), (other_angles, other_slack) = self.angles_deg, other.angles_deg
        # Moving every number of a list a little moves none of the sorted ones further.
        return all(abs(a - b) <= max(slack, other_slack) for a, b in zip(angles, other_angles, strict=True))

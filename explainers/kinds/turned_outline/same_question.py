"""What an item asks, without names: by this it is known again.

The question is its outline. Two are the same when a turn, a shift and one scaling lay one on the other, after a flip if
need be.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...choice.model import Likeness
from ...geometry.congruence import motions_onto
from ...geometry.outline import Outline
from ...geometry.rings import perimeter

__all__ = ["PosedOutline"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PosedOutline:
    """What is asked, without names."""

    outline: Outline  # without needless corners
    tolerance: float

    @property
    def counts(self) -> tuple[object, ...]:
        """Of corners: of the exterior, then of each hole by size."""
        return (len(self.outline.exterior), *sorted(map(len, self.outline.holes)))

    @property
    def numbers(self) -> tuple[float, ...]:
        """How long the outline is, in the size of its material."""
        return (sum(perimeter(ring) for ring in self.outline.rings) / math.sqrt(self.outline.area),)

    @property
    def slack(self) -> float:
        """How far typing to within the tolerance may move that figure; generous, for it only saves work."""
        return 8.0 * self.tolerance * self.outline.corner_count / math.sqrt(self.outline.area)

    def likeness(self, other: PosedOutline) -> Likeness | None:
        """How it is laid on the other, without a flip where that is possible; None: they ask different things."""
        for flipped, outline in ((False, self.outline), (True, self.outline.mirrored())):
            for motion in motions_onto(outline, other.outline, other.tolerance):
                return Likeness(motion=motion, flipped=flipped)
        return None

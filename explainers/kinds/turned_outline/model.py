"""An item of the turned outline as it was written: the outline alone.

All coordinates are in the teacher's own units, y up; all angles in degrees, anticlockwise positive.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from ...choice.question import Question
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Ring
from ...geometry.rings import extent

__all__ = ["TurnedOutline"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedOutline(Question):
    """One question: which of the options is this outline, turned?"""

    kind: ClassVar[str] = "turned-outline"
    outline_given: ClassVar[bool] = True

    outline: Outline  # corners as typed, turned so that the material is on the left
    # Whether the file lists the corners clockwise: the same item, but its corners are numbered as listed.
    clockwise: bool = field(default=False, compare=False)

    @property
    def corners(self) -> Ring:
        """The exterior as the file lists it; side number n, from 1, runs from corner n to the next."""
        return self.outline.exterior[::-1] if self.clockwise else self.outline.exterior

    @property
    def extent(self) -> float:
        """The outline's larger extent: the authoring tolerance is a part of it."""
        return self.outline.larger_extent

    @property
    def lower_left(self) -> Point:
        """Of the outline."""
        left, bottom, _, _ = extent(self.outline.exterior)
        return left, bottom

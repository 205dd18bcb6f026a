"""A part that only one of the two has: what can be said of every place where they differ."""

from __future__ import annotations

from dataclasses import dataclass

from ...geometry import overlay
from ...geometry.rings import perimeter
from ...geometry.tolerance import computed
from ...words.messages import say
from .difference import DifferenceFact, filled_here

__all__ = ["BarePartFact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BarePartFact(DifferenceFact):
    """One of the two has material where the other has none."""

    area: float

    def is_only_in(self, *, option: bool) -> bool:
        """Whether the place is that large, inside the one outline, and outside the other."""
        owner = self.option if option else self.outline
        return (
            abs(self.place.area - self.area) <= computed(self.tolerance) * perimeter(self.place.exterior)
            and self.is_filled is option
            and not overlay.regions(self.place, owner, self.tolerance)
            and DifferenceFact.holds(self)
        )

    def heading(self) -> str:
        """What is too much or missing."""
        if self.is_filled:
            return say("{label}: a part too many", label=self.label)
        return say("{label}: a part is missing", label=self.label)

    def over_outline(self) -> tuple[str, ...]:
        """Which of the two is filled."""
        return (filled_here(self.label, filled=self.is_filled),)

    def practise(self) -> str:
        """Comparing outlines whole."""
        return say("Practise laying one outline on another in your head, or with tracing paper.")

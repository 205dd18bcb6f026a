"""A question as it is posed, without names: by this it is known again, whatever it is called and wherever it is drawn.

Each kind says what two of its questions must share to be the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, Self

from ..geometry.rigid_motion import Similarity

__all__ = ["Likeness", "Posed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Likeness:
    """How one question is laid on another."""

    motion: Similarity
    flipped: bool  # the first is turned over before it is laid on


class Posed(Protocol):
    """What is asked; questions are compared in full only where counts and figures agree."""

    @property
    def counts(self) -> tuple[object, ...]:
        """Counts that two questions which may be the same share."""

    @property
    def numbers(self) -> tuple[float, ...]:
        """Figures that two questions which may be the same share, flipped or not, each to within the slack."""

    @property
    def slack(self) -> float:
        """How far typing to within the tolerance may move those figures."""

    def likeness(self, other: Self) -> Likeness | None:
        """How it is laid on the other, without a flip where that is possible; None: they ask different things."""

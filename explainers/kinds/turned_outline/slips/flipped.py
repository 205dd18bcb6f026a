"""The outline turned over.

Why learners do it: a mirror image has the same sides and corners, so that it passes when checked one feature at a time.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ....choice.fingerprint import FingerprintParts
from ....choice.slip import FLIPPED
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point
from .change import Change

__all__ = ["Flipped", "changes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Flipped(Change):
    """The whole is turned over about the y axis."""

    @property
    def told_as(self) -> str:
        """The name of the slip."""
        return FLIPPED

    def made_on(self, outline: Outline, tolerance: float) -> Outline:
        """Its mirror image."""
        return outline.mirrored()

    def fingerprint_parts(self, origin: Point) -> FingerprintParts:
        """Nothing but that it happens."""
        return (FLIPPED,)


def changes(outline: Outline, tolerance: float) -> Iterator[Change]:
    """The one way."""
    yield Flipped()

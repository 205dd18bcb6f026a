"""The names of the paces; what each means stands in ``storyboard.paces``."""

from __future__ import annotations

__all__ = ["PACE_NAMES"]

PACE_NAMES = ("school", "slow", "adult")  # how fast a lesson is told; the first unless told otherwise

"""Symmetries of an outline: in how many turned positions it looks the same, whether a flip changes it."""

from __future__ import annotations

from .congruence import Match, congruence, motions_onto
from .outline import Outline

__all__ = ["is_chiral", "rotational_symmetry_order"]


def rotational_symmetry_order(outline: Outline, tolerance: float) -> int:
    """In how many turned positions the outline looks the same: 1 for most, 4 for a square."""
    return len(motions_onto(outline, outline, tolerance))


def is_chiral(outline: Outline, tolerance: float) -> bool:
    """Whether the outline turned over cannot be turned to lie on it."""
    return congruence(outline.mirrored(), outline, tolerance).kind is Match.MIRROR_ONLY

"""How large outlines come out on paper: the scale in which distances between options are told."""

from __future__ import annotations

from ..geometry.outline import Outline

__all__ = ["APART_MM", "OPTION_MM", "printed_mm"]

OPTION_MM = 40.0  # larger extent of the right option on an A4 sheet of five: a choice of ours
APART_MM = 3.0  # boundaries that nowhere lie farther apart than this are hard to tell apart: judgement, no source


def printed_mm(length: float, outline: Outline) -> float:
    """A length beside an outline, in millimetres where the outline is printed ``OPTION_MM`` across."""
    return length * OPTION_MM / outline.larger_extent

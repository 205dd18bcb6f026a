"""A pen that records a glyph's outline as plain path commands.

fontTools takes glyphs made of other glyphs apart, and runs of quadratic control points too, before the pen sees them.
"""

from __future__ import annotations

from typing import Any

from fontTools.pens.basePen import BasePen

__all__ = ["OutlinePen", "PathCommand"]

PathCommand = tuple[str, tuple[tuple[float, float], ...]]  # verb, points


class OutlinePen(BasePen):  # type: ignore[misc]  # fontTools carries no types
    """Records M, L, Q, C and Z, in font units, y up."""

    def __init__(self, glyph_set: Any) -> None:
        super().__init__(glyph_set)
        self.commands: list[PathCommand] = []

    def _moveTo(self, pt: tuple[float, float]) -> None:
        self.commands.append(("M", (pt,)))

    def _lineTo(self, pt: tuple[float, float]) -> None:
        self.commands.append(("L", (pt,)))

    def _qCurveToOne(self, pt1: tuple[float, float], pt2: tuple[float, float]) -> None:
        self.commands.append(("Q", (pt1, pt2)))

    def _curveToOne(self, pt1: tuple[float, float], pt2: tuple[float, float], pt3: tuple[float, float]) -> None:
        self.commands.append(("C", (pt1, pt2, pt3)))

    def _closePath(self) -> None:
        self.commands.append(("Z", ()))

    def _endPath(self) -> None:
        self.commands.append(("Z", ()))

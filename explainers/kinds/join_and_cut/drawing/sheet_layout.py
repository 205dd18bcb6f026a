"""How a question sheet shares out its room: base and pieces in a band above, options in a row below.

Base and pieces have one scale. The pieces stand beside the base in one row or two, whichever leaves more room, each as
wide as it needs. Where a side would come out too short to see, room is moved between the band and the row.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ....figure.layout import MARGIN, PANEL_FOOT, PANEL_TOP, Box
from ....figure.model import STAGE_WIDTH

__all__ = ["Needs", "SheetLayout", "bands", "fit_band", "most_word_width"]

_PAD = 0.28  # between what is drawn and the edge of its room
_WORD_ROOM = 0.58  # under a piece, for its word
_GAP = 0.3  # between panels
_LEAST_BASE_WIDTH = 3.6
_DEFAULT_BAND = 3.48
_OTHER_BANDS = (3.2, 3.8, 2.95, 4.05)


@dataclass(frozen=True, slots=True)
class Needs:
    """What base and pieces take up at one scale: (width, height) each, words under the pieces left out."""

    base: tuple[float, float]
    pieces: tuple[tuple[float, float], ...]
    words: tuple[float, ...]  # width of each piece's word


@dataclass(frozen=True, slots=True)
class SheetLayout:
    """The panels, and a cell in the pieces' panel for each piece."""

    base: Box
    pieces: Box
    cells: tuple[Box, ...]

    def room(self, index: int) -> Box:
        """The part of a cell in which the piece is drawn, its word beneath."""
        cell = self.cells[index]
        return Box(cell.left, cell.bottom + _WORD_ROOM, cell.right, cell.top)

    def word_y(self, index: int) -> float:
        """Where the word stands: half way up its capitals."""
        return self.cells[index].bottom + 0.32


def bands() -> tuple[tuple[Box, Box], ...]:
    """Ways to share the sheet between the band above and the row of options below, the usual one first."""
    left, right = MARGIN, STAGE_WIDTH - MARGIN
    return tuple(
        (Box(left, PANEL_TOP - height, right, PANEL_TOP), Box(left, PANEL_FOOT, right, PANEL_TOP - height - 0.25))
        for height in (_DEFAULT_BAND, *_OTHER_BANDS)
    )


def most_word_width(pieces: int) -> float:
    """The width that each piece's word may have, so that all stand in one row beside the base.

    Two rows leave little height for the pieces: words must not be what asks for them.
    """
    return (STAGE_WIDTH - 2 * MARGIN - _GAP - 1.25 * _LEAST_BASE_WIDTH) / pieces - 2 * _PAD


def fit_band(band: Box, needs: Needs) -> SheetLayout | None:
    """The layout in which the needs are met, in one row of pieces or two; None where there is no room."""
    widths = [max(width, word) + 2 * _PAD for (width, _), word in zip(needs.pieces, needs.words, strict=True)]
    heights = [height + _WORD_ROOM + 1.5 * _PAD for _, height in needs.pieces]
    base_width = max(needs.base[0] + 2 * _PAD, _LEAST_BASE_WIDTH)
    if needs.base[1] + 2 * _PAD > band.height:
        return None
    for rows in (1, 2):
        split = _rows(len(widths), rows)
        row_widths = [math.fsum(widths[i] for i in row) for row in split]
        row_heights = [max(heights[i] for i in row) for row in split]
        if base_width + _GAP + max(row_widths) <= band.width and math.fsum(row_heights) <= band.height:
            return _layout(band, split, widths, row_heights, base_width, max(row_widths))
    return None


def _rows(count: int, rows: int) -> list[range]:
    per_row = -(-count // rows)
    return [range(start, min(start + per_row, count)) for start in range(0, count, per_row)]


def _layout(
    band: Box,
    split: Sequence[range],
    widths: Sequence[float],
    row_heights: Sequence[float],
    base_width: float,
    pieces_width: float,
) -> SheetLayout:
    """Panels as wide as their share of what is left over; cells likewise."""
    spare = band.width - _GAP - base_width - pieces_width
    base = Box(band.left, band.bottom, band.left + base_width + spare * base_width / band.width, band.top)
    pieces = Box(base.right + _GAP, band.bottom, band.right, band.top)
    spare_height = (band.height - math.fsum(row_heights)) / len(split)
    cells: list[Box] = []
    top = pieces.top
    for row, height in zip(split, row_heights, strict=True):
        spare_width = (pieces.width - math.fsum(widths[i] for i in row)) / len(row)
        left = pieces.left
        for i in row:
            right = left + widths[i] + spare_width
            cells.append(Box(left, top - height - spare_height, right, top).inset(_PAD / 2))
            left = right
        top -= height + spare_height
    return SheetLayout(base=base, pieces=pieces, cells=tuple(cells))

"""How a question shares out a sheet of paper: base and pieces above, at one scale, options in rows below.

The pieces stand beside the base or under it, in as many rows as leave the most room.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ....figure.layout import Box
from .sheet_layout import Needs, SheetLayout

__all__ = ["GAP", "fit_paper"]

GAP = 0.3  # between panels
_PAD = 0.3  # between what is drawn and the edge of its room
_WORD_ROOM = 0.58  # under a piece, for its word; as SheetLayout has it
_WORD_PAD = 0.2  # beside a word


def fit_paper(width: float, top: float, height: float, needs: Needs) -> SheetLayout | None:
    """The layout that meets the needs in the least height, its panels no higher than they need; None without room.

    width  : of the paper, from x = 0
    top    : the upper edge of the panels
    height : that they may take up at most
    """
    cells = [
        max(piece + 2 * _PAD, word + 2 * _WORD_PAD) for (piece, _), word in zip(needs.pieces, needs.words, strict=True)
    ]
    heights = [piece_height + _WORD_ROOM + 2 * _PAD for _, piece_height in needs.pieces]
    base_width, base_height = needs.base[0] + 2 * _PAD, needs.base[1] + 2 * _PAD
    found: list[SheetLayout] = []
    for count in range(1, len(cells) + 1):
        rows = _rows(len(cells), count)
        row_widths = [math.fsum(cells[i] for i in row) for row in rows]
        row_heights = [max(heights[i] for i in row) for row in rows]
        pieces_width, pieces_height = max(row_widths), math.fsum(row_heights)
        if base_width + GAP + pieces_width <= width and max(base_height, pieces_height) <= height:
            foot = top - max(base_height, pieces_height)
            # What is left over is shared as the needs are.
            split = (width - GAP) * base_width / (base_width + pieces_width)
            base, pieces = Box(0.0, foot, split, top), Box(split + GAP, foot, width, top)
            found.append(SheetLayout(base=base, pieces=pieces, cells=_cells(pieces, rows, cells, row_heights)))
        if max(base_width, pieces_width) <= width and base_height + GAP + pieces_height <= height:
            middle = top - base_height
            base = Box(0.0, middle, width, top)
            pieces = Box(0.0, middle - GAP - pieces_height, width, middle - GAP)
            found.append(SheetLayout(base=base, pieces=pieces, cells=_cells(pieces, rows, cells, row_heights)))
    return max(found, key=lambda layout: layout.pieces.bottom, default=None)


def _rows(count: int, rows: int) -> list[range]:
    per_row = -(-count // rows)
    return [range(start, min(start + per_row, count)) for start in range(0, count, per_row)]


def _cells(room: Box, rows: Sequence[range], widths: Sequence[float], heights: Sequence[float]) -> tuple[Box, ...]:
    """A cell for each piece, spare room shared evenly."""
    spare_height = (room.height - math.fsum(heights)) / len(rows)
    cells: list[Box] = []
    top = room.top
    for row, height in zip(rows, heights, strict=True):
        spare = (room.width - math.fsum(widths[i] for i in row)) / len(row)
        left = room.left
        foot = top - height - spare_height
        for i in row:
            cells.append(Box(left, foot + _PAD / 2, left + widths[i] + spare, top - _PAD / 2))
            left += widths[i] + spare
        top = foot
    return tuple(cells)

"""The options and the outline as large as the stage lets them be, side by side: for comparing, with nothing laid on."""

from __future__ import annotations

from ...figure.layout import WHOLE, Box, extent_of, fitting_scale
from ..model import Solution
from .option_cells import ROOMY_LETTER, OptionCells

__all__ = ["SPREAD_PAD", "spread_out"]

SPREAD_PAD = 0.45  # round the outline
_GAP = 0.3  # between the two parts
_LEAST, _STEP = 3.0, 0.25  # how wide each part is at least, and by how much widths are tried
_OUTLINE_LARGER = 1.1  # than an option: what all are held against is seen first


def spread_out(solution: Solution) -> tuple[Box, OptionCells]:
    """The room of the outline, on the left, and the cells of the options beside it.

    Of all widths and numbers of columns those are taken at which the smaller of the two parts is drawn largest.
    """
    outline = extent_of(solution.outline.exterior)
    across = max(outline.width, outline.height)
    count = len(solution.verdicts)
    best: tuple[float, float, Box, OptionCells] | None = None
    steps = round((WHOLE.width - 2 * _LEAST) / _STEP)
    for step in range(steps + 1):
        border = WHOLE.left + _LEAST + step * _STEP
        room = Box(WHOLE.left, WHOLE.bottom, border, WHOLE.top)
        shown = across * fitting_scale(outline, room.inset(SPREAD_PAD))
        for columns in range(1, count + 1):
            beside = Box(border + _GAP, WHOLE.bottom, WHOLE.right, WHOLE.top)
            cells = OptionCells(solution=solution, room=beside, columns=columns, letter_room=ROOMY_LETTER)
            size = min(cells.largest, shown / _OUTLINE_LARGER)
            if best is None or (size, shown) > best[:2]:
                best = (size, shown, room, cells)
    assert best is not None
    return best[2], best[3]

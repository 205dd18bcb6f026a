"""In how many rows the options of a question stand, on a picture and on paper."""

from __future__ import annotations

from ...figure.layout import Box, extent_of
from ...figure.legibility import LEAST_SIDE
from ..model import Solution
from .option_cells import OptionCells

__all__ = ["largest_extent", "options_in_rows", "options_on_paper"]

_LEAST_HEIGHT = 1.5  # stage units


def options_in_rows(solution: Solution, room: Box) -> OptionCells:
    """The options in one row, or in two where that lets their sides be seen."""
    count = len(solution.verdicts)
    tried = [OptionCells(solution=solution, room=room, columns=columns) for columns in (count, -(-count // 2))]
    return tried[0] if tried[0].shortest_side >= LEAST_SIDE else max(tried, key=lambda cells: cells.shortest_side)


def largest_extent(solution: Solution) -> float:
    """The larger extent of the largest option as it is drawn, at scale 1."""
    boxes = [extent_of(verdict.drawn.apply(verdict.outline.exterior)) for verdict in solution.verdicts]
    return max(max(box.width, box.height) for box in boxes)


def options_on_paper(solution: Solution, room: Box, *, wished: float) -> OptionCells | None:
    """The options from the top of a room down, in the rows that leave them largest, in no more height than they need.

    wished : what the largest is to measure across, stage units, unless there is less room
    Returns: None where there is no room
    """
    count, most = len(solution.verdicts), room.height
    if most < _LEAST_HEIGHT:
        return None
    goal = wished / largest_extent(solution)
    found: list[tuple[float, float, OptionCells]] = []
    for columns in sorted({count, -(-count // 2), min(3, count), 2}):
        rows = -(-count // columns)
        cells = OptionCells(solution, room, columns)
        if cells.scale <= 0.0:
            continue
        # The scale that there is room for, or the one that is wished for, in the least height that gives it.
        wanted = min(cells.scale, goal)
        tallest = max(extent_of(v.drawn.apply(v.outline.exterior)).height for v in solution.verdicts)
        least = min(most, rows * (tallest * wanted + 0.5) + 0.16)
        cells = OptionCells(solution, Box(room.left, room.top - least, room.right, room.top), columns)
        found.append((min(cells.scale, goal), -least, cells))
    if not found:
        return None
    return max(found, key=lambda one: (round(one[0] / goal, 2), one[1]))[2]

"""From a solution to everything that is shown of it."""

from __future__ import annotations

from collections.abc import Callable

from ..item.model import Item
from ..solution.model import Solution
from .option_panels import option_panels
from .remarks import Remarks
from .sheet_panels import base_panel, piece_panels
from .step_panels import outline_alone, result_panel, step_panels
from .view import Panel, View

__all__ = ["item_view"]

LineOf = Callable[[str], int]  # field path -> line in the file, 0 where it is not known

_SHEET = "What the file gives"


def item_view(solution: Solution, line_of: LineOf) -> View:
    """An item that solves, sound or not: sheet, steps, outline, options, warnings."""
    remarks = Remarks(solution, line_of)
    item = solution.item
    steps = (*step_panels(solution, remarks), result_panel(solution, remarks))
    options = tuple(option_panels(solution, remarks, line_of))
    accepted = tuple(f"Accepted, {warning.kind.value}: {warning.message}." for warning in solution.accepted)
    return View(
        name=item.name,
        title=item.title,
        state=f"sound: the answer is {solution.key}" if solution.sound else "not sound: it has no one answer",
        sign="right" if solution.sound else "wrong",
        because=solution.unsound_because,
        groups=(
            (_SHEET, _given(item, remarks, line_of)),
            ("What comes of it", steps),
            ("The options", options),
        ),
        notes=accepted,
        small=outline_alone(solution),
    )


def _given(item: Item, remarks: Remarks, line_of: LineOf) -> tuple[Panel, ...]:
    return (base_panel(item, remarks, line_of), *piece_panels(item, remarks, line_of))

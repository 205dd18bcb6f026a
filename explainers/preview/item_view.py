"""From a solution to everything that is shown of it."""

from __future__ import annotations

from collections.abc import Callable

from ..choice.model import Solution
from ..figure.theme import DEFAULT_THEME, Theme
from .option_panels import option_panels
from .remarks import Remarks
from .sheet_panels import base_panel, piece_panels
from .step_panels import outline_alone, result_panel, step_panels
from .view import View

__all__ = ["item_view"]

LineOf = Callable[[str], int]  # field path -> line in the file, 0 where it is not known


def item_view(solution: Solution, line_of: LineOf, theme: Theme = DEFAULT_THEME) -> View:
    """An item that solves, sound or not: sheet, steps, outline, options, warnings."""
    remarks = Remarks(solution, line_of)
    item = solution.item
    given = (base_panel(item, remarks, line_of, theme), *piece_panels(item, remarks, line_of, theme))
    steps = (*step_panels(solution, remarks, theme), result_panel(solution, remarks, theme))
    options = tuple(option_panels(solution, remarks, line_of, theme))
    accepted = tuple(f"Accepted, {warning.kind}: {warning.message}." for warning in solution.accepted)
    return View(
        name=item.name,
        title=item.title,
        state=f"sound: the answer is {solution.key}" if solution.sound else "not sound: it has no one answer",
        sign="right" if solution.sound else "wrong",
        because=solution.unsound_because,
        groups=(
            ("What the file gives", given),
            ("What comes of it", steps),
            ("The options", options),
        ),
        notes=accepted,
        small=outline_alone(solution, theme),
        theme=theme,
    )

"""From a solution to everything that is shown of it."""

from __future__ import annotations

from collections.abc import Callable

from ..choice.model import Solution
from ..choice.panels.option_panels import option_panels
from ..choice.panels.outline_panels import outline_alone
from ..choice.panels.remarks import Remarks
from ..choice.panels.view import View
from ..figure.theme import DEFAULT_THEME, Theme
from ..kinds.registry import kind_of

__all__ = ["item_view"]

LineOf = Callable[[str], int]  # field path -> line in the file, 0 where it is not known


def item_view(solution: Solution, line_of: LineOf, theme: Theme = DEFAULT_THEME) -> View:
    """An item that solves, sound or not: sheet, steps, outline, options, warnings."""
    item, panels = solution.item, kind_of(solution.item).panels
    remarks = Remarks(solution, line_of, panels.spots)
    given = tuple(panels.given(solution, remarks, line_of, theme))
    found = tuple(panels.found(solution, remarks, theme))
    options = tuple(option_panels(solution, remarks, line_of, theme))
    accepted = tuple(f"Accepted, {warning.kind}: {warning.message}." for warning in solution.accepted)
    return View(
        kind=item.kind,
        name=item.name,
        title=item.title,
        state=f"sound: the answer is {solution.key}" if solution.sound else "not sound: it has no one answer",
        sign="right" if solution.sound else "wrong",
        because=solution.unsound_because,
        groups=(
            ("What the file gives", given),
            ("What comes of it", found),
            ("The options", options),
        ),
        notes=accepted,
        small=outline_alone(solution, theme),
        theme=theme,
    )

"""A contact sheet of options: those that an item has, those that slips would give besides, why others give none."""

from __future__ import annotations

from collections.abc import Callable

from ..choice.making import Survey
from ..choice.model import Solution
from ..choice.panels.option_panels import option_panels
from ..choice.panels.outline_panels import outline_alone
from ..choice.panels.remarks import Remarks
from ..choice.panels.spare_panels import refused_panel, spare_panels
from ..choice.panels.view import View
from ..choice.slip import Slips
from ..figure.theme import DEFAULT_THEME, Theme
from ..kinds.registry import kind_of

__all__ = ["options_view"]


def options_view(
    solution: Solution, survey: Survey, slips: Slips, line_of: Callable[[str], int], theme: Theme = DEFAULT_THEME
) -> View:
    """The options of a sound item, and what else slips make of it.

    survey, slips : of the item
    line_of       : field path -> line in the file, 0 where it is not known, as before the options are written there
    """
    item = solution.item
    remarks = Remarks(solution, line_of, kind_of(item).panels.spots)
    spare = tuple(spare_panels(survey, slips, theme))
    return View(
        kind=item.kind,
        name=item.name,
        title=item.title,
        state=f"sound: the answer is {solution.key}",
        sign="right",
        groups=(
            ("The options", tuple(option_panels(solution, remarks, line_of, theme))),
            *((("What could stand in for one of them", spare),) if spare else ()),
            *((("What cannot", (refused_panel(survey),)),) if survey.refused else ()),
        ),
        notes=tuple(f"No option shows a slip of the {slips.subject} {name}." for name in survey.without),
        small=outline_alone(solution, theme),
        theme=theme,
    )

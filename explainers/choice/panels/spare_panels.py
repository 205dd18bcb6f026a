"""Single slips whose outlines could be options and are none, each as it comes out over the finished outline."""

from __future__ import annotations

from collections.abc import Iterator

from ...figure.model import Role
from ...figure.theme import Theme
from ...geometry.outline import Outline
from ...words.names import sentence_case
from ..making import Survey
from ..slip import SlipCase, Slips
from .grid import scale_to_fit
from .plot import Plot
from .view import Panel, PanelPicture

__all__ = ["refused_panel", "spare_panels"]

_ROOM = (3.0, 2.8)


def spare_panels(survey: Survey, slips: Slips, theme: Theme) -> Iterator[Panel]:
    """One panel a slip, with the line that would make it an option."""
    for number, (cases, outline) in enumerate(survey.spare, start=1):
        fact = slips.fact_of("", cases, outline)
        yield Panel(
            name=f"option-spare-{number}",
            heading=sentence_case(fact.in_brief()),
            pictures=(_laid(outline, slips.outline, theme),),
            typed=(_line(cases[0], slips.subject),),
        )


def refused_panel(survey: Survey) -> Panel:
    """Every slip that can be no option, with why."""
    return Panel(
        name="slips-refused",
        heading="Slips that can be no option",
        lines=tuple(f"{', '.join(names)}: {why}." for why, names in survey.by_reason()),
    )


def _line(case: SlipCase, key: str | None) -> str:
    subject = f", {key}: {case.subject}" if case.subject else ""
    return f"- {{outline: result, slip: {case.slip}{subject}}}"


def _laid(outline: Outline, result: Outline, theme: Theme) -> PanelPicture:
    rings = (*result.rings, *outline.rings)
    plot = Plot(rings, scale_to_fit(rings, *_ROOM), theme, margin=0.32)
    plot.material(result, Role.OUTLINE, theme.outline, width=0.024)
    plot.material(outline, Role.OPTION, width=0.048, dash=theme.dash)
    return plot.picture("What comes out, over the right outline", "dashed, over the right outline")

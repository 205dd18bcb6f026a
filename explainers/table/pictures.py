"""The pictures beside a drawing, each as one SVG: the sheet as learners see it, options, what a slip makes."""

from __future__ import annotations

from ..choice.model import Solution, Verdict
from ..choice.panels.grid import scale_to_fit
from ..choice.panels.plot import Plot
from ..choice.panels.view import PanelPicture
from ..drawing.svg import svg_of
from ..figure.model import Role
from ..figure.paper import Printing, paper_theme
from ..figure.theme import DEFAULT_THEME, Theme
from ..kinds.registry import kind_of

__all__ = ["option_svg", "panel_svg", "sheet_svg"]

_ROOM = (1.9, 1.5)  # of a small picture, stage units


def panel_svg(picture: PanelPicture) -> str:
    """A picture of a panel; without ids, since several share a page."""
    return svg_of(picture.figure, width_px=round(picture.width, 1), ids=False, box=picture.box).strip()


def option_svg(verdict: Verdict, theme: Theme = DEFAULT_THEME) -> str:
    """An option as the sheet shows it, turned and at its size."""
    shown = verdict.outline.moved(verdict.drawn)
    plot = Plot(shown.rings, scale_to_fit(shown.rings, *_ROOM), theme, grid=False, margin=0.08)
    plot.material(shown, Role.OPTION, theme.option)
    return panel_svg(plot.picture(f"option {verdict.label}"))


def sheet_svg(solution: Solution, theme: Theme = DEFAULT_THEME) -> str:
    """The question as it is printed for learners: nothing in it tells the answer."""
    asked = kind_of(solution.item).on_paper(solution, paper_theme(theme), Printing()).asked("")
    picture = asked.picture
    return svg_of(picture.figure, width_px=800, ids=False, box=picture.box).strip()

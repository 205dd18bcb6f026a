"""The pictures beside a drawing, each as one SVG: the sheet as learners see it, options, what a slip makes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from ..choice.model import Solution, Verdict
from ..choice.panels.grid import scale_to_fit
from ..choice.panels.plot import Plot
from ..choice.panels.view import PanelPicture
from ..drawing.svg import VIEW, svg_of
from ..figure.layout import Box
from ..figure.model import Role
from ..figure.paper import Printing, paper_theme
from ..figure.theme import DEFAULT_THEME, Theme
from ..geometry.rigid_motion import Point
from ..kinds.registry import kind_of

__all__ = ["DrawnSheet", "drawn_sheet", "option_svg", "panel_svg"]

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


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnSheet:
    """The question as it is printed for learners, and where what is turned on it lies."""

    svg: str
    parts: tuple[dict[str, Any], ...] = ()  # {option, middle, room}, in units of the picture's view box

    def told(self, ids: Sequence[str]) -> list[dict[str, Any]]:
        """As JSON has it, each part of the question with its id."""
        named = iter(ids)
        return [{"id": None if part["option"] else next(named, None), **part} for part in self.parts]


def drawn_sheet(solution: Solution, theme: Theme = DEFAULT_THEME) -> DrawnSheet:
    """The sheet of a question: nothing in it tells the answer."""
    asked = kind_of(solution.item).on_paper(solution, paper_theme(theme), Printing()).asked("")
    picture = asked.picture
    svg = svg_of(picture.figure, width_px=800, ids=False, box=picture.box).strip()
    return DrawnSheet(svg=svg, parts=tuple(_part(part.option, part.middle, part.room) for part in asked.parts))


def _part(option: str, middle: Point, room_: Box) -> dict[str, Any]:
    """In the picture's own units, y down."""
    left, top = VIEW.point((room_.left, room_.top))
    right, low = VIEW.point((room_.right, room_.bottom))
    numbers = [*VIEW.point(middle), left, top, right, low]
    x, y, *room = (round(number, 2) for number in numbers)
    return {"option": option, "middle": [x, y], "room": room}

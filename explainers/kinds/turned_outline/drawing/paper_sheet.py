"""The question as it is printed: the outline above, the options in rows below, on one page or on two.

Nothing here depends on which option is right.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from ....choice.drawing.option_cells import OptionCells, largest_extent, options_on_paper
from ....choice.drawing.question_page import EDGE
from ....figure.layout import Box, extent_of, view_into
from ....figure.model import Entry, Figure
from ....figure.panels import outline_entries, panel
from ....figure.paper import Picture
from ....figure.subject import EVERY_OPTION
from ....figure.theme import Theme
from ..solution import TurnedOutlineSolution

__all__ = ["PaperSheet"]

_PAD = 0.3  # between the outline and its panel
_GAP = 0.3  # between panels
_SHARES = (0.25, 0.3, 0.36, 0.42, 0.48, 0.54)  # of the height, at most for the outline
_WHOLE = 1.0  # ... which has a page of its own


@dataclass(frozen=True)
class PaperSheet:
    """The printed sheet of one question, as high as it needs to be.

    width, height  : of a page, stage units; the sheet's upper edge lies at y = 0
    mm_per_unit    : on paper
    outline_mm     : what the outline is to measure across, unless there is less room
    option_mm      : the same for the largest option
    options_height : stage units at most, where the options have a page of their own; None where they have not
    """

    solution: TurnedOutlineSolution
    theme: Theme
    width: float
    height: float
    mm_per_unit: float
    outline_mm: float
    option_mm: float
    options_height: float | None = None

    @property
    def scales_mm(self) -> tuple[float, float]:
        """What a unit of the item measures on paper: in the outline, in the options."""
        scale, options = self._arranged
        return scale * self.mm_per_unit, options.scale * self.mm_per_unit

    @property
    def cells(self) -> OptionCells:
        """The options where they lie."""
        return self._arranged[1]

    def picture(self, alt: str) -> Picture:
        """The whole sheet at its printed size."""
        return self._seen(alt, [*self._outline(), *self._options()], 0.0, self._arranged[1].room.bottom)

    def pictures(self, asked_alt: str, options_alt: str) -> tuple[Picture, Picture]:
        """The outline; the options."""
        room = self._arranged[1].room
        return (
            self._seen(asked_alt, self._outline(), 0.0, self._panel.bottom),
            self._seen(options_alt, self._options(), room.top, room.bottom),
        )

    def _seen(self, alt: str, entries: list[Entry], top: float, bottom: float) -> Picture:
        figure = Figure(background=self.theme.paper, entries=tuple(entries), alt=alt)
        box = Box(-EDGE, bottom - EDGE, self.width + EDGE, top + EDGE)
        return Picture(figure=figure, box=box, mm_per_unit=self.mm_per_unit)

    def _outline(self) -> list[Entry]:
        view = view_into(self._shape, self._panel, self._arranged[0])
        return [
            panel("sheet-outline", self._panel, self.theme),
            *outline_entries(self.solution.outline, view, self.theme),
        ]

    def _options(self) -> list[Entry]:
        cells = self._arranged[1]
        return [panel("sheet-options", cells.room, self.theme, subject=EVERY_OPTION), *cells.entries(self.theme)]

    @property
    def _shape(self) -> Box:
        return extent_of(self.solution.outline.exterior)

    @property
    def _panel(self) -> Box:
        return Box(0.0, -self._panel_height(self._arranged[0]), self.width, 0.0)

    def _panel_height(self, scale: float) -> float:
        return scale * self._shape.height + 2 * _PAD

    @cached_property
    def _arranged(self) -> tuple[float, OptionCells]:
        """The scale of the outline, and the options: the sharing of the height that leaves the smaller one largest."""
        shares = _SHARES if self.options_height is None else (_WHOLE,)
        found = [arranged for share in shares if (arranged := self._shared(share)) is not None]
        return max(found, key=lambda one: min(self._worth(one)))

    def _shared(self, share: float) -> tuple[float, OptionCells] | None:
        scale = min(
            self.outline_mm / self.mm_per_unit / max(self._shape.width, self._shape.height),
            (self.width - 2 * _PAD) / self._shape.width,
            (self.height * share - 2 * _PAD) / self._shape.height,
        )
        if self.options_height is None:
            top, bottom = -self._panel_height(scale) - _GAP, -self.height
        else:
            top, bottom = -self.height - _GAP, -self.height - _GAP - self.options_height
        room = Box(0.0, bottom, self.width, top)
        options = options_on_paper(self.solution, room, wished=self.option_mm / self.mm_per_unit)
        return None if options is None else (scale, options)

    def _worth(self, arranged: tuple[float, OptionCells]) -> tuple[float, float]:
        """How near both come to what is wished for."""
        scale, options = arranged
        outline = scale * max(self._shape.width, self._shape.height) * self.mm_per_unit / self.outline_mm
        return outline, options.scale * largest_extent(self.solution) * self.mm_per_unit / self.option_mm

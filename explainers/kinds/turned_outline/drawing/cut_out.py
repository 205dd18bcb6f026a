"""The outline at a true scale, to be cut out of paper: its word inside, where it is not lost when it is cut out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import shapely

from ....choice.drawing.cut_scale import good_unit_mm
from ....figure.layout import Box, extent_of, view_into
from ....figure.model import Entry, Figure, Label, Role
from ....figure.panels import outline_entries
from ....figure.paper import Picture
from ....figure.theme import Theme
from ....geometry.outline import Outline
from ....typeface.faces import face

__all__ = ["CutOut"]

_PAD = 0.45  # round the outline: room for scissors
_WORD_ROOM = 0.75  # under it, for a word that has no room inside
_BELOW = 0.42


@dataclass(frozen=True)
class CutOut:
    """The outline of one question to cut out.

    width, height : of the room for it on a page, stage units
    mm_per_unit   : of the stage, on paper
    word          : what is written on it, so that it is seen which side is up
    """

    outline: Outline
    theme: Theme
    width: float
    height: float
    mm_per_unit: float
    word: str

    @cached_property
    def unit_mm(self) -> float:
        """What one unit of the item measures on paper."""
        return good_unit_mm(on_one_page=self._has_room, on_pages=self._has_room)

    def picture(self, alt: str) -> Picture:
        """The outline, as high as it needs to be on a page."""
        scale = self.unit_mm / self.mm_per_unit
        shape = extent_of(self.outline.exterior)
        height = scale * shape.height + 2 * _PAD + _WORD_ROOM
        room = Box(0.0, -scale * shape.height - 2 * _PAD, self.width, 0.0)
        view = view_into(shape, room, scale)
        circle = shapely.maximum_inscribed_circle(shapely.Polygon(self.outline.exterior, self.outline.holes))
        (x, y), radius = circle.coords[0], circle.length * scale
        is_inside = face(bold=True).width(self.word, self.theme.word_size) <= 1.8 * radius
        word = Label(
            id="outline-word",
            group="words",
            role=Role.WORD,
            text=self.word,
            at=view.apply_point((x, y)) if is_inside else (room.middle[0], room.bottom + _PAD - _BELOW),
            size=self.theme.word_size,
            colour=self.theme.ink,
            bold=True,
        )
        entries: tuple[Entry, ...] = (*outline_entries(self.outline, view, self.theme), word)
        figure = Figure(background=self.theme.paper, entries=entries, alt=alt)
        return Picture(figure=figure, box=Box(0.0, -height, self.width, 0.0), mm_per_unit=self.mm_per_unit)

    def _has_room(self, unit_mm: float) -> bool:
        scale = unit_mm / self.mm_per_unit
        shape = extent_of(self.outline.exterior)
        wide, high = scale * shape.width + 2 * _PAD, scale * shape.height + 2 * _PAD + _WORD_ROOM
        return wide <= self.width and high <= self.height

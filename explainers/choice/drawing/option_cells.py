"""Options in equal cells, each with its letter, all at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...figure.layout import Box, extent_of, fitting_scale, view_into
from ...figure.model import Area, Entry, Label, Role
from ...figure.subject import option_subject
from ...figure.theme import Theme
from ...geometry.rigid_motion import Point, Similarity
from ...geometry.rings import shortest_side
from ..model import Solution

__all__ = ["OptionCells"]

_INSET = 0.12
_LETTER_ROOM = 0.52  # left of an option, for its letter and, under it, its sign


@dataclass(frozen=True)
class OptionCells:
    """The options of an item in one room, in so many columns."""

    solution: Solution
    room: Box
    columns: int

    @property
    def scale(self) -> float:
        """The one scale at which every option, drawn as it is to be shown, has room."""
        return min(
            fitting_scale(shape, self._drawing_room(cell))
            for shape, cell in zip(self._shapes, self._cells, strict=True)
        )

    @property
    def shortest_side(self) -> float:
        """The shortest side of any option as it comes out on the stage."""
        return self.scale * min(
            verdict.drawn.scale * shortest_side(verdict.outline.rings) for verdict in self.solution.verdicts
        )

    def view(self, label: str) -> Similarity:
        """From an option's own coordinates to its cell."""
        index = self._index(label)
        drawn = self.solution.verdicts[index].drawn
        return view_into(self._shapes[index], self._drawing_room(self._cells[index]), self.scale, drawn)

    def room_of(self, label: str) -> Box:
        """Where an option alone is drawn, with the margin round it: as large for all, with no letter, in no other."""
        return self._drawing_room(self._cells[self._index(label)]).inset(-_INSET)

    def letter_at(self, label: str) -> Point:
        """Where an option's letter stands."""
        cell = self._cells[self._index(label)]
        return (cell.left + 0.36, cell.top - 0.4)

    def entries(self, theme: Theme, *, without: str | None = None) -> tuple[Entry, ...]:
        """The options with their letters; `without`: the one whose outline is left out, since it is in use."""
        entries: list[Entry] = []
        for verdict in self.solution.verdicts:
            own = option_subject(verdict.label)
            name = own.group
            if verdict.label != without:
                view = self.view(verdict.label)
                rings = tuple(view.apply(ring) for ring in verdict.outline.rings)
                cloth = Area(
                    id=f"{name}-cloth", group=name, subject=own, role=Role.OPTION, rings=rings, fill=theme.option
                )
                entries += [
                    cloth,
                    replace(cloth, id=name, fill=None, stroke=theme.ink, width=theme.side_width),
                ]
            entries.append(
                Label(
                    id=f"{name}-letter",
                    group="options",
                    subject=own,
                    role=Role.WORD,
                    text=verdict.label,
                    at=self.letter_at(verdict.label),
                    size=theme.option_size,
                    colour=theme.ink,
                    bold=True,
                )
            )
        return tuple(entries)

    @property
    def _cells(self) -> Sequence[Box]:
        count = len(self.solution.verdicts)
        return self.room.inset(0.08).cells(self.columns, -(-count // self.columns))[:count]

    @property
    def _shapes(self) -> list[Box]:
        return [extent_of(verdict.drawn.apply(verdict.outline.exterior)) for verdict in self.solution.verdicts]

    def _drawing_room(self, cell: Box) -> Box:
        inner = cell.inset(_INSET)
        return Box(inner.left + _LETTER_ROOM, inner.bottom, inner.right, inner.top)

    def _index(self, label: str) -> int:
        return [verdict.label for verdict in self.solution.verdicts].index(label)

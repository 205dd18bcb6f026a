"""Options in equal cells, each with its letter, all at one scale, in as many rows as leave them large."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...figure.layout import Box, extent_of, fitting_scale, view_into
from ...figure.legibility import LEAST_SIDE
from ...figure.model import Area, Entry, Label, Role
from ...figure.subject import option_subject
from ...figure.theme import Theme
from ...geometry.rigid_motion import Point, Similarity
from ...geometry.rings import shortest_side
from ..model import Solution

__all__ = [
    "ROOMY_LETTER",
    "SIGN_BELOW",
    "SIGN_LEFT",
    "SIGN_SIZE",
    "OptionCells",
    "largest_extent",
    "letter_group",
    "options_in_rows",
    "options_on_paper",
]

_INSET = 0.12
LETTER_ROOM = 0.52  # left of an option, for its letter and, under it, its sign ...
ROOMY_LETTER = 0.8  # ... and where dots and rings on its corners are to stay clear of that sign
_LETTER_LEFT = 0.36  # of a letter in its cell ...
_CLEAR_OF_LETTER = 0.22  # right of the middle of a letter, and of the sign under it
_BESIDE = 0.46  # ... or, where it has more room, from the option itself, so that both are seen to belong together
SIGN_BELOW, SIGN_LEFT, SIGN_SIZE = 0.55, 0.04, 0.15  # the sign stands under the letter, clear of the option's room

_LEAST_HEIGHT = 1.5  # stage units


@dataclass(frozen=True)
class OptionCells:
    """The options of an item in one room, in so many columns."""

    solution: Solution
    room: Box
    columns: int
    letter_room: float = LETTER_ROOM

    @property
    def largest(self) -> float:
        """What the largest option measures across on the stage."""
        return self.scale * largest_extent(self.solution)

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
        """Where an option alone is drawn, with the margin round it: clear of its letter and of all others."""
        room = self._drawing_room(self._cells[self._index(label)]).inset(-_INSET)
        return Box(max(room.left, self.letter_at(label)[0] + _CLEAR_OF_LETTER), room.bottom, room.right, room.top)

    def shape_of(self, label: str) -> Box:
        """What an option takes up, as it is drawn."""
        outline = self.solution.verdicts[self._index(label)].outline.exterior
        return extent_of(self.view(label).apply(outline))

    def cell_of(self, label: str) -> Box:
        """Its own cell, with its letter; as large for all."""
        return self._cells[self._index(label)]

    def letter_at(self, label: str) -> Point:
        """Where an option's letter stands."""
        cell = self._cells[self._index(label)]
        if self.letter_room < ROOMY_LETTER:
            return (cell.left + _LETTER_LEFT, cell.top - 0.4)
        return (self.shape_of(label).left - _BESIDE, cell.top - 0.4)

    def entries(self, theme: Theme, *, without: str | None = None) -> tuple[Entry, ...]:
        """The options with their letters; `without`: the one whose outline is left out, since it is in use."""
        entries: list[Entry] = []
        for verdict in self.solution.verdicts:
            own = option_subject(verdict.label)
            name = own.group
            if verdict.label != without:
                view = self.view(verdict.label)
                rings = tuple(view.apply(ring) for ring in verdict.outline.rings)
                material = Area(
                    id=f"{name}-cloth", group=name, subject=own, role=Role.OPTION, rings=rings, fill=theme.option
                )
                entries += [
                    material,
                    replace(material, id=name, fill=None, stroke=theme.ink, width=theme.side_width),
                ]
            entries.append(
                Label(
                    id=f"{name}-letter",
                    group=letter_group(verdict.label),
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
        return Box(inner.left + self.letter_room, inner.bottom, inner.right, inner.top)

    def _index(self, label: str) -> int:
        return [verdict.label for verdict in self.solution.verdicts].index(label)


def letter_group(label: str) -> str:
    """What moves as one with an option's letter: its sign."""
    return f"{option_subject(label).group}-head"


def options_in_rows(solution: Solution, room: Box) -> OptionCells:
    """The options in one row, or in two where that lets their sides be seen; else letters have less room."""
    count = len(solution.verdicts)
    tried = [
        OptionCells(solution=solution, room=room, columns=columns, letter_room=letter_room)
        for letter_room in (ROOMY_LETTER, LETTER_ROOM)
        for columns in (count, -(-count // 2))
    ]
    enough = [cells for cells in tried if cells.shortest_side >= LEAST_SIDE]
    return enough[0] if enough else max(tried, key=lambda cells: cells.shortest_side)


def largest_extent(solution: Solution) -> float:
    """The larger extent of the largest option as it is drawn, at scale 1."""
    boxes = [extent_of(verdict.drawn.apply(verdict.outline.exterior)) for verdict in solution.verdicts]
    return max(max(box.width, box.height) for box in boxes)


def options_on_paper(solution: Solution, room: Box, *, wished: float) -> OptionCells | None:
    """The options from the top of a room down, in the rows that leave them largest, in no more height than they need.

    wished : what the largest is to measure across, stage units, unless there is less room
    Returns: None where there is no room
    """
    count, most = len(solution.verdicts), room.height
    if most < _LEAST_HEIGHT:
        return None
    goal = wished / largest_extent(solution)
    found: list[tuple[float, float, OptionCells]] = []
    for columns in sorted({count, -(-count // 2), min(3, count), 2}):
        rows = -(-count // columns)
        cells = OptionCells(solution, room, columns)
        if cells.scale <= 0.0:
            continue
        # The scale that there is room for, or the one that is wished for, in the least height that gives it.
        wanted = min(cells.scale, goal)
        tallest = max(extent_of(v.drawn.apply(v.outline.exterior)).height for v in solution.verdicts)
        least = min(most, rows * (tallest * wanted + 0.5) + 0.16)
        cells = OptionCells(solution, Box(room.left, room.top - least, room.right, room.top), columns)
        found.append((min(cells.scale, goal), -least, cells))
    if not found:
        return None
    return max(found, key=lambda one: (round(one[0] / goal, 2), one[1]))[2]

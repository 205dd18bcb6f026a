"""The question sheet: base and pieces above, options in a row below, all that a learner needs to answer.

Nothing here depends on which option is right.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from ..geometry.rigid_motion import Point, Similarity
from ..solution.model import Solution
from ..typeface.faces import label_disc_radius
from ..wording.names import named
from .cloth import Cloth, group_of
from .layout import (
    SHEET_BASE,
    SHEET_OPTIONS,
    SHEET_PIECES,
    Box,
    extent_of,
    fitting_scale,
    view_into,
)
from .model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role
from .motion import Glide
from .theme import Theme

__all__ = ["Sheet", "extent_of_entries", "option_entries", "panel"]

_PAD = 0.28  # between what is drawn and the edge of its room
_WORD_ROOM = 0.62  # under a piece, for its word
_LETTER_ROOM = 0.55  # left of an option, for its letter


@dataclass(frozen=True)
class Sheet:
    """The sheet of one item."""

    solution: Solution
    theme: Theme

    @cached_property
    def cloth(self) -> Cloth:
        """Base and pieces at the one scale at which everything has room."""
        scale = self._first_scale()
        for _ in range(40):
            cloth = Cloth(solution=self.solution, theme=self.theme, scale=scale, tag="-sheet")
            if self._has_room(cloth):
                return cloth
            scale *= 0.95
        return cloth

    @cached_property
    def base_view(self) -> Similarity:
        """From the base's coordinates to the stage."""
        return self._base_view(self.cloth)

    def piece_glide(self, index: int) -> Glide:
        """From where a piece ends up (drawn by `base_view`) to its place on the sheet, turned as the sheet shows it."""
        return self._piece_glide(self.cloth, self.base_view, index)

    def figure(self, alt: str, *, options: bool = True) -> Figure:
        """The whole sheet; without options, what the options are chosen for."""
        theme = self.theme
        entries: list[Entry] = [panel("sheet-base", SHEET_BASE, theme), panel("sheet-pieces", SHEET_PIECES, theme)]
        entries += self.base_entries()
        for index in range(len(self.solution.placements)):
            entries += self.piece_entries(index)
            entries.append(self._word(index))
        if options:
            entries.append(panel("sheet-options", SHEET_OPTIONS, theme))
            entries += option_entries(self.solution, SHEET_OPTIONS, theme, columns=len(self.solution.verdicts))
        return Figure(background=theme.paper, entries=tuple(entries), alt=alt)

    def base_entries(self) -> tuple[Entry, ...]:
        """The base with its marks."""
        return _base_with_marks(self.cloth, self.base_view)

    def piece_entries(self, index: int) -> tuple[Entry, ...]:
        """A piece as the sheet shows it."""
        return self.cloth.carried(self.cloth.piece(index, self.base_view), self.piece_glide(index))

    def _word(self, index: int) -> Label:
        piece = self.solution.placements[index].piece
        cell = self._cells()[index]
        return Label(
            id=f"{group_of(index)}-word",
            group="sheet",
            role=Role.WORD,
            text=f"{self.theme.words[piece.does.value]}: {named(piece.name)}",
            at=(cell.middle[0], cell.bottom + 0.38),
            size=self.theme.word_size,
            colour=self.theme.ink,
            bold=True,
        )

    def _cells(self) -> tuple[Box, ...]:
        count = len(self.solution.placements)
        rows = 1 if count <= 3 else 2
        return SHEET_PIECES.cells(-(-count // rows), rows)

    def _room(self, index: int) -> Box:
        cell = self._cells()[index].inset(_PAD)
        return Box(cell.left, cell.bottom + _WORD_ROOM - _PAD / 2, cell.right, cell.top)

    def _first_scale(self) -> float:
        return fitting_scale(extent_of(self.solution.item.base.exterior), SHEET_BASE.inset(_PAD))

    def _base_view(self, cloth: Cloth) -> Similarity:
        plain = Similarity(scale=cloth.scale)
        shape = extent_of_entries(_base_with_marks(cloth, plain))
        (x, y), (goal_x, goal_y) = shape.middle, SHEET_BASE.middle
        return Similarity(scale=cloth.scale, shift=(goal_x - x, goal_y - y))

    def _piece_glide(self, cloth: Cloth, view: Similarity, index: int) -> Glide:
        placement = self.solution.placements[index]
        about = view.apply_point(cloth.middle(index))
        back = Glide(group=group_of(index), about=about, turn_deg=-placement.turn_deg)
        shape = extent_of_entries(cloth.carried(cloth.piece(index, view), back))
        (x, y), (goal_x, goal_y) = shape.middle, self._room(index).middle
        return Glide(group=back.group, about=about, turn_deg=back.turn_deg, by=(goal_x - x, goal_y - y))

    def _has_room(self, cloth: Cloth) -> bool:
        view = self._base_view(cloth)
        shape = extent_of_entries(_base_with_marks(cloth, view))
        if fitting_scale(shape, SHEET_BASE.inset(_PAD)) < 1.0:
            return False
        for index in range(len(self.solution.placements)):
            entries = cloth.carried(cloth.piece(index, view), self._piece_glide(cloth, view, index))
            if fitting_scale(extent_of_entries(entries), self._room(index)) < 1.0:
                return False
        return True


def option_entries(
    solution: Solution, room: Box, theme: Theme, *, columns: int, without: str | None = None
) -> tuple[Entry, ...]:
    """The options with their letters, in equal cells; `without`: the one whose outline is left out (it is in use)."""
    entries: list[Entry] = []
    for verdict in solution.verdicts:
        view = option_view(solution, room, columns=columns, label=verdict.label)
        name = f"option-{verdict.label.lower()}"
        if verdict.label != without:
            rings = tuple(view.apply(ring) for ring in verdict.outline.rings)
            entries.append(Area(id=f"{name}-cloth", group=name, role=Role.OPTION, rings=rings, fill=theme.option))
            entries.append(
                Area(id=name, group=name, role=Role.OPTION, rings=rings, stroke=theme.ink, width=theme.side_width)
            )
        entries.append(
            Label(
                id=f"{name}-letter",
                group="options",
                role=Role.WORD,
                text=verdict.label,
                at=option_letter_at(solution, room, columns=columns, label=verdict.label),
                size=theme.option_size,
                colour=theme.ink,
                bold=True,
            )
        )
    return tuple(entries)


def _option_cells(solution: Solution, room: Box, columns: int) -> tuple[Box, ...]:
    return room.inset(0.1).cells(columns, -(-len(solution.verdicts) // columns))


def _option_room(cell: Box) -> Box:
    inner = cell.inset(0.16)
    return Box(inner.left + _LETTER_ROOM, inner.bottom, inner.right, inner.top)


def option_letter_at(solution: Solution, room: Box, *, columns: int, label: str) -> Point:
    """Where the letter of an option stands in its cell."""
    index = [verdict.label for verdict in solution.verdicts].index(label)
    cell = _option_cells(solution, room, columns)[index]
    return (cell.left + 0.42, cell.top - 0.42)


def option_view(solution: Solution, room: Box, *, columns: int, label: str) -> Similarity:
    """From an option's own coordinates to its cell, at the one scale at which all options have room."""
    cells = _option_cells(solution, room, columns)
    shapes = [extent_of(verdict.drawn.apply(verdict.outline.exterior)) for verdict in solution.verdicts]
    scale = min(
        fitting_scale(shape, _option_room(cell)) for shape, cell in zip(shapes, cells[: len(shapes)], strict=True)
    )
    index = [verdict.label for verdict in solution.verdicts].index(label)
    return view_into(shapes[index], _option_room(cells[index]), scale, solution.verdicts[index].drawn)


def panel(name: str, box: Box, theme: Theme, *, tray: bool = False) -> Area:
    """A panel: a lighter field that holds what belongs together."""
    return Area(
        id=name,
        group="panels",
        role=Role.PANEL,
        rings=(box.ring,),
        fill=theme.tray if tray else theme.table,
        stroke=theme.panel_stroke,
        width=theme.panel_width,
        rounded=theme.panel_rounded,
    )


def extent_of_entries(entries: Iterable[Entry]) -> Box:
    """The rectangle that holds what is drawn, letters with the disc that they keep free."""
    points: list[Point] = []
    for entry in entries:
        match entry:
            case Area():
                points += [point for ring in entry.rings for point in ring]
            case Lines():
                points += [point for pair in entry.segments for point in pair]
            case Arrow():
                points += entry.path
            case Dots():
                points += entry.centres
            case Label():
                (x, y), radius = entry.at, label_disc_radius(entry)
                points += [(x - radius, y - radius), (x + radius, y + radius)]
            case Circle():
                (x, y), radius = entry.centre, entry.radius
                points += [(x - radius, y - radius), (x + radius, y + radius)]
    return extent_of(points)


def _base_with_marks(cloth: Cloth, view: Similarity) -> tuple[Entry, ...]:
    entries = list(cloth.base(view))
    for index in range(len(cloth.solution.placements)):
        if cloth.partner_owner(index) is None:
            entries += cloth.partner_mark(index, view)
    return tuple(entries)

"""The question sheet: base and pieces above, options in a row below, all that a learner needs to answer.

Nothing here depends on which option is right.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from ....choice.drawing.option_cells import OptionCells, options_in_rows
from ....errors import Fault, ItemError
from ....figure.layout import Box, extent_of, extent_of_entries
from ....figure.legibility import LEAST_SIDE
from ....figure.model import Entry, Figure, Label, Role
from ....figure.motion import Glide
from ....figure.panels import panel
from ....figure.subject import EVERY_OPTION
from ....figure.theme import Theme
from ....geometry.angles import wrapped_deg
from ....geometry.rigid_motion import Point, Similarity
from ....geometry.rings import shortest_side
from ....typeface.faces import face
from ..solving.solution import JoinAndCutSolution
from .assembly_drawing import AssemblyDrawing, group_of, piece_subject
from .fitting_words import piece_words
from .sheet_layout import Needs, SheetLayout, bands, fit_band, most_word_width

__all__ = ["Sheet"]

_TAG = "-sheet"
_STEP = 0.96  # from one scale that is tried to the next
_SMALLER = 0.9  # what is nearer looks as large: judgement, no source
_LEAST_PART = 0.1  # of the first scale: letters keep their size, and what has no room by then has none


@dataclass(frozen=True)
class _Arranged:
    assembly: AssemblyDrawing
    layout: SheetLayout
    options: OptionCells
    shortest_side: float


@dataclass(frozen=True)
class Sheet:
    """The sheet of one item."""

    solution: JoinAndCutSolution
    theme: Theme

    @property
    def assembly(self) -> AssemblyDrawing:
        """Base and pieces at the one scale at which everything has room."""
        return self._arranged.assembly

    @property
    def cells(self) -> OptionCells:
        """The options in their row."""
        return self._arranged.options

    @property
    def options_are_smaller(self) -> bool:
        """Whether every option is plainly drawn smaller than base and pieces, measured in units of the base."""
        base, options = self.assembly.scale, self.cells.scale
        scales = [options * each.drawn.scale / each.fit.motion.scale for each in self.solution.verdicts]
        return max(scales) <= _SMALLER * base

    @property
    def band(self) -> Box:
        """The panels of base and pieces together."""
        base, pieces = self._arranged.layout.base, self._arranged.layout.pieces
        return Box(base.left, base.bottom, pieces.right, base.top)

    @cached_property
    def base_view(self) -> Similarity:
        """From the base's coordinates to the stage."""
        shape = extent_of_entries(_base_with_marks(self.assembly, Similarity(scale=self.assembly.scale)))
        (x, y), (goal_x, goal_y) = shape.middle, self._arranged.layout.base.middle
        return Similarity(scale=self.assembly.scale, shift=(goal_x - x, goal_y - y))

    def piece_glide(self, index: int) -> Glide:
        """From where a piece ends up (drawn by `base_view`) to its place on the sheet, turned as the sheet shows it."""
        view = self.base_view
        about = view.apply_point(self.assembly.middle(index))
        turn_deg = -self.solution.placements[index].turn_deg
        (x, y) = _as_shown(self.assembly, index, view).middle
        goal_x, goal_y = self._arranged.layout.room(index).middle
        return Glide(group=group_of(index), about=about, turn_deg=turn_deg, by=(goal_x - x, goal_y - y))

    def piece_room(self, index: int) -> Box:
        """What a piece takes up on the sheet, with its marks."""
        shape = _as_shown(self.assembly, index, self.base_view)
        x, y = self._arranged.layout.room(index).middle
        return Box(x - shape.width / 2, y - shape.height / 2, x + shape.width / 2, y + shape.height / 2)

    def piece_middle(self, index: int) -> Point:
        """About which a piece is turned on the sheet."""
        glide = self.piece_glide(index)
        return glide.about[0] + glide.by[0], glide.about[1] + glide.by[1]

    def figure(self, alt: str) -> Figure:
        """The whole sheet."""
        theme, arranged = self.theme, self._arranged
        entries: list[Entry] = [
            panel("sheet-base", arranged.layout.base, theme),
            panel("sheet-pieces", arranged.layout.pieces, theme),
            panel("sheet-options", arranged.options.room, theme, subject=EVERY_OPTION),
        ]
        entries += _base_with_marks(self.assembly, self.base_view)
        for index in range(len(self.solution.placements)):
            entries += self.assembly.moved(self.assembly.piece(index, self.base_view), self.piece_glide(index))
            entries.append(self._word(index))
        entries += arranged.options.entries(theme)
        return Figure(background=theme.paper, entries=tuple(entries), alt=alt)

    @cached_property
    def _arranged(self) -> _Arranged:
        """The usual sharing of the room where every side can be seen, else the one with the longest shortest side."""
        best: _Arranged | None = None
        for band, row in bands():
            arranged = self._in_band(band, row, better_than=best.shortest_side if best is not None else 0.0)
            if arranged is None:
                continue
            best = arranged
            if arranged.shortest_side >= LEAST_SIDE:
                break
        if best is None:
            item = self.solution.item
            message = f"the pieces of {item.name} have no room beside the base, with their marks and words"
            raise ItemError(
                [Fault(field="pieces", message=message, fix="ask with fewer pieces, or with shorter names")]
            )
        return best

    def _in_band(self, band: Box, row: Box, better_than: float) -> _Arranged | None:
        """Everything as large as this band lets it be.

        None where letters and words alone are too much for it, or its shortest side would be no longer than that: to
        place the letters is what takes the time.
        """
        options = options_in_rows(self.solution, row)
        rings = list(self.solution.item.base.rings)
        rings += [placement.ring for placement in self.solution.placements]
        shortest = shortest_side(rings)
        scale = first = self._scale_without_letters(band)
        while True:
            if min(scale * shortest, options.shortest_side) <= better_than:
                return None
            assembly = AssemblyDrawing(solution=self.solution, theme=self.theme, scale=scale, tag=_TAG)
            layout = fit_band(band, self._needs(assembly))
            if layout is not None:
                break
            scale *= _STEP
            if scale < _LEAST_PART * first:
                return None
        return _Arranged(assembly, layout, options, min(scale * shortest, options.shortest_side))

    def _scale_without_letters(self, band: Box) -> float:
        """A first scale, at which everything but letters would have room: quick to find, and rarely far off."""
        base = extent_of(self.solution.item.base.exterior)
        shown = []
        for placement in self.solution.placements:
            turn = Similarity(turn_deg=wrapped_deg(-placement.turn_deg))
            box = extent_of(turn.apply(placement.ring))
            shown.append((box.width, box.height))
        scale = band.height / max(base.height, 1e-9)
        while True:
            pieces = tuple((width * scale, height * scale) for width, height in shown)
            needs = Needs((base.width * scale, base.height * scale), pieces, self._word_widths)
            if fit_band(band, needs) is not None:
                return scale
            scale *= _STEP

    def _needs(self, assembly: AssemblyDrawing) -> Needs:
        view = Similarity(scale=assembly.scale)
        base = extent_of_entries(_base_with_marks(assembly, view))
        pieces = [_as_shown(assembly, index, view) for index in range(len(self.solution.placements))]
        return Needs((base.width, base.height), tuple((box.width, box.height) for box in pieces), self._word_widths)

    @cached_property
    def _word_widths(self) -> tuple[float, ...]:
        bold = face(bold=True)
        return tuple(bold.width(*self._word_text(index)) for index in range(len(self.solution.placements)))

    def _word_text(self, index: int) -> tuple[str, float]:
        """What stands under a piece, with its size: no wider than a share of the row, whatever the names are."""
        piece = self.solution.placements[index].piece
        return piece_words(
            piece.name,
            piece.does,
            theme=self.theme,
            size=self.theme.word_size,
            width=most_word_width(len(self.solution.placements)),
        )

    def _word(self, index: int) -> Label:
        layout = self._arranged.layout
        text, size = self._word_text(index)
        return Label(
            id=f"{group_of(index)}-word",
            group="sheet",
            subject=piece_subject(index),
            role=Role.WORD,
            text=text,
            at=(layout.cells[index].middle[0], layout.word_y(index)),
            size=size,
            colour=self.theme.ink,
            bold=True,
        )


def _as_shown(assembly: AssemblyDrawing, index: int, view: Similarity) -> Box:
    """The rectangle of a piece as the sheet shows it, turned about its own middle where it ends up."""
    about = view.apply_point(assembly.middle(index))
    back = Glide(group=group_of(index), about=about, turn_deg=-assembly.solution.placements[index].turn_deg)
    return extent_of_entries(assembly.moved(assembly.piece(index, view, plain=True), back))


def _base_with_marks(assembly: AssemblyDrawing, view: Similarity) -> tuple[Entry, ...]:
    entries = list(assembly.base(view))
    for index in range(len(assembly.solution.placements)):
        if assembly.partner_owner(index) is None:
            entries += assembly.partner_mark(index, view)
    return tuple(entries)

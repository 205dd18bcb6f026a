"""The work table: one piece after another is turned on the tray, brought to meet, and joined or cut away.

A figure here is a function of how far the work has got: so many pieces done, and the phase of the next one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

from ....figure.layout import TABLE, TRAY, WHOLE, Box, extent_of, extent_of_entries, fitting_scale, view_into
from ....figure.model import Align, Area, Entry, Figure, Label, Lines, Role
from ....figure.motion import Glide
from ....figure.panels import outline_entries, panel
from ....figure.signs import broken, tick_sign
from ....figure.subject import THE_OUTLINE
from ....figure.theme import Theme
from ....geometry.angles import bearing_deg
from ....geometry.rigid_motion import Point, Similarity
from ....geometry.side import left_normal, midpoint
from ....sentences.labels import turn_label
from ....words.names import is_no_turn
from ..facts.merge import Corners
from ..model import Does
from ..solving.solution import JoinAndCutSolution
from .assembly_drawing import THE_BASE, AssemblyDrawing, faded, group_of, piece_subject
from .corner_signs import corner_signs
from .fitting_words import fitted_size, piece_words
from .turn_signs import TURN_GROUP, ghost, turn_arc

__all__ = ["TRAY_GROUP", "TablePhase", "WorkTable"]

TRAY_GROUP = "tray"  # what is written on the tray
PLACES_GROUP = "places"  # where a piece lay on it that is on the table now

_PAD = 0.4
_ALONE_PAD = 0.7  # round the outline when it stands alone
_MUCH_ROOM = 1.25  # everything may be so many times as large: it was measured at a scale far off
_WORD_ROOM = 0.75  # at the head of the tray, for the piece's word
_WORD_MARGIN = 0.2  # at both sides of the tray together, beside the words of a turn
_TURN_ROOM = 0.68  # under the piece, for the words of its turn
_LIST_TICK = 0.5  # left of each line, for its tick
_LIST_LINE = 0.46  # at the foot of the tray, one line a piece
_ARC_GAP = 0.22  # between a piece's reach and the arc of its turn
_STAND_OFF = 0.9  # how far from its partner a piece comes to rest before the last straight stretch
_SUM_SIZE = 1.8  # of the size of degrees: the sum of corners has the tray to itself
_GONE = 0.45  # opacity of a piece that was cut away


class TablePhase(StrEnum):
    """How far the work on one piece has got."""

    SHOWN = "shown"  # on the tray, as the sheet shows it
    POINTED = "pointed"  # the same, both marked sides pointed at
    TURNING = "turning"  # the same, with the arc of the turn to come
    TURNED = "turned"  # on the tray, turned, with a ghost of how it lay
    ALONGSIDE = "alongside"  # on the tray, turned, both marked sides pointed at in place of the turn
    MET = "met"  # laid where the marks meet
    OPENED = "opened"  # a cut: laid, and the cloth beneath it already taken out
    DONE = "done"  # joined, or cut away and back on the tray


_ON_TRAY = frozenset(TablePhase) - {TablePhase.MET, TablePhase.OPENED, TablePhase.DONE}


@dataclass(frozen=True)
class WorkTable:
    """The work on one item."""

    solution: JoinAndCutSolution
    theme: Theme

    @cached_property
    def assembly(self) -> AssemblyDrawing:
        """Base and pieces at the one scale that leaves room for everything, from first to last."""
        scale = self._room_at(1.0)
        # Letters do not grow with the cloth: typed in metres, a cloth is next to nothing beside them at first.
        while (more := self._room_at(scale)) > _MUCH_ROOM:
            scale *= more
        for _ in range(60):
            assembly = AssemblyDrawing(solution=self.solution, theme=self.theme, scale=scale)
            reach = max(assembly.reach(index) for index in range(len(self.solution.placements)))
            fits = self._room_at(scale) >= 1.0
            if fits and 2 * (reach + _ARC_GAP + 0.15) <= min(self._turning_place.width, self._turning_place.height):
                break
            scale *= 0.96
        return assembly

    @cached_property
    def view(self) -> Similarity:
        """From the base's coordinates to the stage."""
        (x, y), (goal_x, goal_y) = self._assembly_box(self.assembly).middle, TABLE.middle
        return Similarity(scale=self.assembly.scale, shift=(goal_x - x, goal_y - y))

    @property
    def slot(self) -> Point:
        """Where the middle of a piece lies on the tray."""
        return self._turning_place.middle

    def tray_glide(self, index: int, *, turned: bool) -> Glide:
        """From where a piece ends up to its place on the tray, turned already or as the sheet shows it."""
        about = self.view.apply_point(self.assembly.middle(index))
        turn_deg = 0.0 if turned else -self.solution.placements[index].turn_deg
        by = (self.slot[0] - about[0], self.slot[1] - about[1])
        return Glide(group=group_of(index), about=about, turn_deg=turn_deg, by=by)

    def turn_glide(self, index: int) -> Glide:
        """The turn on the tray."""
        return Glide(group=group_of(index), about=self.slot, turn_deg=self.solution.placements[index].turn_deg)

    def meet_glide(self, index: int) -> Glide:
        """From the tray to where the marks meet, the last stretch straight on to the partner's side."""
        placement = self.solution.placements[index]
        about = self.view.apply_point(self.assembly.middle(index))
        by = (about[0] - self.slot[0], about[1] - self.slot[1])
        # The material lies left of the partner; a joined piece comes from outside, a cut one from over the cloth.
        sign = 1.0 if placement.piece.does is Does.JOIN else -1.0
        left_x, left_y = left_normal(placement.partner)
        out_x, out_y = -sign * left_x, -sign * left_y
        off = min(_STAND_OFF, self._head_room(index, out_y))
        return Glide(group=group_of(index), about=self.slot, by=by, via=((by[0] + off * out_x, by[1] + off * out_y),))

    def _head_room(self, index: int, out_y: float) -> float:
        """How far a placed piece may be moved out before it would leave the table at its head or foot."""
        placed = extent_of(self.view.apply(self.solution.placements[index].ring))
        if out_y > 0.0:
            return max(0.0, TABLE.top - 0.1 - placed.top) / out_y
        return max(0.0, placed.bottom - TABLE.bottom - 0.1) / -out_y if out_y < 0.0 else math.inf

    def back_glide(self, index: int) -> Glide:
        """From where it was cut away back to the tray."""
        about = self.view.apply_point(self.assembly.middle(index))
        return Glide(group=group_of(index), about=about, by=(self.slot[0] - about[0], self.slot[1] - about[1]))

    def figure(self, done: int, phase: TablePhase, alt: str, *, pointing: bool = True) -> Figure:
        """The figure when `done` pieces are finished and the next one has got to this phase.

        With Phase.DONE the piece numbered `done` is the one just finished, not yet counted.

        pointing : whether both marked sides are pointed at while the piece is looked at and turned
        """
        placements, theme = self.solution.placements, self.theme
        placement = placements[done]
        join = placement.piece.does is Does.JOIN
        finished = done + (phase is TablePhase.DONE)
        opened = phase is TablePhase.OPENED
        entries: list[Entry] = [panel("table", TABLE, theme), panel("tray", TRAY, theme, tray=True)]
        entries += self.assembly.base(self.view, done=finished, cut_now=opened)
        entries += self.assembly.joined(self.view, done=finished, cut_now=opened)
        entries += self._marks_to_come(done, phase)
        turns = phase in (TablePhase.TURNING, TablePhase.TURNED)
        if turns:  # under all that is drawn of the piece, its word included, which is read as one with it
            entries += self._ghost(done)
        entries += self._words(done, phase)
        if phase in _ON_TRAY:
            glide = self.tray_glide(done, turned=phase in (TablePhase.TURNED, TablePhase.ALONGSIDE))
            entries += self.assembly.moved(self.assembly.piece(done, self.view), glide)
            if turns:
                entries += self._turn_signs(done)
            if phase is TablePhase.ALONGSIDE or (pointing and phase is not TablePhase.SHOWN):
                entries += self._pointers(done, glide)
        elif phase in (TablePhase.MET, TablePhase.OPENED):
            entries.append(self._kept_place(done))
            entries += self.assembly.piece(done, self.view)
        elif not join:
            gone = self.assembly.piece(done, self.view, marked=False)
            entries += faded(self.assembly.moved(gone, self.back_glide(done)), _GONE)
        else:
            entries.append(self._kept_place(done))
        return Figure(background=theme.paper, entries=tuple(entries), alt=alt)

    def counted(self, corners: Corners, total: str, alt: str, *, settled: bool) -> Figure:
        """All pieces done, the corners counted.

        total   : the sum of it, written on the tray
        settled : whether it is shown what becomes of them
        """
        done = self.figure(len(self.solution.placements) - 1, TablePhase.DONE, alt)
        signs = corner_signs(corners, self.view, self.theme, settled=settled)
        number = self._under_piece("corners-sum", "pointed", Role.POINTER, total)
        if self.solution.placements[-1].piece.does is Does.JOIN:  # what was cut away lies on the tray, else it is free
            size = fitted_size(total, size=_SUM_SIZE * self.theme.degrees_size, width=TRAY.width - 2 * _WORD_MARGIN)
            number = replace(number, at=TRAY.middle, size=size)
        # The work on the pieces is over: neither the place of the last one nor a word of a single one is of use.
        is_one = len(self.solution.placements) == 1
        off = {PLACES_GROUP, TRAY_GROUP} if is_one else {PLACES_GROUP}
        kept = (entry for entry in done.entries if entry.group not in off)
        return replace(done, entries=(*kept, *signs, number))

    def outlined(self, alt: str) -> Figure:
        """All pieces done, the outline drawn over them; the tray is put away."""
        theme, count = self.theme, len(self.solution.placements)
        entries: list[Entry] = [panel("table", WHOLE, theme)]
        entries += self.assembly.base(self.view, done=count)
        entries += self.assembly.joined(self.view, done=count)
        entries += outline_entries(self.solution.outline, self.view, theme, filled=False)
        return Figure(background=theme.paper, entries=tuple(entries), alt=alt)

    def alone(self, alt: str) -> Figure:
        """The outline alone, as large as there is room."""
        theme = self.theme
        entries = (panel("table", WHOLE, theme), *outline_entries(self.solution.outline, self.alone_view, theme))
        return Figure(background=theme.paper, entries=entries, alt=alt)

    @cached_property
    def alone_view(self) -> Similarity:
        """From the base's coordinates to where the outline stands alone."""
        shape, room = extent_of(self.solution.outline.exterior), WHOLE.inset(_ALONE_PAD)
        return view_into(shape, room, fitting_scale(shape, room))

    def alone_glide(self) -> Glide:
        """The outline from the work to where it stands alone."""
        middle = extent_of(self.solution.outline.exterior).middle
        return Glide.between(THE_OUTLINE.group, middle, self.view, self.alone_view)

    def _room_at(self, scale: float) -> float:
        """How many times as large as at this scale everything could be."""
        return fitting_scale(
            self._assembly_box(AssemblyDrawing(solution=self.solution, theme=self.theme, scale=scale)), self._room
        )

    @property
    def _room(self) -> Box:
        return TABLE.inset(_PAD)

    @property
    def _turning_place(self) -> Box:
        count = len(self.solution.placements)
        # With several pieces the list names the one in hand, so that the head of the tray is free for it.
        foot = TRAY.bottom + (_LIST_LINE * self._list_rows() + 0.15 if count > 1 else 0.1)
        head = TRAY.top - (0.1 if count > 1 else _WORD_ROOM)
        return Box(TRAY.left + 0.1, foot + _TURN_ROOM, TRAY.right - 0.1, head)

    def _list_rows(self) -> int:
        count = len(self.solution.placements)
        return count if count <= 3 else -(-count // 2)

    def _assembly_box(self, assembly: AssemblyDrawing) -> Box:
        """Everything that ever lies on the table, with its letters."""
        view = Similarity(scale=assembly.scale)
        entries: list[Entry] = list(assembly.base(view))
        for index in range(len(self.solution.placements)):
            entries += assembly.piece(index, view, marked=False, plain=True)
            entries += assembly.partner_mark(index, view)
        return extent_of_entries(entries)

    def _marks_to_come(self, done: int, phase: TablePhase) -> Iterable[Entry]:
        """The partners' marks that still matter: those on the base, and on pieces already joined."""
        for index in range(done + (phase in (TablePhase.OPENED, TablePhase.DONE)), len(self.solution.placements)):
            owner = self.assembly.partner_owner(index)
            if owner is None:
                yield from self.assembly.partner_mark(index, self.view)
            elif owner < done or (owner == done and phase is TablePhase.DONE):
                yield from self.assembly.partner_mark(index, self.view, owner=piece_subject(owner))

    def _pointers(self, index: int, glide: Glide) -> Iterable[Entry]:
        """Both marked sides in the colour of attention."""
        placement = self.solution.placements[index]
        own = glide.at(1.0).apply(self.view.apply(placement.side))
        partner = self.view.apply(placement.partner)
        owner = self.assembly.partner_owner(index)
        owners = {"own": piece_subject(index), "partner": THE_BASE if owner is None else piece_subject(owner)}
        for (name, on), (start, end) in zip(owners.items(), (own, partner), strict=True):
            yield Lines(
                id=f"point-{name}",
                group=on.group,
                subject=on,
                role=Role.POINTER,
                segments=((start, end),),
                stroke=self.theme.attention,
                width=self.theme.pointer_width,
            )

    def _turn_signs(self, index: int) -> Iterable[Entry]:
        """The arc along which the marked side travels, and the turn in words under it."""
        placement = self.solution.placements[index]
        turn_deg, middle = placement.turn_deg, self.assembly.middle(index)
        yield self._under_piece("turn-words", TURN_GROUP, Role.TURN, turn_label(turn_deg))
        if not is_no_turn(turn_deg):
            radius = self.assembly.reach(index) + _ARC_GAP
            to_deg = bearing_deg(middle, midpoint(placement.side))
            yield from turn_arc(self.slot, radius, to_deg=to_deg, turn_deg=turn_deg, theme=self.theme)

    def _under_piece(self, name: str, group: str, role: Role, text: str) -> Label:
        """The one line of words under the piece on the tray."""
        return Label(
            id=name,
            group=group,
            role=role,
            text=text,
            at=(self.slot[0], self._turning_place.bottom - _TURN_ROOM / 2),
            size=fitted_size(text, size=self.theme.degrees_size, width=TRAY.width - _WORD_MARGIN),
            colour=self.theme.attention,
            bold=True,
        )

    def _ghost(self, index: int) -> Iterable[Entry]:
        """Where a piece lay before it turned."""
        placement = self.solution.placements[index]
        if is_no_turn(placement.turn_deg):
            return
        there = self.tray_glide(index, turned=False).at(1.0).after(self.view)
        yield from ghost(there.apply(placement.ring), there.apply_side(placement.side), self.theme)

    def _kept_place(self, index: int) -> Area:
        """Where a piece that is on the table has come from, so that the tray is not bare."""
        placement = self.solution.placements[index]
        there = self.tray_glide(index, turned=True).at(1.0).after(self.view)
        return Area(
            id=f"{group_of(index)}-place",
            group=PLACES_GROUP,
            role=Role.PANEL,
            rings=(there.apply(placement.ring),),
            stroke=self.theme.quiet,
            width=self.theme.side_width,
            dash=broken(self.theme.side_width),
        )

    def _words(self, done: int, phase: TablePhase) -> Iterable[Entry]:
        """At the head of the tray the word of the one piece that lies there, or at its foot the list of all pieces."""
        piece = self.solution.placements[done].piece
        is_there = phase in _ON_TRAY or (phase is TablePhase.DONE and piece.does is Does.CUT)
        if len(self.solution.placements) == 1 and is_there:
            text, size = piece_words(
                piece.name, piece.does, theme=self.theme, size=self.theme.word_size, width=TRAY.width - 0.4
            )
            yield Label(
                id=f"{group_of(done)}-word",
                group=TRAY_GROUP,
                subject=piece_subject(done),
                role=Role.WORD,
                text=text,
                at=(self.slot[0], TRAY.top - 0.45),
                size=size,
                colour=self.theme.ink,
                bold=True,
            )
        yield from self._list(done + (phase is TablePhase.DONE), current=None if phase is TablePhase.DONE else done)

    def _list(self, finished: int, current: int | None = None) -> Iterable[Entry]:
        """The pieces with what is done, a tick at each that is finished."""
        count = len(self.solution.placements)
        if count == 1:
            return
        rows = self._list_rows()
        columns = -(-count // rows)
        room = Box(TRAY.left + 0.35, TRAY.bottom + 0.15, TRAY.right - 0.2, TRAY.bottom + 0.15 + rows * _LIST_LINE)
        for index, cell in enumerate(room.cells(columns, rows)[:count]):
            piece = self.solution.placements[index].piece
            y = cell.middle[1]
            text, size = piece_words(
                piece.name,
                piece.does,
                theme=self.theme,
                size=self.theme.small_size,
                width=cell.width - _LIST_TICK,
                number=str(index + 1),
            )
            yield Label(
                id=f"list-{index + 1}",
                group=TRAY_GROUP,
                subject=piece_subject(index),
                role=Role.WORD,
                text=text,
                at=(cell.left + _LIST_TICK, y),
                size=size,
                colour=self.theme.ink if index == current else self.theme.quiet,
                bold=index == current,
                align=Align.START,
            )
            if index < finished:
                done = tick_sign(f"list-{index + 1}-done", TRAY_GROUP, (cell.left + 0.2, y), self.theme)
                yield replace(done, subject=piece_subject(index))

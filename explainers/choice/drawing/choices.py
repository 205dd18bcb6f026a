"""The options beside the finished outline: compared, laid on it in turn, ringed where they differ, kept or out."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import shapely

from ...figure.fill_pattern import pattern_entries
from ...figure.layout import NARROW_TABLE, TABLE, TRAY, WIDE_TRAY, Box, extent_of, fitting_scale, view_into
from ...figure.legibility import LEAST_SIDE
from ...figure.model import Area, Circle, Entry, Figure, Lines, Role
from ...figure.motion import Glide
from ...figure.panels import outline_entries, panel
from ...figure.signs import broken, broken_lines, cross_sign, ring_sign, tick_sign
from ...figure.subject import THE_OUTLINE, option_subject
from ...figure.theme import Theme
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Side, Similarity
from ...sentences.labels import difference_alt
from ...style import TINT
from ..differences.difference import DifferenceFact
from ..model import Solution, Verdict
from ..sieves.sifting import laid_on_outline
from .option_cells import SIGN_BELOW, SIGN_LEFT, SIGN_SIZE, OptionCells, letter_group
from .spread import SPREAD_PAD, spread_out

__all__ = ["Choices"]

_PAD = 0.6
_LETTER_ROOM = 0.62  # left of an option in the tray: no dot stands on it there, but its sign keeps clear of it
_LAID_OPACITY = 0.55  # of the option's cloth when it lies on the outline, so that both are seen
_TINT_OPACITY = 0.35
_CORNER_IN_RING = 0.7  # of the radius: at most so far from the middle stands a corner that is spoken of
_LEAST_RING = 0.34
_MOST_RING = 0.85


@dataclass(frozen=True)
class Choices:
    """Trying the options of one item.

    is_spread : whether all are as large as there is room, to be compared; else the outline is large, to be laid on
    """

    solution: Solution
    theme: Theme
    is_spread: bool = False

    @cached_property
    def cells(self) -> OptionCells:
        """The options right of the outline, in more room where their sides would be too short to see."""
        if self.is_spread:
            return self._spread[1]
        tried = [
            OptionCells(solution=self.solution, room=room, columns=columns, letter_room=_LETTER_ROOM)
            for room, columns in ((TRAY, 2), (WIDE_TRAY, 2), (WIDE_TRAY, 3))
        ]
        enough = [cells for cells in tried if cells.shortest_side >= LEAST_SIDE]
        return enough[0] if enough else max(tried, key=lambda cells: cells.shortest_side)

    @cached_property
    def _spread(self) -> tuple[Box, OptionCells]:
        return spread_out(self.solution)

    @property
    def room(self) -> Box:
        """Where the outline is."""
        if self.is_spread:
            return self._spread[0]
        return TABLE if self.cells.room is TRAY else NARROW_TABLE

    @cached_property
    def view(self) -> Similarity:
        """From the base's coordinates to the stage; there is room for every option that is laid on the outline."""
        points = list(self.solution.outline.exterior)
        if not self.is_spread:
            for verdict in laid_on_outline(self.solution):
                points += verdict.fit.laid.exterior
        shape, room = extent_of(points), self.room.inset(SPREAD_PAD if self.is_spread else _PAD)
        return view_into(shape, room, fitting_scale(shape, room))

    def outline_glide(self, view: Similarity) -> Glide:
        """The outline from where another view draws it to its place here."""
        return Glide.between(THE_OUTLINE.group, self._middle, view, self.view)

    def glides_from(self, other: Choices, *, without: Verdict | None = None) -> tuple[Glide, ...]:
        """Outline, options and letters from where another arrangement has them.

        without : the option that goes a way of its own
        """
        if other.is_spread == self.is_spread:
            return ()
        found = [self.outline_glide(other.view)]
        for verdict in self.solution.verdicts:
            label = verdict.label
            letters = (Similarity(shift=cells.letter_at(label)) for cells in (other.cells, self.cells))
            found.append(Glide.between(letter_group(label), (0.0, 0.0), *letters))
            if verdict is not without:
                middle = extent_of(verdict.outline.exterior).middle
                views = (cells.view(label) for cells in (other.cells, self.cells))
                found.append(Glide.between(option_subject(label).group, middle, *views))
        return tuple(found)

    def lay_glide(self, verdict: Verdict, *, start_in: Choices | None = None) -> Glide:
        """An option from its cell to where it lies on the outline: turned the way its fit says, grown, shifted.

        start_in : the arrangement in whose cell it is, where that is another
        """
        start = (start_in or self).cells.view(verdict.label)
        return self.lay_glide_from(verdict, start)

    def lay_glide_from(self, verdict: Verdict, start: Similarity) -> Glide:
        """An option from where any view draws it to where it lies on the outline."""
        there = self.view.after(verdict.fit.motion)
        middle = extent_of(verdict.outline.exterior).middle
        straight = Glide.between(option_subject(verdict.label).group, middle, start, there)
        return replace(straight, turn_deg=there.after(start.inverse()).turn_deg)

    def return_glide(self, verdict: Verdict) -> Glide:
        """An option from where it lies on the outline back to its cell."""
        return self.lay_glide(verdict).back

    def figure(
        self,
        alt: str,
        *,
        settled: Collection[str] = (),
        laid: Verdict | None = None,
        reason: DifferenceFact | None = None,
        kept: bool = False,
    ) -> Figure:
        """The options in their cells, those settled with their signs; one may be laid on the outline.

        reason : the difference to ring
        kept   : the one that is laid is shown to fit
        """
        theme = self.theme
        # Panels of another name fade, so that none jumps to another size while what lies on them is on its way.
        names = ("wide-table", "wide-tray") if self.is_spread else ("table", "tray")
        entries: list[Entry] = [
            panel(names[0], self.room, theme),
            panel(names[1], self.cells.room, theme, tray=True),
        ]
        entries += outline_entries(self.solution.outline, self.view, theme)
        label = laid.label if laid else None
        if laid is not None:
            entries.append(self._place_of(laid))
        entries += self.cells.entries(theme, without=label)
        for verdict in self.solution.verdicts:
            if verdict.label in settled or (verdict is laid and (reason or kept)):
                entries.append(self._sign(verdict))
        if laid is not None:
            entries += self._laid(laid, kept=kept)
            if reason is not None:
                entries += self._difference(reason)
        return Figure(background=theme.paper, entries=tuple(entries), alt=alt)

    @property
    def _middle(self) -> Point:
        return extent_of(self.solution.outline.exterior).middle

    def _sign(self, verdict: Verdict) -> Lines:
        x, y = self.cells.letter_at(verdict.label)
        draw = tick_sign if verdict.same else cross_sign
        own, at = option_subject(verdict.label), (x - SIGN_LEFT, y - SIGN_BELOW)
        sign = draw(f"{own.group}-sign", letter_group(verdict.label), at, self.theme, size=SIGN_SIZE)
        return replace(sign, subject=own)

    def _laid(self, verdict: Verdict, *, kept: bool) -> list[Entry]:
        theme = self.theme
        view = self.view.after(verdict.fit.motion)
        rings = tuple(view.apply(ring) for ring in verdict.outline.rings)
        own = option_subject(verdict.label)
        name = own.group
        return [
            Area(
                id=f"{name}-cloth",
                group=name,
                subject=own,
                role=Role.OPTION,
                rings=rings,
                fill=theme.option,
                opacity=_LAID_OPACITY,
            ),
            Area(
                id=name,
                group=name,
                subject=own,
                role=Role.OPTION,
                rings=rings,
                stroke=theme.right if kept else theme.ink,
                width=theme.outline_width if kept else theme.side_width,
            ),
        ]

    def _place_of(self, verdict: Verdict) -> Area:
        """Where an option that lies on the outline has come from: its place is kept."""
        own = option_subject(verdict.label)
        view = self.cells.view(verdict.label)
        return Area(
            id=f"{own.group}-place",
            group="places",
            subject=own,
            role=Role.PANEL,
            rings=tuple(view.apply(ring) for ring in verdict.outline.rings),
            stroke=self.theme.quiet,
            width=self.theme.side_width,
            dash=broken(self.theme.side_width),
        )

    def _difference(self, reason: DifferenceFact) -> list[Entry]:
        """The place where option and outline differ: tinted, ringed, the corner or side it is about marked."""
        theme = self.theme
        entries: list[Entry] = [self._differing(reason)]
        marks = reason.marks_over_outline()
        if marks.outline_sides:  # beneath those of the option, so that what is longer shows
            entries.append(self._sides_there(marks.outline_sides))
        if marks.home is not None:
            entries.append(self._home(marks.home))
        if marks.sides:
            entries.append(self._marked_sides(*marks.sides))
        if marks.corner is not None:
            entries.append(
                Circle(
                    id="differs-corner",
                    group="differs",
                    role=Role.WRONG,
                    centre=self.view.apply_point(marks.corner),
                    radius=0.11,
                    fill=theme.wrong,
                )
            )
        radius = self._ring_radius(reason.place)
        entries.append(
            ring_sign(
                "differs-ring",
                "differs",
                self.view.apply_point(_ringed(reason, radius / self.view.scale)),
                radius,
                theme,
                alt=difference_alt(),
            )
        )
        return entries

    def _differing(self, reason: DifferenceFact) -> Entry:
        """The place itself, in a tint or in a pattern."""
        rings = tuple(self.view.apply(ring) for ring in reason.place.rings)
        name, theme = "differs", self.theme
        if theme.differs_pattern == TINT:
            return Area(id=name, group=name, role=Role.WRONG, rings=rings, fill=theme.wrong, opacity=_TINT_OPACITY)
        filled = pattern_entries(
            theme.differs_pattern, rings, theme=theme, colour=theme.wrong, name=name, group=name, role=Role.WRONG
        )
        return filled[0]

    def _marked_sides(self, *sides: Side) -> Lines:
        """The sides that a reason is about, broken: those that agree are whole."""
        drawn = map(self.view.apply_side, sides)
        width = self.theme.differ_width
        return Lines(
            id="differs-side",
            group="differs",
            role=Role.WRONG,
            segments=broken_lines(drawn, width),
            stroke=self.theme.wrong,
            width=width,
        )

    def _sides_there(self, sides: Sequence[Side]) -> Lines:
        """The sides of the outline that a reason is about."""
        return Lines(
            id="differs-other-side",
            group="differs",
            role=Role.WRONG,
            segments=tuple(map(self.view.apply_side, sides)),
            stroke=self.theme.attention,
            width=self.theme.mark_width,
        )

    def _home(self, home: Outline) -> Area:
        """Where the part should be: drawn round, so that the eye finds it from the ring."""
        return Area(
            id="differs-home",
            group="differs",
            role=Role.WRONG,
            rings=tuple(self.view.apply(ring) for ring in home.rings),
            stroke=self.theme.attention,
            width=self.theme.mark_width,
            dash=broken(self.theme.mark_width),
        )

    def _ring_radius(self, place: Outline) -> float:
        """A little more than the largest circle inside the place, within what looks like a ring."""
        inner = float(shapely.maximum_inscribed_circle(shapely.Polygon(place.exterior, place.holes)).length)
        return min(_MOST_RING, max(_LEAST_RING, inner * self.view.scale)) + 0.08


def _ringed(reason: DifferenceFact, radius: float) -> Point:
    """The middle of a ring of this radius, in the item's units: in the place, round the corner spoken of if any.

    A place may be long and narrow at its corner, with its middle so far off that the ring would pass it by.
    """
    x, y = reason.ring_centre
    spot = reason.marks_over_outline().spot
    distance, most = math.dist((x, y), spot or (x, y)), _CORNER_IN_RING * radius
    if spot is None or distance <= most:
        return x, y
    corner_x, corner_y = spot
    return corner_x + (x - corner_x) * most / distance, corner_y + (y - corner_y) * most / distance

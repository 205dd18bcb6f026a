"""One picture in the making: cloth, marks, numbers and rings in an item's own coordinates, as entries of a figure.

What is drawn first lies below. Labels find room as they come, so what must stand in a certain place comes first.
Lengths without a unit of the item are in stage units.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TypedDict

from ...figure.fill_pattern import pattern_entries
from ...figure.label_places import LabelPlaces, around
from ...figure.layout import Box
from ...figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role
from ...figure.patterns import Disc
from ...figure.side_marks import mark_radius, side_mark_entries, tick_reach, tick_segments
from ...figure.strokes import arc
from ...figure.subject import Subject
from ...figure.theme import Theme
from ...geometry.angles import bearing_deg
from ...geometry.locate import contains, span_on
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Ring
from ...geometry.rings import centroid, sides, signed_area
from ...geometry.tolerance import authoring_tolerance
from ...typeface.faces import face
from .grid import NUMBER, Window, grid_entries
from .view import PanelPicture

__all__ = ["Plot", "midway"]

_MARGIN = 0.6
_DISC = 0.34  # height of a corner's number
_DOT = 0.052
_TAG = 0.28  # height of any other words in a box
_ROUNDED = 0.06
_MARK_SIZE = 0.34  # of a mark's letter: these pictures are smaller than a lesson's
_THIN = 0.02
_RING = 0.3
_BESIDE = 0.16  # from a mark to the disc of its letter
_LEANS = (0.0, 40.0, -40.0, 80.0, -80.0, 125.0, -125.0, 180.0)

_STILL = Subject(thing="marks")  # nothing moves here

Later = Callable[[], Iterable[Entry]]


class _Named(TypedDict):
    id: str
    group: str
    role: str


def midway(pair: tuple[Point, Point]) -> Point:
    """The middle of a side."""
    (ax, ay), (bx, by) = pair
    return (ax + bx) / 2, (ay + by) / 2


class Plot:
    """A picture of some rings at a scale of stage units an item unit."""

    def __init__(
        self, rings: Iterable[Ring], scale: float, theme: Theme, *, grid: bool = True, margin: float = _MARGIN
    ) -> None:
        """The window is laid round the rings; with a grid, its lines are drawn and its axes numbered."""
        self.window = Window.round_about(rings, scale, margin=margin, numbered=grid)
        self.theme = replace(theme, mark_size=min(theme.mark_size, _MARK_SIZE))
        self._place = self.window.view.apply_point
        self._below: list[Entry | Later] = list(grid_entries(self.window, theme)) if grid else []
        self._above: list[Entry] = []
        self._clear: list[Disc] = []  # what patterns keep free
        self._letters: dict[str, Disc] = {}
        self._labels = LabelPlaces(self.window.field)
        self._count = 0

    def material(
        self,
        outline: Outline,
        role: str,
        fill: str | None = None,
        *,
        stroke: str | None = None,
        width: float | None = None,
        dash: tuple[float, float] | None = None,
    ) -> None:
        """Material: an outline filled.

        stroke, width : of its sides, by default the theme's ink and weight of sides; none where the width is 0
        """
        theme, rings = self.theme, self._moved(outline)
        stroke, weight = stroke or theme.ink, theme.side_width if width is None else width
        self._below.append(Area(**self._named(role), rings=rings, fill=fill, stroke=stroke, width=weight, dash=dash))
        if weight > 0.0:
            self._labels.cross(side for ring in rings for side in sides(ring))

    def pattern(
        self, outline: Outline, pattern_name: str, colour: str, role: str, *, frame_deg: float = 0.0, fine: bool = False
    ) -> None:
        """A pattern over an outline, clear of whatever letters will stand on it.

        frame_deg : how far the cloth is turned
        fine      : closer, for what may be narrow
        """
        theme = self.theme
        if fine:
            half = theme.pattern_spacing / 2, theme.dot_radius / 1.5
            theme = replace(theme, pattern_spacing=half[0], dot_radius=half[1], pattern_inset=_THIN)
        name, rings = self._named(role)["id"], self._moved(outline)
        self._below.append(
            lambda: pattern_entries(
                pattern_name, rings, theme=theme, colour=colour, name=name, group=role, role=role,
                frame_deg=frame_deg, clear=self._clear,
            )
        )  # fmt: skip

    def patterned(self, ring: Ring, fabric: str, *, turned: float = 0.0) -> Outline:
        """An outline in one of the theme's fabrics, as a lesson dresses it; the outline.

        turned : how far the cloth is turned, degrees
        """
        outline, look = Outline.of(ring), self.theme.fabrics[fabric]
        self.material(outline, fabric, look.fill, dash=self.theme.dash_of(fabric))
        self.pattern(outline, look.pattern_name, look.pattern, fabric, frame_deg=turned)
        return outline

    def mark(self, pair: tuple[Point, Point], letter: str, ticks: int, owner: Outline, *, wrong: bool = False) -> None:
        """A marked side or part of one, with its letter beside it.

        ticks : the number of the piece, 1 to 6
        owner : the cloth that the side belongs to
        wrong : it is at fault, and may lie anywhere: it is drawn from the one point to the other, its letter ringed
        """
        theme = self.theme
        colour = theme.wrong if wrong else theme.ink
        if pair[0] == pair[1]:
            self.name(letter, pair[0], size=theme.mark_size, colour=colour, on=theme.table, bold=True)
            self.ring(pair[0])
            return
        start, end = self._place(pair[0]), self._place(pair[1])
        nx, ny = self._inward(pair, owner)
        middle, reach = midway((start, end)), tick_reach(ticks, theme)
        self._labels.cross(tick_segments(start, end, inside=(nx, ny), ticks=ticks, theme=theme))
        radius = mark_radius(letter, theme)
        past_ticks, beside = reach + radius + theme.letter_gap, radius + _BESIDE
        places: tuple[Point, ...] = ()
        for way in ((nx, ny), (-nx, -ny)):
            places += around(middle, way, (past_ticks,), (0.0, 35.0, -35.0, 60.0, -60.0))
            places += around(middle, way, (beside, beside + 0.16), (50.0, -50.0))
        at = self._labels.place(places, 2 * radius, 2 * radius)
        self._letters[letter] = at, radius
        self._clear += [(at, radius + theme.pattern_clear), (middle, reach)]
        span = span_on(owner.rings, pair, authoring_tolerance(owner.larger_extent))
        self._above += side_mark_entries(
            self._named(Role.MARK)["id"],
            _STILL,
            start,
            end,
            inside=(nx, ny),
            ticks=ticks,
            mark=letter,
            letter_at=at,
            theme=theme,
            partial=wrong or (span is not None and span.is_part),
            colour=colour,
            backed=None if contains(owner, self.window.view.inverse().apply_point(at)) else theme.table,
        )
        if wrong:
            self.ring(letter)

    def line(self, pair: tuple[Point, Point], colour: str, width: float) -> None:
        """A plain line between two points of the item."""
        self._line(self._place(pair[0]), self._place(pair[1]), colour, width)

    def broken(self, points: Ring) -> None:
        """As much of an outline as there is, in the colour of faults, its corners numbered; ringed where it breaks."""
        for pair in pairwise(points):
            self.line(pair, self.theme.wrong, self.theme.side_width)
        self.keep_free(points[-1])
        self.corners(points)
        self.ring(points[-1])

    def corners(self, ring: Ring) -> None:
        """A disc with its number at each corner, counted from 1."""
        inside = 1.0 if signed_area(ring) > 0 else -1.0
        spots = self.window.view.apply(ring)
        self._above.append(Dots(**self._named(Role.WORD), centres=spots, radius=_DOT, fill=self.theme.ink))
        for index, spot in enumerate(spots):
            out = _outward(spots[index - 1], spot, spots[(index + 1) % len(spots)], inside)
            at = self.corner_number(str(index + 1), around(spot, out, (0.27, 0.39, 0.57, 0.81), _LEANS))
            if math.dist(at, spot) > 0.41:
                self._line(spot, at, self.theme.quiet, _THIN)

    def sides(self, ring: Ring) -> None:
        """A tag with its number at each side, counted from 1: side n runs from corner n to the next."""
        inside = 1.0 if signed_area(ring) > 0 else -1.0
        for number, (start, end) in enumerate(sides(self.window.view.apply(ring)), start=1):
            (ax, ay), (bx, by) = start, end
            out = (inside * (by - ay), inside * (ax - bx))
            places: tuple[Point, ...] = ()
            for along in (0.5, 0.36, 0.64, 0.25, 0.75):
                at = (ax + along * (bx - ax), ay + along * (by - ay))
                places += around(at, out, (0.28, 0.38), (0.0,)) + around(at, out, (0.28,), (180.0,))
            middle = midway((start, end))
            at = self.side_number(str(number), places + around(middle, out, (0.6, 0.84), (0.0, 40.0, -40.0)))
            if math.dist(at, middle) > 0.56 > math.dist(start, end):
                self._line(middle, at, self.theme.quiet, _THIN)

    def numbered(self, ring: Ring, holes: Sequence[Ring] = ()) -> None:
        """The corners and sides of a ring by number, as listed, and the holes in it by name."""
        self.corners(ring)
        self.sides(ring)
        for number, hole in enumerate(holes, start=1):
            self.name(f"hole {number}", centroid(hole), size=0.24, colour=self.theme.quiet, on=self.theme.table)

    def corner_number(self, name: str, places: Sequence[Point]) -> Point:
        """The disc that stands for a corner, at the best of some places on the stage."""
        theme = self.theme
        return self._tag(name, places, theme.ink, theme.table, stroke=theme.table, height=_DISC, bold=True)

    def side_number(self, name: str, places: Sequence[Point]) -> Point:
        """The tag that stands for a side, at the best of some places on the stage."""
        theme = self.theme
        return self._tag(name, places, theme.table, theme.quiet, stroke=theme.quiet, rounded=_ROUNDED)

    def keep_free(self, at: Point, radius: float = _RING) -> None:
        """Room for a ring that is drawn later."""
        x, y = self._place(at)
        self._labels.take(Box(x - radius, y - radius, x + radius, y + radius))

    def ring(self, at: Point | str, *, radius: float = _RING, warning: int = 0) -> None:
        """A ring round a point, or round a mark's letter; with the number of the warning that it speaks of."""
        theme = self.theme
        if isinstance(at, str):
            centre, letter_radius = self._letters[at]
            radius = max(radius, letter_radius + 0.06)
        else:
            centre = self._place(at)
        colour, role = (theme.attention, Role.POINTER) if warning else (theme.wrong, Role.WRONG)
        for stroke, width in ((theme.table, 2 * theme.sign_width), (colour, theme.sign_width)):
            self._above.append(Circle(**self._named(role), centre=centre, radius=radius, stroke=stroke, width=width))
        if warning:
            reach = radius + 0.2
            places = around(centre, (1.0, 1.0), (reach, reach + 0.16, reach + 0.32), _LEANS)
            self._tag(f"!{warning}", places, colour, theme.table, role=role, bold=True)

    def name(self, words: str, at: Point, *, size: float, colour: str, on: str, bold: bool = False) -> None:
        """Words about a place of the item, as near to it as there is room; `on` is the colour under them."""
        spot = self._place(at)
        places = (spot, *around(spot, (0.0, 1.0), (0.28, 0.48), _LEANS))
        self._tag(words, places, on, colour, rounded=_ROUNDED, size=size, bold=bold)

    def arc(self, about: Point, start: Point, turn_deg: float, radius: float) -> None:
        """An arrow along a turn, from the direction of a point, at a distance from the middle."""
        theme = self.theme
        path = arc(self._place(about), radius, bearing_deg(about, start), turn_deg)
        # A short turn has no room for a whole head and a line.
        head = min(theme.arrow_head, 0.7 * math.radians(abs(turn_deg)) * radius)
        self._above.append(
            Arrow(**self._named(Role.TURN), path=path, stroke=theme.attention, width=theme.arrow_width, head=head)
        )

    def picture(self, alt: str, caption: str = "") -> PanelPicture:
        """What has been drawn."""
        below = [entry for part in self._below for entry in ((part,) if isinstance(part, Entry) else part())]
        return PanelPicture(
            figure=Figure(background=self.theme.table, entries=(*below, *self._above), alt=alt),
            box=self.window.box,
            caption=caption,
        )

    def _named(self, role: str) -> _Named:
        self._count += 1
        return {"id": f"{role}-{self._count}", "group": str(role), "role": role}

    def _moved(self, outline: Outline) -> tuple[Ring, ...]:
        return tuple(map(self.window.view.apply, outline.rings))

    def _inward(self, pair: tuple[Point, Point], owner: Outline) -> Point:
        """A vector across a side, towards the material."""
        (ax, ay), (bx, by) = pair
        length = math.dist(*pair)
        nx, ny = (ay - by) / length, (bx - ax) / length
        x, y = midway(pair)
        reach = 0.01 / self.window.scale
        return (nx, ny) if contains(owner, (x + reach * nx, y + reach * ny)) else (-nx, -ny)

    def _line(self, start: Point, end: Point, colour: str, width: float) -> None:
        self._below.append(Lines(**self._named(Role.WORD), segments=((start, end),), stroke=colour, width=width))

    def _tag(
        self,
        words: str,
        places: Sequence[Point],
        fill: str,
        colour: str,
        *,
        role: str = Role.WORD,
        stroke: str | None = None,
        height: float = _TAG,
        rounded: float | None = None,
        size: float = NUMBER,
        bold: bool = False,
    ) -> Point:
        """Words in a small box at the best of some places: with round ends, unless its corners are rounded less."""
        width = max(height, face(bold).width(words, size) + 0.14)
        at = self._labels.place(places, width, height)
        box = Box(at[0] - width / 2, at[1] - height / 2, at[0] + width / 2, at[1] + height / 2)
        rounded = height / 2 if rounded is None else rounded
        self._above += [
            Area(**self._named(role), rings=(box.ring,), fill=fill, stroke=stroke, width=_THIN, rounded=rounded),
            Label(**self._named(role), text=words, at=at, size=size, colour=colour, bold=bold),
        ]
        return at


def _outward(before: Point, corner: Point, after: Point, inside: float) -> Point:
    """Away from the material at a corner; `inside` is 1 where it lies to the left of the walk, else -1."""
    ax, ay = _unit(before, corner)
    bx, by = _unit(corner, after)
    # Across both sides at once, to the right of the walk; a spike that turns right back has none, and points ahead.
    x, y = inside * (ay + by), -inside * (ax + bx)
    return (x, y) if math.hypot(x, y) > 1e-6 else (ax, ay) if (ax, ay) != (0.0, 0.0) else (1.0, 0.0)


def _unit(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length) if length else (0.0, 0.0)

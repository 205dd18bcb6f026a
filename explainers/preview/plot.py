"""One picture in the making: cloth, marks, numbers and rings drawn in an item's coordinates, as elements of SVG.

What is drawn first lies below. Labels find room as they come, so what must stand in a certain place comes first.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from ..figure.theme import DEFAULT_THEME
from ..geometry.locate import contains
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import sides, signed_area
from .grid import Window, shown_number
from .labels import Labels, around
from .markup import Markup, element, joined, number
from .view import Picture

__all__ = ["PATTERNS", "THEME", "Plot", "midway", "pattern_elements"]

THEME = DEFAULT_THEME

_MARGIN = 30.0
_CORNER = 8.5  # radius of a corner's disc
_LETTER = 10.0  # radius of a mark's disc
_LEANS = (0.0, 40.0, -40.0, 80.0, -80.0, 125.0, -125.0, 180.0)
# Pattern -> (colour, how it is drawn): what is joined has dots, what is cut away lines, whatever their colour.
PATTERNS = {
    "join": (THEME.join_pattern, "dots"),
    "cut": (THEME.cut_pattern, "lines"),
    "extra": (THEME.wrong, "lines"),
    "missing": (THEME.wrong, "dots"),
}


def pattern_elements() -> Markup:
    """What `fill` speaks of as url(#look-join) and the like; once in a document."""
    made = []
    for name, (colour, drawn) in PATTERNS.items():
        if drawn == "dots":
            inside = element("circle", cx=4.5, cy=4.5, r=1.5, fill=colour)
        else:
            inside = element("path", d="M0 4.5H9", stroke=colour, stroke_width=1.6)
        made.append(
            element(
                "pattern",
                inside,
                id=f"look-{name}",
                width=9,
                height=9,
                patternUnits="userSpaceOnUse",
                patternTransform="rotate(45)",
            )
        )
    return element("defs", *made)


def midway(pair: tuple[Point, Point]) -> Point:
    """The middle of a side."""
    (ax, ay), (bx, by) = pair
    return (ax + bx) / 2, (ay + by) / 2


class Plot:
    """A picture of some rings at a scale of pixels a unit."""

    def __init__(self, rings: Iterable[Ring], scale: float, *, grid: bool = True, margin: float = _MARGIN) -> None:
        """The window is laid round the rings; with a grid, its lines are drawn and its axes numbered."""
        self.window = Window.round_about(rings, scale, margin=margin, numbered=grid)
        self._below: list[Markup] = []
        self._above: list[Markup] = []
        self._letters: dict[str, Point] = {}
        window = self.window
        self._labels = Labels((window.gutter_left, 0.0, window.width, window.height - window.gutter_below))
        if grid:
            self._draw_grid()

    def cloth(
        self,
        outline: Outline,
        fill: str | None,
        *,
        pattern: str | None = None,
        dashed: bool = False,
        width: float = 2.0,
        stroke: str | None = THEME.ink,
    ) -> None:
        """Material: an outline filled, perhaps with one of ``PATTERNS`` over it."""
        path = "".join(self._closed(ring) for ring in outline.rings)
        for paint in (fill, f"url(#look-{pattern})" if pattern else None):
            if paint is not None:
                self._below.append(element("path", d=path, fill=paint, fill_rule="evenodd"))
        if stroke is None:
            return
        self._below.append(
            element(
                "path",
                d=path,
                fill="none",
                stroke=stroke,
                stroke_width=width,
                stroke_linejoin="round",
                stroke_dasharray="7 4" if dashed else None,
            )
        )
        place = self.window.place
        self._labels.cross((place(a), place(b)) for ring in outline.rings for a, b in sides(ring))

    def mark(self, pair: tuple[Point, Point], letter: str, ticks: int, owner: Outline) -> None:
        """A marked side or part of one: a bar along it, its ticks across it, its letter beside it.

        ticks : the number of the piece, 1 to 6: strokes for the first three, crosses for the others
        owner : the cloth that the side belongs to; the bar lies on it
        """
        start, end = self.window.place(pair[0]), self.window.place(pair[1])
        length = math.dist(start, end) or 1.0
        ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
        nx, ny = self._inward(pair, owner, (ux, uy))
        a, b = (start[0] + 3 * nx, start[1] + 3 * ny), (end[0] + 3 * nx, end[1] + 3 * ny)
        self._above.append(self._stroke([(a, b)], 5.0))
        middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        count, crossed = (ticks - 1) % 3 + 1, ticks > 3
        strokes = []
        for index in range(count):
            along = (index - (count - 1) / 2) * (8.0 if crossed else 6.0)
            x, y = middle[0] + along * ux, middle[1] + along * uy
            for lean in (3.0, -3.0) if crossed else (0.0,):
                strokes.append(
                    (
                        (x - 8 * nx - lean * ux, y - 8 * ny - lean * uy),
                        (x + 8 * nx + lean * ux, y + 8 * ny + lean * uy),
                    )
                )
        self._above.append(self._stroke(strokes, 2.0))
        self._labels.cross(strokes)
        radius = _LETTER + 3.0 * (len(letter) - 1)
        free = radius + 10.0
        at = self._labels.place(
            around(middle, (nx, ny), (free, free + 8), (0.0, 35.0, -35.0, 60.0, -60.0))
            + around(middle, (-nx, -ny), (free, free + 8), (0.0, 35.0, -35.0)),
            2 * radius,
            2 * radius,
        )
        self._letters[letter] = at
        self._above.append(self._disc(at, radius, THEME.table, THEME.ink))
        self._above.append(_words(letter, at, 13.0, THEME.ink, bold=True))

    def astray(self, pair: tuple[Point, Point], letter: str) -> None:
        """A mark at fault: a broken line from the one point to the other, which may lie anywhere, with its letter."""
        start, end = self.window.place(pair[0]), self.window.place(pair[1])
        path = f"M{_at(start)}L{_at(end)}"
        for colour, width, dash in ((THEME.table, 8.0, None), (THEME.wrong, 4.5, "6 4")):
            self._above.append(element("path", d=path, stroke=colour, stroke_width=width, stroke_dasharray=dash))
        for x, y in (start, end):
            self._above.append(element("circle", cx=x, cy=y, r=4, fill=THEME.wrong))
        middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        radius = _LETTER + 3.0 * (len(letter) - 1)
        across = (start[1] - end[1], end[0] - start[0]) if start != end else (0.0, 1.0)
        places = around(middle, across, (radius + 8,), (0.0, 180.0, 40.0, -40.0))
        at = self._letters[letter] = self._labels.place(places, 2 * radius, 2 * radius)
        self._above.append(self._disc(at, radius, THEME.table, THEME.wrong))
        self._above.append(_words(letter, at, 13.0, THEME.wrong, bold=True))

    def bar(self, pair: tuple[Point, Point], colour: str) -> None:
        """A plain bar along a side."""
        start, end = self.window.place(pair[0]), self.window.place(pair[1])
        self._below.append(element("path", d=f"M{_at(start)}L{_at(end)}", stroke=colour, stroke_width=4.5))

    def corners(self, ring: Ring, names: Sequence[str] | None = None) -> None:
        """A disc with its number at each corner, counted from 1."""
        inside = 1.0 if signed_area(ring) > 0 else -1.0
        for index, corner in enumerate(ring):
            name = names[index] if names else str(index + 1)
            x, y = self.window.place(corner)
            self._above.append(element("circle", cx=x, cy=y, r=2.6, fill=THEME.ink))
            before, after = ring[index - 1], ring[(index + 1) % len(ring)]
            out = _outward(before, corner, after, inside)
            radius = _CORNER + 2.5 * (len(name) - 1)
            places = around((x, y), (out[0], -out[1]), (radius + 5, radius + 11, radius + 20, radius + 32), _LEANS)
            at = self._labels.place(places, 2 * radius, 2 * radius)
            if math.dist(at, (x, y)) > radius + 12:
                self._above.append(element("path", d=f"M{_at((x, y))}L{_at(at)}", stroke=THEME.quiet, stroke_width=1))
            self._above.append(self._disc(at, radius, THEME.ink, THEME.table))
            self._above.append(_words(name, at, 11.0, THEME.table, bold=True))

    def sides(self, ring: Ring) -> None:
        """A tag with its number at each side, counted from 1: side n runs from corner n to the next."""
        inside = 1.0 if signed_area(ring) > 0 else -1.0
        for index, (start, end) in enumerate(sides(ring)):
            (ax, ay), (bx, by) = self.window.place(start), self.window.place(end)
            out = (inside * (ay - by), inside * (bx - ax))
            width = 13.0 + 6.5 * (len(str(index + 1)) - 1)
            places: tuple[Point, ...] = ()
            for along in (0.5, 0.36, 0.64, 0.25, 0.75):
                at = (ax + along * (bx - ax), ay + along * (by - ay))
                places += around(at, out, (14.0, 19.0), (0.0,)) + around(at, (-out[0], -out[1]), (14.0,), (0.0,))
            middle = (ax + bx) / 2, (ay + by) / 2
            places += around(middle, out, (30.0, 42.0), (0.0, 40.0, -40.0))
            x, y = self._labels.place(places, width, 14.0)
            if math.dist((x, y), middle) > 28.0 > math.dist((ax, ay), (bx, by)):
                self._above.append(element("path", d=f"M{_at(middle)}L{_at((x, y))}", stroke=THEME.quiet))
            self._above.append(
                element(
                    "rect",
                    x=x - width / 2,
                    y=y - 7,
                    width=width,
                    height=14,
                    rx=3,
                    fill=THEME.table,
                    stroke=THEME.quiet,
                    stroke_width=1,
                )
            )
            self._above.append(_words(str(index + 1), (x, y), 11.0, THEME.quiet))

    def keep_free(self, at: Point, radius: float) -> None:
        """Room for a ring that is drawn later."""
        x, y = self.window.place(at)
        self._labels.take((x - radius, y - radius, x + radius, y + radius))

    def ring(self, at: Point | str, *, radius: float = 15.0, warning: int = 0) -> None:
        """A ring round a point, or round a mark's letter; with the number of the warning that it speaks of."""
        x, y = self._letters[at] if isinstance(at, str) else self.window.place(at)
        colour = THEME.attention if warning else THEME.wrong
        self._above.append(element("circle", cx=x, cy=y, r=radius, fill="none", stroke=THEME.table, stroke_width=5))
        self._above.append(element("circle", cx=x, cy=y, r=radius, fill="none", stroke=colour, stroke_width=2.6))
        if not warning:
            return
        width = 20.0 + 6.5 * (len(str(warning)) - 1)
        reach = radius + 10.0
        bx, by = self._labels.place(around((x, y), (1.0, -1.0), (reach, reach + 8, reach + 16), _LEANS), width, 16.0)
        self._above.append(element("rect", x=bx - width / 2, y=by - 8, width=width, height=16, rx=8, fill=colour))
        self._above.append(_words(f"!{warning}", (bx, by), 11.0, THEME.table, bold=True))

    def name(self, words: str, at: Point, *, size: float = 13.0, colour: str = THEME.ink, bold: bool = False) -> None:
        """Words about a place of the item, as near to it as there is room."""
        spot = self.window.place(at)
        width = 0.58 * size * len(words)
        places = (spot, *around(spot, (0.0, -1.0), (14.0, 24.0), _LEANS))
        found = self._labels.place(places, width, size)
        self._above.append(_words(words, found, size, colour, bold=bold, halo=True))

    def arc(self, about: Point, start: Point, turn_deg: float, radius: float) -> None:
        """An arrow along a turn, from the direction of a point, in pixels from the middle."""
        x, y = self.window.place(about)
        sx, sy = self.window.place(start)
        bearing = math.atan2(y - sy, sx - x)
        turn = math.radians(turn_deg)
        head = min(abs(turn), 10.0 / radius) * math.copysign(1.0, turn)

        def on(angle: float, at: float = radius) -> Point:
            return x + at * math.cos(angle), y - at * math.sin(angle)

        stop = bearing + turn - head
        first, last = on(bearing), on(stop)
        large = 1 if abs(turn - head) > math.pi else 0
        sweep = 0 if turn > 0 else 1
        path = f"M{_at(first)}A{number(radius)} {number(radius)} 0 {large} {sweep} {_at(last)}"
        tip = (_at(on(stop + head)), _at(on(stop, radius - 5)), _at(on(stop, radius + 5)))
        for colour, width in ((THEME.table, 6.0), (THEME.attention, 2.6)):
            self._above.append(
                element("path", d=path, fill="none", stroke=colour, stroke_width=width, stroke_linecap="round")
            )
        self._above.append(element("path", d=f"M{tip[0]}L{tip[1]}L{tip[2]}Z", fill=THEME.attention))

    def picture(self, alt: str, caption: str = "") -> Picture:
        """What has been drawn."""
        return Picture(
            width=self.window.width,
            height=self.window.height,
            drawn=joined([*self._below, *self._above]),
            alt=alt,
            caption=caption,
        )

    def _draw_grid(self) -> None:
        window = self.window
        columns, rows = window.lines(window.left, window.right), window.lines(window.bottom, window.top)
        foot = window.height - window.gutter_below
        self._below.append(
            element(
                "rect",
                x=window.gutter_left,
                y=0,
                width=window.width - window.gutter_left,
                height=foot,
                fill=THEME.table,
                stroke=THEME.panel_stroke,
                stroke_width=1,
            )
        )
        for across, values in ((True, columns), (False, rows)):
            told = window.numbered(values, across=across)
            for value in values:
                x, y = window.place((value, value))
                path = f"M{number(x)} 0V{number(foot)}" if across else f"M{number(window.gutter_left)} {number(y)}H9999"
                if not across:
                    path = path.replace("9999", number(window.width))
                strong = abs(value) < 1e-9
                self._below.append(
                    element(
                        "path",
                        d=path,
                        fill="none",
                        stroke=THEME.stitch_to_come if strong else THEME.tray,
                        stroke_width=1.6 if strong else 1,
                    )
                )
            for value in told:
                x, y = window.place((value, value))
                if across and window.gutter_left + 3 < x < window.width - 3:
                    self._below.append(_words(shown_number(value), (x, foot + 11), 11.0, THEME.quiet))
                elif not across and 6 < y < foot - 3:
                    self._below.append(
                        _words(shown_number(value), (window.gutter_left - 6, y), 11.0, THEME.quiet, anchor="end")
                    )

    def _inward(self, pair: tuple[Point, Point], owner: Outline, along: Point) -> Point:
        """Across a side towards the material, in pixels."""
        x, y = midway(pair)
        reach = 0.5 / self.window.scale
        nx, ny = -along[1], along[0]
        return (nx, ny) if contains(owner, (x + reach * nx, y - reach * ny)) else (-nx, -ny)

    def _closed(self, ring: Ring) -> str:
        return "M" + "L".join(_at(self.window.place(point)) for point in ring) + "Z"

    def _stroke(self, segments: Sequence[tuple[Point, Point]], width: float) -> Markup:
        path = "".join(f"M{_at(start)}L{_at(end)}" for start, end in segments)
        return element("path", d=path, fill="none", stroke=THEME.ink, stroke_width=width, stroke_linecap="butt")

    def _disc(self, at: Point, radius: float, fill: str, stroke: str) -> Markup:
        return element("circle", cx=at[0], cy=at[1], r=radius, fill=fill, stroke=stroke, stroke_width=1.2)


def _words(
    words: str, at: Point, size: float, colour: str, *, bold: bool = False, anchor: str = "middle", halo: bool = False
) -> Markup:
    """One line of text, its capitals half way up at the point."""
    return element(
        "text",
        words,
        x=at[0],
        y=at[1] + 0.35 * size,
        font_size=size,
        fill=colour,
        text_anchor=anchor,
        font_weight="bold" if bold else None,
        paint_order="stroke" if halo else None,
        stroke=THEME.table if halo else None,
        stroke_width=4 if halo else None,
        stroke_linejoin="round" if halo else None,
    )


def _at(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"


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

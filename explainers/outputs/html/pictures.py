"""Figures as numbers of shapes: every drawing of an entry is kept once, however many figures show it.

A *shelf* keeps shapes and figures. What is sealed has a shelf of its own that rests on the open one: it may use what is
there, never the other way round, and no number is given twice. Nothing that is kept bears a name: shapes are paths,
groups are numbers, colours are numbered custom properties of the page.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from ...drawing.svg import VIEW, Element, element_text, entry_elements
from ...figure.layout import Box
from ...figure.model import Entry, Figure, Role
from ..shared.steps import undecorated

__all__ = ["NumberedNames", "Shelf", "colour_name", "figure_markup", "page_figure", "short_path", "view_box"]

_NUMBER = re.compile(r"(?:-|(?<!\d))\d+\.\d+")
_DIGITS = 2  # of a unit of the view box: fine at any zoom
_COLOURED = ("fill", "stroke")


class NumberedNames:
    """Names in the order in which they are first asked for: of colours, of groups."""

    def __init__(self) -> None:
        self.numbers: dict[str, int] = {}

    def __getitem__(self, name: str) -> int:
        return self.numbers.setdefault(name, len(self.numbers))


class Shelf:
    """The shapes and figures of one part of a page.

    colours, groups : shared by all shelves of a page
    rests_on        : the shelf whose shapes and figures are there whenever this one is
    numbers_from    : the last shelf that was filled, after whose numbers its own go on
    """

    def __init__(
        self,
        colours: NumberedNames,
        groups: NumberedNames,
        *,
        rests_on: Shelf | None = None,
        numbers_from: Shelf | None = None,
    ) -> None:
        self.colours = colours
        self.groups = groups
        self._under = rests_on
        self._looks: dict[Entry, tuple[list[object], str]] = rests_on._looks if rests_on else {}
        self._first_shape = numbers_from._next_shape if numbers_from else 0
        self._first_figure = numbers_from._next_figure if numbers_from else 0
        self._shapes: dict[str, int] = {}
        self._drawn: list[list[object]] = []
        self._figures: dict[str, int] = {}
        self._shown: list[list[object]] = []

    @property
    def _next_shape(self) -> int:
        return self._first_shape + len(self._drawn)

    @property
    def _next_figure(self) -> int:
        return self._first_figure + len(self._shown)

    def shape(self, entry: Entry) -> int:
        """The number of how an entry is drawn, whatever its opacity."""
        known = self._looks.get(entry)
        if known is None:
            known = self._looks[entry] = self._written(entry_elements(entry))
        return self._number(*known)

    def shape_of(self, elements: Iterable[Element]) -> int:
        """The number of what is drawn so."""
        return self._number(*self._written(elements))

    def _written(self, elements: Iterable[Element]) -> tuple[list[object], str]:
        written: list[object] = [_written(element, self.colours) for element in elements]
        return written, repr(written)

    def _number(self, written: list[object], key: str) -> int:
        known = self._known(key, "_shapes")
        if known is None:
            known = self._shapes[key] = self._next_shape
            self._drawn.append(written)
        return known

    def figure(self, figure: Figure) -> int:
        """The number of a figure: what it shows in words, and its entries in order."""
        shown: list[object] = [figure.alt, [self.entry(entry) for entry in page_figure(figure).entries]]
        key = repr(shown)
        known = self._known(key, "_figures")
        if known is None:
            known = self._figures[key] = self._next_figure
            self._shown.append(shown)
        return known

    def entry(self, entry: Entry) -> list[float]:
        """Shape, group, and the opacity of one that is not wholly there."""
        own: list[float] = [self.shape(entry), self.groups[entry.group]]
        return own if entry.opacity >= 1.0 else [*own, round(entry.opacity, 3)]

    def data(self) -> dict[str, object]:
        """All that is kept, with the numbers at which it starts."""
        return {
            "firstShape": self._first_shape,
            "shapes": self._drawn,
            "firstFigure": self._first_figure,
            "figures": self._shown,
        }

    def _known(self, key: str, table: str) -> int | None:
        own: dict[str, int] = getattr(self, table)
        if key in own:
            return own[key]
        return self._under._known(key, table) if self._under is not None else None


def page_figure(figure: Figure) -> Figure:
    """A figure as the page shows it: heading, stitches and clock stand in the page itself."""
    bare = undecorated(figure)
    return replace(bare, entries=tuple(entry for entry in bare.entries if entry.role != Role.CLOCK))


def figure_markup(figure: Figure, shelf: Shelf) -> str:
    """The entries of a figure as markup, for a picture that is seen before any script has run."""
    drawn = []
    for entry in page_figure(figure).entries:
        opacity = f' opacity="{entry.opacity:.3g}"' if entry.opacity < 1.0 else ""
        inside = "".join(element_text(_coloured(element, shelf.colours)) for element in entry_elements(entry))
        drawn.append(f'<g data-group="{shelf.groups[entry.group]}"{opacity}>{inside}</g>')
    return "".join(drawn)


def view_box(box: Box) -> list[float]:
    """Left, top, width and height of a part of the stage in the view box."""
    left, top = VIEW.point((box.left, box.top))
    return [round(value, 2) + 0.0 for value in (left, top, VIEW.length(box.width), VIEW.length(box.height))]


def colour_name(number: int) -> str:
    """The custom property of a numbered colour."""
    return f"--c{number}"


def _coloured(element: Element, colours: NumberedNames) -> Element:
    tag, own = element
    return tag, {
        name: f"var({colour_name(colours[value])})" if name in _COLOURED and value.startswith("#") else value
        for name, value in own.items()
    }


def _written(element: Element, colours: NumberedNames) -> list[object]:
    """[fill, stroke, width, path] of a path, and a 1 where it is filled by the even-odd rule.

    A rectangle has [x, y, width, height, rounding] in place of its path. Of colours the number is given, or -1.
    """
    tag, own = element
    fill, stroke = (colours[own[name]] if own.get(name, "none") != "none" else -1 for name in _COLOURED)
    width = round(float(own.get("stroke-width", "0")), 2)
    if tag == "rect":
        return [fill, stroke, width, [round(float(own[name]), 2) for name in ("x", "y", "width", "height", "rx")]]
    rule = [1] if own.get("fill-rule") == "evenodd" and own["d"].count("M") > 1 else []
    return [fill, stroke, width, short_path(own["d"]), *rule]


def short_path(path: str) -> str:
    """A path with as many digits as a page needs."""
    return _NUMBER.sub(lambda found: f"{round(float(found[0]), _DIGITS) + 0.0:g}", path)

"""At what scale paper is cut out: a good number of millimetres a unit, and a line to check the printer with."""

from __future__ import annotations

import math
from collections.abc import Callable

from ...figure.layout import Box
from ...figure.model import Align, Figure, Label, Lines, Role
from ...figure.paper import Picture
from ...figure.theme import Theme
from ...typeface.faces import face

__all__ = ["LINE_MM", "check_line", "good_unit_mm"]

LINE_MM = 100.0  # the line to check a printer with
_GOOD_MM = (30.0, 25.0, 20.0, 15.0)  # a unit is one of these on one page, or 15 mm on several, where it can be
_STEP = 0.97  # from one scale that is tried to the next


def good_unit_mm(*, on_one_page: Callable[[float], bool], on_pages: Callable[[float], bool]) -> float:
    """What one unit of an item measures on paper, so that its parts have room.

    on_one_page : whether at so many millimetres a unit everything has room on one page
    on_pages    : whether every part has room on a page
    """
    for unit_mm in _GOOD_MM:
        if on_one_page(unit_mm):
            return unit_mm
    largest = _GOOD_MM[-1]
    while not on_pages(largest):
        largest *= _STEP
    return largest if largest == _GOOD_MM[-1] else _rounded_down(largest)


def check_line(theme: Theme, *, mm_per_unit: float, words: str, alt: str) -> Picture:
    """A line of 100 mm with a bar at either end, and its words beneath.

    words : such as "100 mm"
    """
    length = LINE_MM / mm_per_unit
    line = Lines(
        id="line",
        group="line",
        role=Role.WORD,
        segments=(((0.0, 0.0), (length, 0.0)),),
        stroke=theme.ink,
        width=0.4 / mm_per_unit,
    )
    bars = tuple(((x, -2.0 / mm_per_unit), (x, 2.0 / mm_per_unit)) for x in (0.0, length))
    ends = Lines(id="ends", group="line", role=Role.WORD, segments=bars, stroke=theme.ink, width=0.4 / mm_per_unit)
    at = (length + 3.0 / mm_per_unit, 0.0)
    label = Label(
        id="words",
        group="line",
        role=Role.WORD,
        text=words,
        at=at,
        size=theme.word_size,
        colour=theme.ink,
        bold=True,
        align=Align.START,
    )
    edge = 3.0 / mm_per_unit
    right = at[0] + face(bold=True).width(words, theme.word_size) + edge
    figure = Figure(background=theme.paper, entries=(line, ends, label), alt=alt)
    return Picture(figure=figure, box=Box(-edge, -edge, right, edge), mm_per_unit=mm_per_unit)


def _rounded_down(millimetres: float) -> float:
    """To two figures, whole from 10 on, never up."""
    steps = 10.0 ** (math.floor(math.log10(millimetres)) - 1)
    return math.floor(millimetres / steps + 1e-9) * steps

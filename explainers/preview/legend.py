"""What the signs in the pictures stand for: each sign as a small picture of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..figure.layout import Box
from ..figure.model import Figure
from ..figure.side_marks import side_mark_entries
from ..figure.subject import Subject
from ..figure.theme import Theme
from ..kinds.join_and_cut.model import Does
from .plot import Plot
from .view import Picture

__all__ = ["legend_pictures"]

_SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
_SIDE = 0.4  # of a sign
_MIDDLE = (_SIDE / 2, _SIDE / 2)


def legend_pictures(theme: Theme) -> Iterator[Picture]:
    """Each sign on the paper of a page, with what it stands for as its caption."""
    for picture in _signs(theme):
        yield replace(picture, figure=replace(picture.figure, background=theme.paper))


def _signs(theme: Theme) -> Iterator[Picture]:
    corner, side, join, cut = (
        Plot((_SQUARE,), scale, theme, grid=False, margin=margin)
        for scale, margin in ((_SIDE, 0.0), (_SIDE, 0.0), (0.6, 0.03), (0.6, 0.03))
    )
    corner.corner_number("1", (_MIDDLE,))
    yield corner.picture("", "a corner, in the order of the file")
    side.side_number("1", (_MIDDLE,))
    yield side.picture("", "a side: side 1 runs from corner 1 to corner 2")
    ends = (0.05, _SIDE / 2), (_SIDE - 0.05, _SIDE / 2)
    mark = side_mark_entries("mark", Subject(thing="mark"), *ends, ticks=1, mark="", letter_at=None, theme=theme)
    figure = Figure(background=theme.table, entries=mark)
    yield Picture(figure=figure, box=Box(0.0, 0.0, _SIDE, _SIDE), caption="a marked side")
    for plot, does, words in ((join, Does.JOIN, "to join"), (cut, Does.CUT, "to cut away")):
        plot.dressed(_SQUARE, does)
        yield plot.picture("", words)

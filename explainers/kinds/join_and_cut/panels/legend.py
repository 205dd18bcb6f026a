"""What the signs in pictures of joining and cutting stand for."""

from __future__ import annotations

from collections.abc import Iterator

from ....choice.panels.plot import Plot
from ....choice.panels.view import PanelPicture
from ....figure.layout import Box
from ....figure.model import Figure
from ....figure.side_marks import side_mark_entries
from ....figure.theme import Theme
from ..drawing.subjects import THE_BASE
from ..model import Does

__all__ = ["signs"]

_SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
_SIDE = 0.4  # of a sign


def signs(theme: Theme) -> Iterator[PanelPicture]:
    """A marked side, a piece to join, a piece to cut away."""
    ends = (0.05, _SIDE / 2), (_SIDE - 0.05, _SIDE / 2)
    mark = side_mark_entries("mark", THE_BASE, *ends, ticks=1, mark="", letter_at=None, theme=theme)
    figure = Figure(background=theme.table, entries=mark)
    yield PanelPicture(figure=figure, box=Box(0.0, 0.0, _SIDE, _SIDE), caption="a marked side")
    for does, words in ((Does.JOIN, "to join"), (Does.CUT, "to cut away")):
        plot = Plot((_SQUARE,), 0.6, theme, grid=False, margin=0.03)
        plot.dressed(_SQUARE, does)
        yield plot.picture("", words)

"""What the signs in the pictures stand for: each sign as a small picture of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..choice.panels.plot import Plot
from ..choice.panels.view import PanelPicture
from ..figure.theme import Theme
from ..kinds.registry import kind_named

__all__ = ["legend_pictures"]

_SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
_SIDE = 0.4  # of a sign
_MIDDLE = (_SIDE / 2, _SIDE / 2)


def legend_pictures(kind: str, theme: Theme) -> Iterator[PanelPicture]:
    """Each sign on the paper of a page, with what it stands for as its caption.

    kind : of the question, which has signs of its own
    """
    for picture in (*_numbers(theme), *kind_named(kind).panels.signs(theme)):
        yield replace(picture, figure=replace(picture.figure, background=theme.paper))


def _numbers(theme: Theme) -> Iterator[PanelPicture]:
    corner, side = (Plot((_SQUARE,), _SIDE, theme, grid=False, margin=0.0) for _ in range(2))
    corner.corner_number("1", (_MIDDLE,))
    yield corner.picture("", "a corner, in the order of the file")
    side.side_number("1", (_MIDDLE,))
    yield side.picture("", "a side: side 1 runs from corner 1 to corner 2")

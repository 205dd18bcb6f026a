"""Signs that agree or disagree: ticks, crosses, rings. Each says by its shape what its colour says too."""

from __future__ import annotations

import math
from collections.abc import Iterable

from ..geometry.rigid_motion import Point, Side
from ..geometry.side import point_along
from .model import Circle, Lines, Role
from .theme import Theme

__all__ = ["broken", "broken_lines", "cross_sign", "ring_sign", "tick_sign"]


def broken(width: float) -> tuple[float, float]:
    """Dash and gap of a line of that width that is seen to be broken, though the ends of its dashes are round."""
    return (2.4 * width, 2.6 * width)


def broken_lines(sides: Iterable[Side], width: float) -> tuple[Side, ...]:
    """Sides as broken lines, each with a dash at either end, or whole where too short.

    What differs is so told from what agrees without colour.
    """
    dash, gap = broken(width)
    segments = []
    for side in sides:
        length = math.dist(*side)
        count = int((length + gap) / (dash + gap))  # no more, so that the gaps never close
        part = dash / length if count > 1 else 1.0
        starts = [k * (1.0 - part) / (count - 1) for k in range(count)] if count > 1 else [0.0]
        segments += [(point_along(side, start), point_along(side, start + part)) for start in starts]
    return tuple(segments)


def tick_sign(name: str, group: str, at: Point, theme: Theme, *, size: float = 0.17) -> Lines:
    """A tick: right, or done."""
    x, y = at
    turn = (x - 0.25 * size, y - 0.7 * size)
    return Lines(
        id=name,
        group=group,
        role=Role.RIGHT,
        segments=(((x - size, y), turn), (turn, (x + size, y + 0.9 * size))),
        stroke=theme.right,
        width=theme.sign_width,
    )


def cross_sign(name: str, group: str, at: Point, theme: Theme, *, size: float = 0.17) -> Lines:
    """A cross: ruled out."""
    x, y = at
    return Lines(
        id=name,
        group=group,
        role=Role.WRONG,
        segments=(((x - size, y - size), (x + size, y + size)), ((x - size, y + size), (x + size, y - size))),
        stroke=theme.wrong,
        width=theme.sign_width,
    )


def ring_sign(name: str, group: str, at: Point, radius: float, theme: Theme, *, alt: str = "") -> Circle:
    """A ring round the place where two outlines differ."""
    return Circle(
        id=name,
        group=group,
        role=Role.WRONG,
        centre=at,
        radius=radius,
        stroke=theme.wrong,
        width=theme.sign_width,
        alt=alt,
    )

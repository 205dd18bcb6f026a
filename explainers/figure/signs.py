"""Signs that agree or disagree: ticks, crosses, rings. Each says by its shape what its colour says too."""

from __future__ import annotations

from ..geometry.rigid_motion import Point
from .model import Circle, Lines, Role
from .theme import Theme

__all__ = ["cross_sign", "ring_sign", "tick_sign"]


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

"""A window on an item's coordinates: its scale, its grid lines, the numbers along its axes.

Item units, y up, become pixels, y down; the gutters left and below hold the numbers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import extent

__all__ = ["Window", "fitting_scale", "shown_number"]

_STEPS = (1.0, 2.0, 5.0)
_LEAST_LINES = 24.0  # pixels between grid lines
_WHOLE = (15.0, 80.0)  # pixels a unit at which the lines stand at whole units, which most files are written in
_DIGIT = 6.4  # width of a digit along an axis, pixels


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """What part of the plane is seen, and where its points come to lie."""

    left: float
    bottom: float
    right: float
    top: float  # these four in item units
    scale: float  # pixels a unit
    gutter_left: float = 0.0
    gutter_below: float = 0.0

    @classmethod
    def round_about(cls, rings: Iterable[Ring], scale: float, *, margin: float, numbered: bool) -> Window:
        """All of some rings, with a margin of pixels round them."""
        left, bottom, right, top = _box(rings)
        free = margin / scale
        left, bottom, right, top = left - free, bottom - free, right + free, top + free
        plain = cls(left=left, bottom=bottom, right=right, top=top, scale=scale)
        if not numbered:
            return plain
        longest = max((len(shown_number(y)) for y in plain.lines(bottom, top)), default=1)
        return cls(
            left=left,
            bottom=bottom,
            right=right,
            top=top,
            scale=scale,
            gutter_left=12.0 + _DIGIT * longest,
            gutter_below=22.0,
        )

    @property
    def width(self) -> float:
        """In pixels, with the gutter."""
        return (self.right - self.left) * self.scale + self.gutter_left

    @property
    def height(self) -> float:
        """In pixels, with the gutter."""
        return (self.top - self.bottom) * self.scale + self.gutter_below

    def place(self, point: Point) -> Point:
        """Where a point of the item lies, in pixels."""
        return (point[0] - self.left) * self.scale + self.gutter_left, (self.top - point[1]) * self.scale

    @property
    def step(self) -> float:
        """Distance between grid lines, item units: 1, 2 or 5 times a power of ten."""
        if _WHOLE[0] <= self.scale <= _WHOLE[1]:
            return 1.0
        return _round_step(_LEAST_LINES / self.scale)

    def lines(self, low: float, high: float) -> tuple[float, ...]:
        """Where grid lines run between two coordinates."""
        step = self.step
        return tuple(k * step for k in range(math.ceil(low / step), math.floor(high / step) + 1))

    def numbered(self, values: Sequence[float], *, across: bool) -> tuple[float, ...]:
        """Those grid lines that have room for a number, nought among them where it is in sight."""
        widest = max((len(shown_number(value)) for value in values), default=1)
        room = _DIGIT * widest + 8.0 if across else 16.0
        step = self.step
        every = max(step, _round_step(room / self.scale))
        return tuple(value for value in values if abs(value / every - round(value / every)) < 1e-6)


def fitting_scale(rings: Iterable[Ring], width: float, height: float) -> float:
    """Pixels a unit at which some rings fill a room of that size."""
    left, bottom, right, top = _box(rings)
    return min(width / max(right - left, 1e-9), height / max(top - bottom, 1e-9))


def shown_number(value: float) -> str:
    """A coordinate along an axis."""
    return f"{value + 0.0:.10g}".replace("-", "\N{MINUS SIGN}") if abs(value) > 1e-12 else "0"


def _round_step(least: float) -> float:
    power = 10.0 ** math.floor(math.log10(least))
    return next((step * power for step in _STEPS if step * power >= least * (1 - 1e-9)), 10.0 * power)


def _box(rings: Iterable[Ring]) -> tuple[float, float, float, float]:
    boxes = [extent(ring) for ring in rings]
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )

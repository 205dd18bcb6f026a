"""Turning and shifting without flipping: rigid motions, and similarities that also scale.

A motion acts on a point as: scale about the origin, turn about the origin, then shift. Neither class has a mirror
field, so that a flip cannot be written down.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from .angles import bearing_deg, wrapped_deg

__all__ = ["Point", "RigidMotion", "Ring", "Side", "Similarity", "cos_sin_deg"]

Point = tuple[float, float]
Side = tuple[Point, Point]  # start, end
Ring = tuple[Point, ...]

_QUARTERS = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), -90.0: (0.0, -1.0)}


def cos_sin_deg(angle_deg: float) -> Point:
    """Cosine and sine of an angle in degrees, exact at whole quarter turns (math.cos is not)."""
    wrapped = wrapped_deg(angle_deg)
    exact = _QUARTERS.get(wrapped)
    if exact is not None:
        return exact
    radians = math.radians(wrapped)
    return math.cos(radians), math.sin(radians)


@dataclass(frozen=True, slots=True, kw_only=True)
class Similarity:
    """Scale by a positive factor, turn about the origin, then shift."""

    turn_deg: float = 0.0  # anticlockwise, in (-180, 180]
    shift: Point = (0.0, 0.0)
    scale: float = 1.0

    def __post_init__(self) -> None:
        if not -180.0 < self.turn_deg <= 180.0:
            raise ValueError(f"turn_deg is {self.turn_deg:g}, outside (-180, 180]: wrap it with wrapped_deg()")
        if not self.scale > 0.0:
            raise ValueError(f"scale is {self.scale:g}: a similarity here never flips or flattens")

    def apply(self, points: Iterable[Point]) -> Ring:
        """The points moved, in the same order."""
        cos, sin = cos_sin_deg(self.turn_deg)
        cos, sin = cos * self.scale, sin * self.scale
        dx, dy = self.shift
        return tuple((cos * x - sin * y + dx, sin * x + cos * y + dy) for x, y in points)

    def apply_point(self, point: Point) -> Point:
        """One point moved."""
        return self.apply((point,))[0]

    def apply_side(self, side: Side) -> Side:
        """One side moved."""
        start, end = self.apply(side)
        return start, end

    def after(self, first: Similarity) -> Similarity:
        """The motion that does ``first``, then this one."""
        return Similarity(
            turn_deg=wrapped_deg(self.turn_deg + first.turn_deg),
            shift=self.apply_point(first.shift),
            scale=self.scale * first.scale,
        )

    def inverse(self) -> Similarity:
        """The motion that undoes this one."""
        back = Similarity(turn_deg=wrapped_deg(-self.turn_deg), scale=1.0 / self.scale)
        x, y = back.apply_point(self.shift)
        return Similarity(turn_deg=back.turn_deg, shift=(-x, -y), scale=back.scale)


@dataclass(frozen=True, slots=True, kw_only=True)
class RigidMotion(Similarity):
    """A similarity whose scale is 1: what a piece may do."""

    def __post_init__(self) -> None:
        Similarity.__post_init__(self)
        if self.scale != 1.0:
            raise ValueError(f"scale is {self.scale:g}: a rigid motion keeps every length")

    @classmethod
    def laying(cls, start: Point, end: Point, *, onto: Side) -> RigidMotion:
        """The motion that lays the side start-end along ``onto``, directions agreeing and middles together.

        Middles, not ends: where the two lengths differ within the authoring tolerance, the error is shared out.
        """
        turn_deg = wrapped_deg(bearing_deg(*onto) - bearing_deg(start, end))
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        x, y = cls(turn_deg=turn_deg).apply_point(middle)
        goal = ((onto[0][0] + onto[1][0]) / 2, (onto[0][1] + onto[1][1]) / 2)
        return cls(turn_deg=turn_deg, shift=(goal[0] - x, goal[1] - y))

    @classmethod
    def turning(cls, turn_deg: float, *, about: Point) -> RigidMotion:
        """A turn about a point."""
        wrapped = wrapped_deg(turn_deg)
        x, y = cls(turn_deg=wrapped).apply_point(about)
        return cls(turn_deg=wrapped, shift=(about[0] - x, about[1] - y))

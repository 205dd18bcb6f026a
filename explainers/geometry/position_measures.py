"""What is measured of many positions of one outline on another at once: areas, shared boundary, corners apart.

A position is a similarity w = a z + b of complex numbers; a and b come as arrays of one shape, (k,). Everything is
plain array arithmetic over pairs of sides, for outlines are small and a polygon clipper's cost is in being called. So
many positions are taken at a time as the pairs of sides of all of them stay within a bound.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .nearest import AT_ONCE, Corners
from .outline import Outline

__all__ = [
    "Complex",
    "Floats",
    "Sides",
    "Strips",
    "areas_in_common",
    "corners_apart",
    "shared_boundaries",
    "with_corners_nearest",
]

Complex = NDArray[np.complex128]
Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

_UPRIGHT = 1e-10  # of a side's length: what is no wider than that has nothing below it
_EVERY = 8  # of the corners is looked at first
_SAME = 1e-6  # two positions whose corners are no farther apart than that on average are as good as each other


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """The sides of an outline, the material on the left of each."""

    start: Complex
    end: Complex

    @classmethod
    def of(cls, outline: Outline) -> Sides:
        """Of all its rings."""
        corners = np.asarray([corner for ring in outline.rings for corner in ring], dtype=float) @ (1.0, 1.0j)
        following = np.arange(1, len(corners) + 1)
        first = 0
        for ring in outline.rings:
            following[first + len(ring) - 1] = first
            first += len(ring)
        return cls(start=corners, end=corners[following])

    def moments(self) -> tuple[float, complex, complex]:
        """(area, centre of gravity, mean of the squared distances from it as complex numbers) of what they enclose."""
        middle = complex(self.start.mean())
        p, q = self.start - middle, self.end - middle
        doubled = p.real * q.imag - p.imag * q.real
        area = float(doubled.sum()) / 2.0
        centre = complex(doubled @ (p + q)) / (6.0 * area)
        square = complex(doubled @ (p * p + p * q + q * q)) / (12.0 * area)
        return area, centre + middle, square - centre**2

    def moved(self, a: Complex, b: Complex) -> Sides:
        """In each position: arrays of shape (k, sides)."""
        a, b = a[:, None], b[:, None]
        return Sides(start=a * self.start + b, end=a * self.end + b)

    def longest(self, count: int) -> Sides:
        """So many of the longest, in their order."""
        if len(self.start) <= count:
            return self
        chosen = np.argsort(-np.abs(self.end - self.start).round(9), kind="stable")[:count]
        chosen.sort()
        return Sides(start=self.start[chosen], end=self.end[chosen])


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """The strips below sides: under y = slope x + height where left <= x <= right."""

    left: Floats
    right: Floats
    slope: Floats
    height: Floats
    sign: Floats  # 1 where the material is below the side, -1 where it is above

    @classmethod
    def below(cls, sides: Sides) -> Strips:
        """Of sides in any shape of array."""
        x, y, dx = sides.start.real, sides.start.imag, sides.end.real - sides.start.real
        dy = sides.end.imag - y
        upright = np.abs(dx) <= _UPRIGHT * np.abs(dy)
        dx[upright] = 0.0
        slope = dy / np.where(upright, 1.0, dx)
        end_x = x + dx
        return cls(
            left=np.minimum(x, end_x), right=np.maximum(x, end_x), slope=slope, height=y - slope * x, sign=-np.sign(dx)
        )


def areas_in_common(a: Complex, b: Complex, sides: Sides, goal: Strips) -> Floats:
    """Area where both outlines have material, in each position.

    An outline is the sum of the strips below its sides, taken with their signs; so the area in common is the sum of
    those of any two strips, which is the integral of the lower of two straight lines. That is half of their sum less
    half of their distance, and of the sum nothing is left over all sides of a closed outline.
    """
    found = np.empty(len(a))
    for some in _lots(len(a), len(sides.start) * len(goal.left)):
        found[some] = _areas_in_common(a[some], b[some], sides, goal)
    return found


def _lots(count: int, pairs: int) -> Iterator[slice]:
    """So many positions in lots that may be measured at once.

    pairs : that each position takes
    """
    step = max(1, AT_ONCE // pairs)
    return (slice(first, first + step) for first in range(0, count, step))


def _areas_in_common(a: Complex, b: Complex, sides: Sides, goal: Strips) -> Floats:
    one = Strips.below(sides.moved(a, b))
    left = np.maximum(one.left[:, :, None], goal.left)
    width = np.minimum(one.right[:, :, None], goal.right) - left
    # Few pairs of strips stand above each other at all: the rest goes on with those.
    chosen = (width > 0.0).ravel().nonzero()[0]
    side, other = np.divmod(chosen, len(goal.left))
    left, width = left.ravel()[chosen], width.ravel()[chosen]
    slope = one.slope.ravel()[side] - goal.slope[other]
    at_left = one.height.ravel()[side] - goal.height[other] + slope * left
    at_right = at_left + slope * width
    # Two lines that cross in between make two triangles, others a trapezium.
    size_left, size_right = np.abs(at_left), np.abs(at_right)
    apart = size_left + size_right
    crossing = (at_left * at_right < 0.0).nonzero()[0]
    apart[crossing] -= 2.0 * size_left[crossing] * size_right[crossing] / apart[crossing]
    shares = one.sign.ravel()[side] * goal.sign[other] * width * apart
    summed = np.bincount(side // one.left.shape[1], weights=shares, minlength=len(a))
    return np.asarray(-0.25 * summed, dtype=np.float64)


def shared_boundaries(a: Complex, b: Complex, sides: Sides, goal: Sides, near: float) -> Floats:
    """For each position, the part of the longer boundary along which the two run on each other, the same way round.

    near : how far apart two sides may lie that are taken for one
    """
    found = np.empty(len(a))
    for some in _lots(len(a), len(sides.start) * len(goal.start)):
        found[some] = _shared_boundaries(sides.moved(a[some], b[some]), goal, near)
    return found


def _shared_boundaries(moved: Sides, goal: Sides, near: float) -> Floats:
    along = goal.end - goal.start
    length = np.abs(along)
    back = (along / length).conj()
    # How far from the line through each goal side (rows) the ends lie: few sides have both of them near one.
    factors = np.stack([back.imag, back.real, -(goal.start * back).imag], axis=1)
    on_line = np.ones((len(along), moved.start.size), dtype=bool)
    for ends in (moved.start.ravel(), moved.end.ravel()):
        across = factors @ np.stack([ends.real, ends.imag, np.ones(len(ends))])
        on_line &= np.abs(across, out=across) < near
    other, side = on_line.nonzero()
    # Each of these as seen from its goal side: along it.
    start, end = (((ends.ravel()[side] - goal.start[other]) * back[other]).real for ends in (moved.start, moved.end))
    common = np.minimum(end, length[other]) - np.maximum(start, 0.0)
    positions, sides = moved.start.shape
    shared = np.bincount(side // sides, weights=np.maximum(common, 0.0), minlength=positions)
    found: Floats = shared / np.maximum(np.abs(moved.end - moved.start).sum(axis=1), length.sum())
    return found


def corners_apart(a: Complex, b: Complex, sides: Sides, goal: Sides, far: float) -> Floats:
    """How far from the nearest corner of the other a corner is on average, both ways; what is far counts 1 at most."""
    there = Corners(goal.start)
    found = np.empty(len(a))
    for some in _lots(len(a), len(sides.start) * len(there)):
        moved = sides.moved(a[some], b[some]).start
        squared = there.squared_distances(moved.ravel()).reshape(len(there), *moved.shape)
        found[some] = _mean(squared.min(axis=0), far) + _mean(squared.min(axis=2).T, far)
    return found


def with_corners_nearest(a: Complex, b: Complex, sides: Sides, goal: Sides, far: float, count: int) -> Indices:
    """So many of the positions, in their order: those in which corners are least apart; of equal ones the earlier.

    A few of the goal's corners tell how far apart they are at least, which rules out most positions.
    """
    few = Corners(goal.start[::_EVERY])
    least = np.empty(len(a))
    for some in _lots(len(a), len(sides.start) * len(few)):
        moved = sides.moved(a[some], b[some]).start
        squared = few.squared_distances(moved.ravel()).reshape(len(few), *moved.shape)
        least[some] = _mean(squared.min(axis=2).T, far) * len(few) / len(goal.start)
    apart = np.full(len(a), np.inf)
    rest = least.argsort(kind="stable")
    while len(rest):
        now, rest = rest[:count], rest[count:]
        apart[now] = corners_apart(a[now], b[now], sides, goal, far)
        rest = rest[least[rest] <= np.partition(apart, count - 1)[count - 1] + 2.0 * _SAME]
    chosen = (apart / _SAME).round().argsort(kind="stable")[:count]
    chosen.sort()
    return chosen


def _mean(squared: Floats, far: float) -> Floats:
    """Mean of distances along the last axis."""
    found: Floats = np.minimum(np.sqrt(np.maximum(squared, 0.0)) / far, 1.0).mean(axis=-1)
    return found

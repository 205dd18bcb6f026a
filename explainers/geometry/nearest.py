"""How far points are from the nearest of some corners, for many points at once.

Squared distances are |p|^2 - 2 p.q + |q|^2, so one product of matrices gives those of many pairs, several times faster
than their differences one by one; what that costs is half of the digits where a point lies on a corner.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["AT_ONCE", "Corners", "nearest_distances"]

Complex = NDArray[np.complex128]
Floats = NDArray[np.float64]

# Pairs held in memory at a time: so many stay near the processor, and their product of matrices is not yet divided
# among threads, which costs more here than it saves.
AT_ONCE = 60_000


class Corners:
    """Corners from which the distances of points are asked again and again."""

    def __init__(self, corners: Complex) -> None:
        self.middle = complex(corners.mean())  # near which the fewest digits are lost
        away = corners - self.middle
        self._factors = np.stack([-2.0 * away.real, -2.0 * away.imag, _squared(away), np.ones(len(away))], axis=1)
        self._room = np.empty(0)

    def __len__(self) -> int:
        return len(self._factors)

    def squared_distances(self, points: Complex) -> Floats:
        """(corners, points); rounding may leave a little less than nothing. The next answer takes its room."""
        away = points - self.middle
        columns = np.stack([away.real, away.imag, np.ones(len(away)), _squared(away)])
        size = len(self) * len(away)
        if len(self._room) < size:
            self._room = np.empty(size)
        found = self._room[:size].reshape(len(self), len(away))
        step = max(1, AT_ONCE // len(away))
        for first in range(0, len(self), step):
            np.matmul(self._factors[first : first + step], columns, out=found[first : first + step])
        return found


def nearest_distances(points: Complex, corners: Complex) -> Floats:
    """Distance of each point from the nearest corner, to about 1e-7 of the distances between the corners and points."""
    known = Corners(corners)
    found = np.empty(len(points))
    step = max(1, AT_ONCE // len(known))
    for first in range(0, len(points), step):
        some = slice(first, first + step)
        found[some] = known.squared_distances(points[some]).min(axis=0)
    return np.sqrt(np.maximum(found, 0.0))


def _squared(z: Complex) -> Floats:
    found: Floats = z.real**2 + z.imag**2
    return found

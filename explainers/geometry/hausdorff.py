"""How far apart two outlines are where they are farthest apart, as they lie.

The distance from a point to a set of sides is the least of its distances to each of them, and the distance to one side
is convex along a straight line. So along a stretch of a boundary no point is farther from the other boundary than the
least, over its sides, of the larger of the two distances of the stretch's ends. Stretches that could still hold a
farther point are halved until none is left: the answer is exact to a part in a million, without samples to choose.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from .outline import Outline

__all__ = ["hausdorff_distance"]

Complex = NDArray[np.complex128]

_EXACT_TO = 1e-6  # of the larger extent
_HALVINGS = 40  # many more than that takes


def hausdorff_distance(laid: Outline, other: Outline) -> float:
    """The largest distance between two boundaries, holes included, in the units of both.

    Either outline may have the point that is farthest from the other one.
    Source : the Hausdorff distance of two closed sets
    """
    first, second = _sides(laid), _sides(other)
    least = _EXACT_TO * max(laid.larger_extent, other.larger_extent)
    there = _farthest(first, second, 0.0, least)
    return _farthest(second, first, there, least)


def _sides(outline: Outline) -> tuple[Complex, Complex]:
    starts = np.asarray([corner for ring in outline.rings for corner in ring], dtype=float)
    ends = np.asarray([corner for ring in outline.rings for corner in ring[1:] + ring[:1]], dtype=float)
    return starts[:, 0] + 1j * starts[:, 1], ends[:, 0] + 1j * ends[:, 1]


def _farthest(from_: tuple[Complex, Complex], to: tuple[Complex, Complex], best: float, least: float) -> float:
    """The largest distance from one boundary to the other, or ``best`` where that is no smaller."""
    start, end = from_
    at_start, at_end = _distances(start, *to), _distances(end, *to)
    for _ in range(_HALVINGS):
        best = max(best, float(at_start.min(axis=1).max()), float(at_end.min(axis=1).max()))
        could_be = np.maximum(at_start, at_end).min(axis=1)
        open_ = could_be > best + least
        if not open_.any():
            break
        start, end, at_start, at_end = start[open_], end[open_], at_start[open_], at_end[open_]
        middle = (start + end) / 2
        at_middle = _distances(middle, *to)
        start, end = np.concatenate([start, middle]), np.concatenate([middle, end])
        at_start, at_end = np.concatenate([at_start, at_middle]), np.concatenate([at_middle, at_end])
    return best


def _distances(points: Complex, start: Complex, end: Complex) -> NDArray[np.float64]:
    """Distance of each point (rows) from each side (columns)."""
    along = end - start
    squared = np.maximum((along * along.conj()).real, np.finfo(float).tiny)
    away = points[:, None] - start
    part = np.clip((away * along.conj()).real / squared, 0.0, 1.0)
    return np.abs(away - part * along)

"""How far two pictures of one thing agree: within a few pixels of each other, and in structure."""

from __future__ import annotations

import numpy as np
from scipy.ndimage import uniform_filter

__all__ = ["apart", "structural_similarity"]

_TOLERANCE = 60  # of 255 levels: a thin slanted line is softened differently by every program
_EVEN = 8  # levels within which one colour counts as the same
_WINDOW = 7
_K1, _K2 = 0.01, 0.03  # Wang, Bovik, Sheikh & Simoncelli 2004, doi 10.1109/TIP.2003.819861


def apart(one: np.ndarray, other: np.ndarray, within: int = 2) -> np.ndarray:
    """Where the pictures do not agree: pixels of one unlike every pixel of the other that is `within` so many pixels.

    A line of one that lies farther than that from its like in the other shows, and so does one that is not there, and
    a ground of another colour. Pixels are counted across and down.
    Returns : (height, width) of bool
    """
    differ = np.abs(one.astype(np.int16) - other).max(axis=2) > _EVEN
    ys, xs = np.nonzero(differ)
    if len(ys):
        part = np.s_[max(0, ys.min() - 8) : ys.max() + 9, max(0, xs.min() - 8) : xs.max() + 9]
        differ[part] = _unlike(one[part], other[part], within) | _unlike(other[part], one[part], within)
    return differ


def _unlike(one: np.ndarray, other: np.ndarray, within: int) -> np.ndarray:
    """Pixels of one beyond the least and the most that the other has near by, in any channel."""
    least, most = _extremes(other, other, within)
    lower, higher = _extremes(least, most, 1)
    even = (higher - lower <= _EVEN).all(axis=2, keepdims=True)  # no edge that could have been softened
    slack = np.where(even, np.uint8(_EVEN), np.uint8(_TOLERANCE))
    under = np.where(least > one, least - one, 0)
    over = np.where(one > most, one - most, 0)
    return (np.maximum(under, over) > slack).any(axis=2)


def _extremes(least: np.ndarray, most: np.ndarray, reach: int) -> tuple[np.ndarray, np.ndarray]:
    """The least of one picture and the most of the other, in every channel, in the square about each pixel."""
    for axis in (0, 1):
        size = least.shape[axis]
        room = [(0, 0)] * 3
        room[axis] = (reach, reach)
        lows, highs = np.pad(least, room, mode="edge"), np.pad(most, room, mode="edge")
        for step in range(2 * reach + 1):
            there = np.s_[step : step + size] if axis == 0 else np.s_[:, step : step + size]
            least, most = np.minimum(least, lows[there]), np.maximum(most, highs[there])
    return least, most


def structural_similarity(one: np.ndarray, other: np.ndarray) -> float:
    """The mean structural similarity of two pictures in grey, with even windows of 7 pixels; 1 for equal ones."""
    a, b = (picture @ np.array([0.2126, 0.7152, 0.0722]) for picture in (one, other))
    mean_a, mean_b = uniform_filter(a, _WINDOW), uniform_filter(b, _WINDOW)
    var_a = uniform_filter(a * a, _WINDOW) - mean_a**2
    var_b = uniform_filter(b * b, _WINDOW) - mean_b**2
    both = uniform_filter(a * b, _WINDOW) - mean_a * mean_b
    c1, c2 = (_K1 * 255) ** 2, (_K2 * 255) ** 2
    ratio = (2 * mean_a * mean_b + c1) * (2 * both + c2) / ((mean_a**2 + mean_b**2 + c1) * (var_a + var_b + c2))
    return float(ratio.mean())

"""A meter of flashes: opposing changes of relative luminance, counted over the pictures of a clip.

WCAG 2.2, 2.3.1: a general flash is a pair of opposing changes of 10 % or more of the greatest relative luminance, the
darker state below 0.80; at most three may fall into any one second, unless what flashes is small: less than a quarter
of any field of view of 10 degrees, a third of the picture's width by a third of its height. The picture is measured in
blocks, each by the mean of its pixels. Red flashes have a test of their own there and are not measured here.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

__all__ = ["LARGEST_PART", "FlashMeter"]

Array = np.ndarray[Any, Any]

LARGEST_PART = 0.25  # of a field, that may flash more often

_STEP = 0.10
_DARKER_BELOW = 0.80
_CHANGES = 7  # a pair of changes is a flash: with the seventh within a second, there are more than three
_BLOCK = 8  # pixels

_CODE = np.arange(256) / 255.0
_LINEAR = np.where(_CODE <= 0.04045, _CODE / 12.92, ((_CODE + 0.055) / 1.055) ** 2.4).astype(np.float32)


@dataclass
class FlashMeter:
    """Shown one picture after the other; holds may be left out, since nothing changes in them."""

    largest_part: float = 0.0  # of any field, that flashed more than three times in one second
    most_changes: int = 0  # of any block in any second, for a closer look; counted up to seven
    _low: Array = field(default_factory=lambda: np.zeros(0))
    _high: Array = field(default_factory=lambda: np.zeros(0))
    _way: Array = field(default_factory=lambda: np.zeros(0))
    _times: Array = field(default_factory=lambda: np.zeros(0))

    def show(self, rgb: Array, time_s: float) -> None:
        """rgb : (height, width, 3) uint8; time_s : when it appears, not before the picture shown last."""
        light = block_luminance(rgb)
        if not self._low.size:
            self._low, self._high = light.copy(), light.copy()
            self._way = np.zeros(light.shape, dtype=np.int8)
            self._times = np.full((_CHANGES, *light.shape), -np.inf)
            return
        # From the lowest since the last fall upwards, or from the highest since the last rise downwards. A slow change
        # over many pictures counts as much as a sudden one.
        rises = (light - self._low >= _STEP) & (self._low < _DARKER_BELOW) & (self._way <= 0)
        falls = (self._high - light >= _STEP) & (light < _DARKER_BELOW) & (self._way >= 0) & ~rises
        turned = rises | falls
        self._way[rises], self._way[falls] = 1, -1
        self._low = np.where(turned, light, np.minimum(self._low, light))
        self._high = np.where(turned, light, np.maximum(self._high, light))
        self._times[:, turned] = np.concatenate(
            [self._times[1:, turned], np.full((1, int(turned.sum())), time_s)], axis=0
        )
        within = self._times > time_s - 1.0 + 1e-6  # the seventh change a whole second later is of the next one
        self.most_changes = max(self.most_changes, int(within.sum(axis=0).max()))
        self.largest_part = max(self.largest_part, _largest_part(np.asarray(within.all(axis=0))))


def block_luminance(rgb: Array) -> Array:
    """Mean relative luminance of each whole block, 0 to 1."""
    rows, columns = rgb.shape[0] // _BLOCK, rgb.shape[1] // _BLOCK
    linear = _LINEAR[rgb[: rows * _BLOCK, : columns * _BLOCK]]
    light = linear @ np.array([0.2126, 0.7152, 0.0722], dtype=np.float32)
    mean: Array = light.reshape(rows, _BLOCK, columns, _BLOCK).mean(axis=(1, 3))
    return mean


def _largest_part(flashing: Array) -> float:
    """The largest part of any field, a third as wide and as high as the picture, that is marked."""
    if not flashing.any():
        return 0.0
    rows, columns = (max(1, round(length / 3)) for length in flashing.shape)
    sums = np.pad(flashing.astype(np.int64).cumsum(0).cumsum(1), ((1, 0), (1, 0)))
    fields = sums[rows:, columns:] - sums[:-rows, columns:] - sums[rows:, :-columns] + sums[:-rows, :-columns]
    part: float = fields.max() / (rows * columns)
    return part

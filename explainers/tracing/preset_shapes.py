"""The native shapes of a slide that have straight sides, as corners in a box of a width and a height, y down.

Source : the formulas of presetShapeDefinitions.xml in ECMA-376, part 1
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from ..geometry.rigid_motion import Ring

__all__ = ["PRESETS", "Preset"]

Corners = Callable[[float, float, Mapping[str, float]], Ring]
_WHOLE = 100_000


@dataclass(frozen=True, slots=True)
class Preset:
    """A native shape: the corners, and what its grips say where a file leaves them out."""

    corners: Corners
    grips: Mapping[str, float]


def _rectangle(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    return (0, 0), (w, 0), (w, h), (0, h)


def _triangle(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    return (0, h), (w * grips["adj"] / _WHOLE, 0), (w, h)


def _right_triangle(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    return (0, h), (0, 0), (w, h)


def _diamond(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    return (0, h / 2), (w / 2, 0), (w, h / 2), (w / 2, h)


def _parallelogram(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    x = min(min(w, h) * grips["adj"] / _WHOLE, w)
    return (0, h), (x, 0), (w, 0), (w - x, h)


def _trapezoid(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    x = min(min(w, h) * grips["adj"] / _WHOLE, w / 2)
    return (0, h), (x, 0), (w - x, 0), (w, h)


def _hexagon(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    x = min(min(w, h) * grips["adj"] / _WHOLE, w / 2)
    dy = math.sin(math.radians(60)) * h / 2 * grips["vf"] / _WHOLE
    low, high = h / 2 - dy, h / 2 + dy
    return (0, h / 2), (x, low), (w - x, low), (w, h / 2), (w - x, high), (x, high)


def _octagon(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    x = min(w, h) * min(grips["adj"], 50_000) / _WHOLE
    return (0, x), (x, 0), (w - x, 0), (w, x), (w, h - x), (w - x, h), (x, h), (0, h - x)


def _pentagon(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    wide, high = w / 2 * grips["hf"] / _WHOLE, h / 2 * grips["vf"] / _WHOLE
    middle = h / 2 * grips["vf"] / _WHOLE
    (x1, y1), (x2, y2) = (
        (wide * math.cos(math.radians(turn)), high * math.sin(math.radians(turn))) for turn in (18, 306)
    )
    return (
        (w / 2 - x1, middle - y1),
        (w / 2, 0),
        (w / 2 + x1, middle - y1),
        (w / 2 + x2, middle - y2),
        (w / 2 - x2, middle - y2),
    )


def _arrow_block(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    x = w - min(min(w, h) * grips["adj"] / _WHOLE, w)
    return (0, 0), (x, 0), (w, h / 2), (x, h), (0, h)


def _chevron(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    x = min(min(w, h) * grips["adj"] / _WHOLE, w)
    return (0, 0), (w - x, 0), (w, h / 2), (w - x, h), (0, h), (x, h / 2)


def _plus(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    x = min(w, h) * min(grips["adj"], 50_000) / _WHOLE
    r, b = w - x, h - x
    return (0, x), (x, x), (x, 0), (r, 0), (r, x), (w, x), (w, b), (r, b), (r, h), (x, h), (x, b), (0, b)


def _corner(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    short = min(w, h)
    x, y = min(short * grips["adj2"] / _WHOLE, w), h - min(short * grips["adj1"] / _WHOLE, h)
    return (0, 0), (x, 0), (x, y), (w, y), (w, h), (0, h)


def _snipped(w: float, h: float, grips: Mapping[str, float]) -> Ring:
    x = min(w, h) * min(grips["adj"], 50_000) / _WHOLE
    return (0, 0), (w - x, 0), (w, x), (w, h), (0, h)


_RECTANGLE = Preset(_rectangle, {})
_DIAMOND = Preset(_diamond, {})
PRESETS: Mapping[str, Preset] = {
    "rect": _RECTANGLE,
    "flowChartProcess": _RECTANGLE,
    "triangle": Preset(_triangle, {"adj": 50_000}),
    "rtTriangle": Preset(_right_triangle, {}),
    "diamond": _DIAMOND,
    "flowChartDecision": _DIAMOND,
    "parallelogram": Preset(_parallelogram, {"adj": 25_000}),
    "trapezoid": Preset(_trapezoid, {"adj": 25_000}),
    "hexagon": Preset(_hexagon, {"adj": 25_000, "vf": 115_470}),
    "octagon": Preset(_octagon, {"adj": 29_289}),
    "pentagon": Preset(_pentagon, {"hf": 105_146, "vf": 110_557}),
    "homePlate": Preset(_arrow_block, {"adj": 50_000}),
    "chevron": Preset(_chevron, {"adj": 50_000}),
    "plus": Preset(_plus, {"adj": 25_000}),
    "corner": Preset(_corner, {"adj1": 50_000, "adj2": 50_000}),
    "snip1Rect": Preset(_snipped, {"adj": 16_667}),
}

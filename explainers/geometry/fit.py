"""Laying one outline on another as well as turning, shifting and one scaling allow.

As well as can be: with the least area where only one of them has material. Outlines that differ by a slip share most
of their sides, so the search lays side on side: every side of the one along every side of the other, at the few scales
that make sense. Corners that then coincide are counted to find the promising positions; only those are overlaid. Where
nothing lines up, the best position is moved about a little. No chance is involved: the same outlines give the same fit.

Corners are handled as complex numbers here: a similarity is w = a z + b.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from .angles import wrapped_deg
from .outline import Outline
from .rigid_motion import Similarity

__all__ = ["BestFit", "best_fit"]

Complex = NDArray[np.complex128]

OVERLAID = 14  # positions that are worth the cost of an overlay
TRUE_SCALE_IS_WORTH = 0.8  # a changed scale must bring the difference below this part of what the own scale leaves
MOVED_ABOUT_ABOVE = 0.15  # of the area: less than that and the sides line up; to move about would spoil it


@dataclass(frozen=True, slots=True, kw_only=True)
class BestFit:
    """The motion, and the area where only one of the two has material after it."""

    motion: Similarity
    difference: float  # in the units of the outline that it is laid on, squared


def best_fit(
    outline: Outline, other: Outline, *, scales: tuple[float, ...] = (1.0,), shown_turn_deg: float = 0.0
) -> BestFit:
    """Lay ``outline`` on ``other``.

    scales         : scales to be preferred where they come near an equal area, best first
    shown_turn_deg : how the outline is shown: of equally good turns, the one nearest to it is taken
    """
    z, w = _corners(outline), _corners(other)
    equal_area = math.sqrt(other.area / outline.area)
    own = next((scale for scale in scales if 0.7 < scale / equal_area < 1.0 / 0.7), None)
    a, b, is_own = _side_on_side(outline, other, equal_area, own)
    promising = _promising(a, b, z, w, other.larger_extent)
    a, b, is_own = a[promising], b[promising], is_own[promising]
    differences = _differences(a, b, outline, other)
    weighed = np.where(is_own, differences * TRUE_SCALE_IS_WORTH, differences)
    turns = [wrapped_deg(math.degrees(cmath.phase(factor)) - shown_turn_deg) for factor in a]
    grain = 1e-6 * other.area
    best = min(
        range(len(a)),
        key=lambda i: (
            round(float(weighed[i]) / grain),
            round(abs(turns[i]), 6),
            -round(turns[i], 6),
            _key(complex(b[i])),
        ),
    )
    found = complex(a[best]), complex(b[best]), float(differences[best])
    if found[2] > MOVED_ABOUT_ABOVE * other.area:
        found = _moved_about(found, outline, other)
    factor, shift, difference = found
    turn_deg = wrapped_deg(math.degrees(cmath.phase(factor)))
    return BestFit(
        motion=Similarity(turn_deg=turn_deg, shift=(shift.real, shift.imag), scale=_clean(abs(factor))),
        difference=max(0.0, difference),
    )


def _clean(scale: float) -> float:
    return 1.0 if abs(scale - 1.0) < 1e-12 else scale


def _key(shift: complex) -> tuple[float, float]:
    return round(shift.real, 6), round(shift.imag, 6)


def _corners(outline: Outline) -> Complex:
    points = np.asarray([corner for ring in outline.rings for corner in ring], dtype=float)
    return points[:, 0] + 1j * points[:, 1]


def _ends(outline: Outline) -> tuple[Complex, Complex]:
    points = [corner for ring in outline.rings for corner in ring]
    nexts = [corner for ring in outline.rings for corner in ring[1:] + ring[:1]]
    start, end = np.asarray(points, dtype=float), np.asarray(nexts, dtype=float)
    return start[:, 0] + 1j * start[:, 1], end[:, 0] + 1j * end[:, 1]


def _side_on_side(
    outline: Outline, other: Outline, equal_area: float, own: float | None
) -> tuple[Complex, Complex, NDArray[np.bool_]]:
    """(a, b, whether at a preferred scale) of every position worth a look, each once."""
    p, q = (ends[:, None] for ends in _ends(outline))
    goal_p, goal_q = (ends[None, :] for ends in _ends(other))
    ratio = (goal_q - goal_p) / (q - p)
    turn = ratio / np.abs(ratio)
    found: list[tuple[Complex, Complex, bool]] = []
    for scale, is_own in ((own, True), (equal_area, False)):
        if scale is None or (not is_own and own is not None and abs(scale / own - 1.0) < 1e-6):
            continue
        a = scale * turn
        found += [(a, goal_p - a * p, is_own), (a, goal_q - a * q, is_own)]
    # Both ends together, which fixes the scale: for an option drawn by hand to a scale of its own.
    fits = np.abs(np.abs(ratio) / equal_area - 1.0) < 0.3
    found.append((ratio[fits], (goal_p - ratio * p)[fits], own is None))
    a = np.concatenate([entry[0].ravel() for entry in found])
    b = np.concatenate([entry[1].ravel() for entry in found])
    is_own_all = np.concatenate([np.full(entry[0].size, entry[2]) for entry in found])
    grain = 1e-6 * other.larger_extent
    rounded = np.stack([a.real / 1e-6, a.imag / 1e-6, b.real / grain, b.imag / grain], axis=1).round().astype(np.int64)
    # Only one of each, kept in the order of first appearance: own scale before any other.
    codes = rounded @ np.array([1_000_003, 998_244_353, 7_919, 15_485_863], dtype=np.int64)
    _, first = np.unique(codes, return_index=True)
    first.sort()
    return a[first], b[first], is_own_all[first]


def _promising(a: Complex, b: Complex, z: Complex, w: Complex, extent: float) -> NDArray[np.intp]:
    """The positions in which most corners find a corner nearby, best first."""
    moved = a[:, None] * z + b[:, None]
    apart = np.abs(moved[:, :, None] - w) / (0.2 * extent)
    soft = np.minimum(apart.min(axis=2), 1.0).mean(axis=1) + np.minimum(apart.min(axis=1), 1.0).mean(axis=1)
    order = np.lexsort((np.arange(len(a)), soft.round(6)))
    return order[:OVERLAID]


def _polygons(a: Complex, b: Complex, outline: Outline) -> Any:
    """The outline in each position, as an array of polygons."""
    rings = []
    for ring in outline.rings:
        points = np.asarray((*ring, ring[0]), dtype=float)
        moved = a[:, None] * (points[:, 0] + 1j * points[:, 1]) + b[:, None]
        rings.append(shapely.linearrings(np.stack([moved.real, moved.imag], axis=2)))
    if len(rings) == 1:
        return shapely.polygons(rings[0])
    return shapely.polygons(rings[0], holes=np.stack(rings[1:], axis=1))


def _differences(a: Complex, b: Complex, outline: Outline, other: Outline) -> NDArray[np.float64]:
    """Area where only one of the two has material, for each position."""
    goal = shapely.Polygon(other.exterior, other.holes)
    shared = shapely.area(shapely.intersection(_polygons(a, b, outline), goal))
    result: NDArray[np.float64] = np.abs(a) ** 2 * outline.area + other.area - 2.0 * shared
    return result


def _moved_about(
    start: tuple[complex, complex, float], outline: Outline, other: Outline
) -> tuple[complex, complex, float]:
    """The position after small turns and shifts, where these help a lot; else the one given."""
    factor, shift, difference = start
    middle = complex(*_middle(outline))
    place = factor * middle + shift
    step, turn = 0.08 * other.larger_extent, math.radians(8.0)
    best = difference
    at, by = place, factor
    for _ in range(7):
        ways = [(step, 0.0), (-step, 0.0), (1j * step, 0.0), (-1j * step, 0.0), (0.0, turn), (0.0, -turn)]
        a = np.array([by * cmath.exp(1j * angle) for _, angle in ways])
        b = np.array([at + way for way, _ in ways]) - a * middle
        tried = _differences(a, b, outline, other)
        index = int(np.argmin(tried))
        if tried[index] < best * 0.999:
            best, at, by = float(tried[index]), at + ways[index][0], complex(a[index])
        else:
            step, turn = step / 2, turn / 2
    if best < 0.75 * difference:
        return by, at - by * middle, best
    return start


def _middle(outline: Outline) -> tuple[float, float]:
    xs, ys = zip(*outline.exterior, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2

"""Laying one outline on another as well as turning, shifting and one scaling allow.

As well as can be: with the least area where only one of them has material, and their boundaries running on each other,
for that is the position that the eye finds; a position counts for less area the more of the boundary it shares.
Outlines that differ by a slip share most of their sides, so the search lays side on side: the long sides of the one
along the long sides of the other, at the few scales that make sense. Corners that then come near each other show the
promising positions; only those are overlaid. Where nothing lines up, the best position is moved about a little. No
chance is involved: the same outlines give the same fit.

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

SIDES = 20  # long sides that are laid along others: what has more corners than that has enough to line up by
AT_ONCE = 2_000_000  # distances between corners held in memory at a time
OVERLAID = 8  # positions that are worth the cost of an overlay
TRUE_SCALE_IS_WORTH = 0.8  # a changed scale must bring the difference below this part of what the own scale leaves
# A position in which the boundaries run on each other is the one that the eye finds, so it may differ by more.
NEAT_IS_WORTH = 0.75
LINED_UP = 0.6  # part of the boundary that is shared: no other scale need be tried
ASTRAY = 0.2  # part of the boundary that is shared: what has less may as well be moved about
MOVED_ABOUT_ABOVE = 0.15  # of the area: what differs by less lies well enough


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
    own = tuple(dict.fromkeys(scale for scale in scales if 0.7 < scale / equal_area < 1.0 / 0.7))
    a, b = _side_on_side(outline, other, own)
    a, b = _promising(a, b, z, w, other.larger_extent)
    shares = _shared_boundary(a, b, outline, other)
    is_own = np.full(len(a), True)
    if not own or shares.max() < LINED_UP:
        more_a, more_b = _promising(*_scaled(outline, other, equal_area), z, w, other.larger_extent)
        a, b = np.concatenate([a, more_a]), np.concatenate([b, more_b])
        shares = np.concatenate([shares, _shared_boundary(more_a, more_b, outline, other)])
        is_own = np.concatenate([is_own, np.full(len(more_a), not own)])
    # Overlays are what costs most; a position that shares much less than the best one is not the one that is seen.
    seen = shares >= shares.max() - 0.3
    a, b, shares, is_own = a[seen], b[seen], shares[seen], is_own[seen]
    differences = _differences(a, b, outline, other)
    weighed = differences * np.where(is_own, TRUE_SCALE_IS_WORTH, 1.0) * (1.0 - NEAT_IS_WORTH * shares)
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
    if shares[best] < ASTRAY and found[2] > MOVED_ABOUT_ABOVE * other.area:
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


def _long_sides(outline: Outline) -> tuple[Complex, Complex]:
    p, q = _ends(outline)
    longest = np.argsort(-np.abs(q - p).round(9), kind="stable")[:SIDES]
    longest.sort()
    return p[longest], q[longest]


def _side_on_side(outline: Outline, other: Outline, scales: tuple[float, ...]) -> tuple[Complex, Complex]:
    """(a, b) of every position at these scales in which a side lies along a side with one end in common."""
    p, q, goal_p, goal_q, ratio = _pairs(outline, other)
    turn = ratio / np.abs(ratio)
    found = [np.zeros((2, 0), dtype=complex)]
    for scale in scales:
        a = scale * turn
        found += [np.stack([a.ravel(), (goal_p - a * p).ravel()]), np.stack([a.ravel(), (goal_q - a * q).ravel()])]
    return _each_once(np.concatenate(found, axis=1), other.larger_extent)


def _scaled(outline: Outline, other: Outline, equal_area: float) -> tuple[Complex, Complex]:
    """The same at equal area; and every position in which both ends of a side meet, which fixes the scale."""
    p, _, goal_p, _, ratio = _pairs(outline, other)
    a, b = _side_on_side(outline, other, (equal_area,))
    near = np.abs(np.abs(ratio) / equal_area - 1.0) < 0.3
    both = np.stack([ratio[near], (goal_p - ratio * p)[near]])
    return _each_once(np.concatenate([both, np.stack([a, b])], axis=1), other.larger_extent)


def _pairs(outline: Outline, other: Outline) -> tuple[Complex, Complex, Complex, Complex, Complex]:
    """(starts, ends, the starts and ends they go to, ratios): rows for sides of the one, columns for the other's."""
    p, q = (ends[:, None] for ends in _long_sides(outline))
    goal_p, goal_q = (ends[None, :] for ends in _long_sides(other))
    return p, q, goal_p, goal_q, (goal_q - goal_p) / (q - p)


def _each_once(positions: Complex, extent: float) -> tuple[Complex, Complex]:
    """The positions without repeats, in the order of their first appearance."""
    a, b = positions
    grain = 1e-6 * extent
    rounded = np.stack([a.real / 1e-6, a.imag / 1e-6, b.real / grain, b.imag / grain]).round().astype(np.int64)
    codes = np.array([1_000_003, 998_244_353, 7_919, 15_485_863], dtype=np.int64) @ rounded
    _, first = np.unique(codes, return_index=True)
    first.sort()
    return a[first], b[first]


def _promising(a: Complex, b: Complex, z: Complex, w: Complex, extent: float) -> tuple[Complex, Complex]:
    """(a, b) of the positions in which most corners find another near, best first."""
    if not len(a):
        return a, b
    rows = max(1, AT_ONCE // (len(z) * len(w)))
    soft = np.concatenate(
        [_strangeness(a[i : i + rows], b[i : i + rows], z, w, 0.2 * extent) for i in range(0, len(a), rows)]
    )
    order = np.lexsort((np.arange(len(a)), soft.round(6)))[:OVERLAID]
    return a[order], b[order]


def _strangeness(a: Complex, b: Complex, z: Complex, w: Complex, far: float) -> NDArray[np.float64]:
    """How far from the nearest corner of the other a corner is on average, both ways; what is far counts 1 at most."""
    moved = a[:, None] * z + b[:, None]
    apart = np.abs(moved[:, :, None] - w) / far
    nearest = (np.minimum(apart.min(axis=axis), 1.0).mean(axis=1) for axis in (2, 1))
    result: NDArray[np.float64] = sum(nearest, np.zeros(len(a)))
    return result


def _shared_boundary(a: Complex, b: Complex, outline: Outline, other: Outline) -> NDArray[np.float64]:
    """For each position, the part of the longer boundary along which the two run on each other, the same way round."""
    p, q = (a[:, None] * ends + b[:, None] for ends in _ends(outline))
    goal_p, goal_q = _ends(other)
    goal_length = np.abs(goal_q - goal_p)
    unit = (goal_q - goal_p) / goal_length
    near = 2e-3 * other.larger_extent
    # Each side as seen from each goal side: along it, and away from it.
    seen_p = (p[:, :, None] - goal_p) * unit.conj()
    seen_q = (q[:, :, None] - goal_p) * unit.conj()
    on_line = (np.abs(seen_p.imag) < near) & (np.abs(seen_q.imag) < near)
    common = np.minimum(seen_q.real, goal_length) - np.maximum(seen_p.real, 0.0)
    shared = np.where(on_line, np.maximum(common, 0.0), 0.0).sum(axis=(1, 2))
    lengths = np.maximum(np.abs(q - p).sum(axis=1), goal_length.sum())
    result: NDArray[np.float64] = shared / lengths
    return result


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

"""The edge of a region as a ring of straight sides: a line through the points of each, corners where lines meet."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..geometry.rigid_motion import Ring
from ..geometry.rings import signed_area
from .vision import Pixels, opencv

__all__ = ["Straight", "straight_sides"]

_STRAY = 0.16  # units: how far an edge may stray from a side before a corner is put between
_SHORT = 0.4  # units: what is shorter than that is a rounded corner
_ALONG_DEG = 9.0  # two sides that turn by less are one
_ROUNDED = 0.6  # units: a side shorter than that, near the corner that it cuts off, rounds it
_OF_A_SIDE = 0.12  # of a side's points left out at either end, where corners are rounded
MOST_SIDES = 60


@dataclass(frozen=True, slots=True)
class Straight:
    """A ring, and how well its sides fit what they were made of."""

    ring: Ring
    strayed: float  # units: the root of the mean square off the sides
    farthest: float  # units: the most


def straight_sides(points: Pixels, *, outwards: float) -> Straight | None:
    """A ring through an edge; None where no ring of at most 60 sides comes of it.

    points   : n x 2 in units, y up, along the edge
    outwards : how far outside the edge the sides lie, for the edge of a line is not its middle
    """
    cv2 = opencv()
    if signed_area(tuple(map(tuple, points))) < 0:
        points = points[::-1]
    scaled = (points * 1000.0).astype(np.float32).reshape(-1, 1, 2)
    rough = cv2.approxPolyDP(scaled, _STRAY * 1000.0, True).reshape(-1, 2) / 1000.0
    if not 3 <= len(rough) <= 4 * MOST_SIDES:
        return None
    at = [int(np.argmin(((points - corner) ** 2).sum(axis=1))) for corner in rough]
    at = sorted(set(at))
    sides = [side for side in _runs(points, at) if math.dist(side[0], side[-1]) >= _SHORT]
    lines = [line for side in sides if (line := _line(side, outwards)) is not None]
    lines = _without_rounding(_merged(lines))
    if not 3 <= len(lines) <= MOST_SIDES:
        return None
    ring = list[tuple[float, float]]()
    for one, other in zip([lines[-1], *lines[:-1]], lines, strict=True):
        place = _crossing(one, other)
        if place is None:
            return None
        ring.append(place)
    off = np.min(np.abs(np.stack([points @ (a, b) - (c - outwards) for a, b, c, _ in lines])), axis=0)
    return Straight(tuple(ring), float(np.sqrt((off**2).mean())), float(np.quantile(off, 0.995)))


def _runs(points: Pixels, at: list[int]) -> list[Pixels]:
    """The points from each corner to the next."""
    around = [*at[1:], at[0] + len(points)]
    return [points[np.arange(start, end + 1) % len(points)] for start, end in zip(at, around, strict=True)]


Line = tuple[float, float, float, Pixels]  # a x + b y = c, (a, b) pointing outwards; the points


def _line(points: Pixels, outwards: float) -> Line | None:
    cut = int(len(points) * _OF_A_SIDE)
    inner = points[cut : len(points) - cut]
    if len(inner) < 2:
        return None
    middle = inner.mean(axis=0)
    _, _, axes = np.linalg.svd(inner - middle, full_matrices=False)
    dx, dy = axes[0]
    if dx * (points[-1][0] - points[0][0]) + dy * (points[-1][1] - points[0][1]) < 0:
        dx, dy = -dx, -dy
    a, b = float(dy), float(-dx)  # to the right of a ring that runs anticlockwise: outwards
    return a, b, float(a * middle[0] + b * middle[1]) + outwards, points


def _merged(lines: list[Line]) -> list[Line]:
    """Two sides in a row that run on almost straight are one."""
    left = list(lines)
    again = True
    while again and len(left) > 3:
        again = False
        for index, one in enumerate(left):
            other = left[(index + 1) % len(left)]
            turn = math.degrees(
                math.atan2(one[0] * other[1] - one[1] * other[0], one[0] * other[0] + one[1] * other[1])
            )
            if abs(turn) >= _ALONG_DEG:
                continue
            longer, shorter = sorted((one, other), key=lambda line: -len(line[3]))
            off = np.abs(shorter[3] @ (longer[0], longer[1]) - longer[2]).mean()
            if off < 3 * _STRAY:
                keep = (longer[0], longer[1], longer[2], np.concatenate([one[3], other[3]]))
                left[index] = keep
                del left[(index + 1) % len(left)]
                again = True
                break
    return left


def _without_rounding(lines: list[Line]) -> list[Line]:
    """Without short sides that only cut off the corner in which their neighbours meet."""
    left = list(lines)
    index = 0
    while index < len(left) and len(left) > 3:
        before, own, after = left[index - 1], left[index], left[(index + 1) % len(left)]
        start, end = own[3][0], own[3][-1]
        if math.dist(start, end) < _ROUNDED:
            corner = _crossing(before, after)
            if corner is not None and max(math.dist(corner, start), math.dist(corner, end)) < _ROUNDED:
                del left[index]
                continue
        index += 1
    return left


def _crossing(one: Line, other: Line) -> tuple[float, float] | None:
    (a, b, c, _), (d, e, f, _) = one, other
    slope = a * e - b * d
    return (float((c * e - b * f) / slope), float((a * f - c * d) / slope)) if abs(slope) > 0.05 else None

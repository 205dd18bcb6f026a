"""The squares of the paper: two families of lines, numbered, and the perspective that makes squares of what they bound.

Seen at a slant the lines of a family meet far away, and where they cross a straight line they stand as 1, 2, 3 ... do
under a projective map of that line. The lines are numbered by that, then all crossings fix the map of the whole sheet.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from .vision import Pixels, opencv

__all__ = ["Squares", "squares_of"]

LEAST_LINES = 5  # of either family
_SEGMENT = 0.06  # of the picture's longer side
_SAME_LINE = 2.5  # pixels
_APART_DEG = 35.0  # least angle between the families
_SPREAD_DEG = 22.0  # within a family, for perspective
_OFF = 0.12  # squares: a crossing that misses its place by more does not count
_MOST_SEGMENTS = 6_000

Line = tuple[float, float, float]  # a x + b y = c, a and b of length 1


@dataclass(frozen=True, slots=True)
class Squares:
    """The squares found on a sheet."""

    to_sheet: Pixels  # 3 x 3: pixels to squares, y up
    one: float  # the side of a square about the middle of the sheet, pixels
    lines: tuple[int, int]  # how many were used, upright ones and level ones
    fit: float  # of the crossings the share that lie in their place
    turned_deg: float  # how far the level lines are from level


def squares_of(paper_lines: Pixels) -> Squares | None:
    """The squares of a sheet; None where no plain ones are seen."""
    segments = _segments(paper_lines)
    families = _families(segments)
    if families is None:
        return None
    (upright, upright_deg), (level, level_deg) = families
    middle = np.concatenate([upright, level]).reshape(-1, 2).mean(axis=0)
    columns = _numbered(_lines(upright, paper_lines), middle, level_deg)
    rows = _numbered(_lines(level, paper_lines), middle, upright_deg)
    if min(len(columns), len(rows)) < LEAST_LINES:
        return None
    crossings = [
        (place, (float(x), float(y)))
        for x, column in columns
        for y, row in rows
        if (place := _crossing(column, row)) is not None
    ]
    from_, to = (np.array(points, dtype=np.float64) for points in zip(*crossings, strict=True))
    cv2 = opencv()
    to_sheet, inside = cv2.findHomography(from_, to, cv2.RANSAC, _OFF)
    if to_sheet is None:
        return None
    fit = float(inside.mean())
    if fit < 0.6:
        return None
    back = np.linalg.inv(to_sheet)
    at = cv2.perspectiveTransform(middle.reshape(1, 1, 2), to_sheet)[0, 0]
    ends = cv2.perspectiveTransform(at + np.array([[(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)]]), back)[0]
    one = math.sqrt(abs(np.linalg.det(np.array([ends[1] - ends[0], ends[2] - ends[0]]))))
    return Squares(to_sheet, one, (len(columns), len(rows)), fit, (level_deg + 90) % 180 - 90)


def _segments(mask: Pixels) -> Pixels:
    """n x 4: pieces of straight lines."""
    cv2 = opencv()
    least = round(_SEGMENT * max(mask.shape))
    found = cv2.HoughLinesP(mask, 1, math.pi / 720, least, minLineLength=least, maxLineGap=8)
    if found is None:
        return np.zeros((0, 4))
    found = found.reshape(-1, 4).astype(np.float64)
    lengths = np.hypot(found[:, 2] - found[:, 0], found[:, 3] - found[:, 1])
    return found[np.argsort(-lengths)][:_MOST_SEGMENTS]


def _families(segments: Pixels) -> tuple[tuple[Pixels, float], tuple[Pixels, float]] | None:
    """The segments of the upright family and of the level one, each with its main direction in degrees, y down."""
    if len(segments) < 2 * LEAST_LINES:
        return None
    dx, dy = segments[:, 2] - segments[:, 0], segments[:, 3] - segments[:, 1]
    angles, lengths = np.degrees(np.arctan2(dy, dx)) % 180, np.hypot(dx, dy)
    counts, _ = np.histogram(angles, bins=180, range=(0, 180), weights=lengths)
    spread = np.exp(-0.5 * (np.minimum(np.arange(180), 180 - np.arange(180)) / 4.0) ** 2)
    smooth = np.real(np.fft.ifft(np.fft.fft(counts) * np.fft.fft(spread)))
    first = int(np.argmax(smooth))
    clear = _turn(np.arange(180) - first) > _APART_DEG
    second = int(np.argmax(np.where(clear, smooth, -1.0)))
    if smooth[second] < 0.1 * smooth[first]:
        return None
    taken = list[tuple[Pixels, float]]()
    for own, other in ((first, second), (second, first)):
        near = (_turn(angles - own) < _SPREAD_DEG) & (_turn(angles - own) < _turn(angles - other))
        if not near.any():
            return None
        mean = own + np.average((angles[near] - own + 90) % 180 - 90, weights=lengths[near])
        taken.append((segments[near], float(mean % 180)))
    level_first = _turn(taken[0][1]) <= _turn(taken[1][1])
    return (taken[1], taken[0]) if level_first else (taken[0], taken[1])


def _turn(degrees: Pixels) -> Pixels:
    """How far a direction is from another, at most 90."""
    return np.abs((np.asarray(degrees) + 90) % 180 - 90)


def _lines(segments: Pixels, mask: Pixels) -> list[Line]:
    """One line for all segments that lie along it, laid through the middle of what is drawn there."""
    left, found = segments, list[Line]()
    while len(left) and len(found) < 400:
        line = _through(left[0].reshape(2, 2))
        for _ in range(3):
            a, b, c = line
            off = np.abs(left.reshape(-1, 2) @ (a, b) - c).reshape(-1, 2).max(axis=1)
            along = left[off < _SAME_LINE]
            if len(along):
                line = _through(along.reshape(-1, 2))
        a, b, c = line
        off = np.abs(left.reshape(-1, 2) @ (a, b) - c).reshape(-1, 2).max(axis=1)
        off[0] = 0.0
        found.append(line)
        left = left[off >= 2 * _SAME_LINE]
    return found


def _through(points: Pixels) -> Line:
    """The line that lies nearest to some points."""
    middle = points.mean(axis=0)
    _, _, axes = np.linalg.svd(points - middle, full_matrices=False)
    a, b = -axes[0][1], axes[0][0]
    return float(a), float(b), float(a * middle[0] + b * middle[1])


def _numbered(lines: list[Line], middle: Pixels, across_deg: float) -> list[tuple[int, Line]]:
    """Each line that fits, with its number along a line across them all; numbers grow to the right, or upwards."""
    dx, dy = math.cos(math.radians(across_deg)), math.sin(math.radians(across_deg))
    if abs(dx) >= abs(dy):
        dx, dy = (dx, dy) if dx > 0 else (-dx, -dy)
    else:
        dx, dy = (dx, dy) if dy < 0 else (-dx, -dy)
    places = list[tuple[float, Line]]()
    for a, b, c in lines:
        slope = a * dx + b * dy
        if abs(slope) > 0.3:
            places.append(((c - a * middle[0] - b * middle[1]) / slope, (a, b, c)))
    places.sort()
    at = np.array([place for place, _ in places])
    if len(at) < LEAST_LINES:
        return []
    numbers = _numbers(at)
    if numbers is None:
        return []
    best = dict[int, tuple[float, Line]]()
    for number, (_, line) in zip(numbers, places, strict=True):
        whole = round(float(number))
        miss = abs(float(number) - whole)
        if miss < 0.2 and (whole not in best or miss < best[whole][0]):
            best[whole] = (miss, line)
    return [(number, line) for number, (_, line) in sorted(best.items())]


def _numbers(at: Pixels) -> Pixels | None:
    """The number of each place, as a fraction, by the projective map that most of them fit."""
    gaps = np.diff(at)
    wide = gaps[gaps > 3 * _SAME_LINE]
    if not len(wide):
        return None
    usual = float(np.median(wide))
    best, score = None, 0
    for start in np.argsort(np.abs(gaps - usual))[:8]:
        counted = _counted(at, int(start), float(gaps[start]))
        known = [(place, number) for place, number in zip(at, counted, strict=True) if number is not None]
        fitted = _fitted(known)
        if fitted is None:
            continue
        numbers = fitted(at)
        good = int((np.abs(numbers - np.round(numbers)) < 0.15).sum())
        if good > score:
            best, score = numbers, good
    return best if score >= max(LEAST_LINES, 0.5 * len(at)) else None


def _counted(at: Pixels, start: int, gap: float) -> list[int | None]:
    """Numbers counted from one gap outwards, the gap going with what is seen; None for what falls between."""
    numbers: list[int | None] = [None] * len(at)
    numbers[start], numbers[start + 1] = 0, 1
    for step, first, begin in ((1, start + 1, start + 2), (-1, start, start - 1)):
        last, number, usual = float(at[first]), numbers[first] or 0, gap
        index = begin
        while 0 <= index < len(at):
            off = abs(float(at[index]) - last)
            count = round(off / usual)
            if 1 <= count <= 4 and abs(off / count - usual) < 0.2 * usual:
                number += step * count
                numbers[index] = number
                usual = 0.5 * usual + 0.5 * off / count
                last = float(at[index])
            index += step
    return numbers


def _fitted(known: list[tuple[float, int]]) -> Callable[[Pixels], Pixels] | None:
    """number = (p at + q) / (1 + r at), fitted to what is counted; None where that is too little."""
    for _ in range(3):
        if len(known) < LEAST_LINES:
            return None
        at, number = (np.array(column, dtype=np.float64) for column in zip(*known, strict=True))
        size = max(float(np.abs(at).max()), 1.0)
        rows = np.stack([at / size, np.ones_like(at), -number * at / size], axis=1)
        (p, q, r), *_ = np.linalg.lstsq(rows, number, rcond=None)

        def fitted(places: Pixels, p: float = p / size, q: float = q, r: float = r / size) -> Pixels:
            below = 1.0 + r * places
            return (p * places + q) / np.where(np.abs(below) < 1e-6, 1e-6, below)

        off = np.abs(fitted(at) - number)
        if off.max() < 0.15:
            return fitted
        known = [pair for pair, miss in zip(known, off, strict=True) if miss < max(0.15, 0.7 * off.max())]
    return fitted


def _crossing(one: Line, other: Line) -> tuple[float, float] | None:
    (a, b, c), (d, e, f) = one, other
    slope = a * e - b * d
    return ((c * e - b * f) / slope, (a * f - c * d) / slope) if abs(slope) > 0.2 else None

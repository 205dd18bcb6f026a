"""Whether two outlines are the same by turning, only mirror images, or different; with the motions that show it.

An outline is the same as another when a turn, a shift and one uniform scaling lay it on the other, corner for corner,
to within a tolerance. Needless corners are dropped first; holes are matched too. The answer carries a certificate:
every motion that does it, since an outline with rotational symmetry has several.

Corners are handled as complex numbers: a similarity is then w = a z + b, and the best one in the least-squares sense
for given pairs of corners is a quotient of two sums.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from .angles import wrapped_deg
from .outline import Outline
from .rigid_motion import Ring, Similarity

__all__ = ["Congruence", "Match", "congruence", "is_chiral", "motions_onto", "rotational_symmetry_order"]

Complex = NDArray[np.complex128]

MANY = 40  # corners: with more than that, most pairings are ruled out by a few of them
ODD_CORNERS = 12  # that are looked at first


class Match(StrEnum):
    """How two outlines are related."""

    BY_TURNING = "by-turning"
    MIRROR_ONLY = "mirror-only"
    DIFFERENT = "different"


@dataclass(frozen=True, slots=True, kw_only=True)
class Congruence:
    """The relation, with its certificate."""

    kind: Match
    motions: tuple[Similarity, ...]  # lay the first outline (MIRROR_ONLY: its `mirrored()`) on the second


def congruence(outline: Outline, other: Outline, tolerance: float) -> Congruence:
    """How ``outline`` is related to ``other``.

    tolerance : in the units of ``other``; corners nearer than this are one
    """
    direct = motions_onto(outline, other, tolerance)
    if direct:
        return Congruence(kind=Match.BY_TURNING, motions=direct)
    flipped = motions_onto(outline.mirrored(), other, tolerance)
    return Congruence(kind=Match.MIRROR_ONLY if flipped else Match.DIFFERENT, motions=flipped)


def motions_onto(outline: Outline, other: Outline, tolerance: float) -> tuple[Similarity, ...]:
    """Every similarity that lays ``outline`` on ``other`` corner for corner, by size of turn; none: they differ."""
    if len(outline.holes) != len(other.holes):
        return ()
    scale = math.sqrt(other.area / outline.area)
    first, second = outline.simplified(tolerance / scale), other.simplified(tolerance)
    if sorted(map(len, first.holes)) != sorted(map(len, second.holes)):
        return ()
    z, w = _complex(first.exterior), _complex(second.exterior)
    if len(z) != len(w):
        return ()
    holes = [_complex(hole) for hole in first.holes]
    goals = [_complex(hole) for hole in second.holes]
    motions = []
    for a, b in _pairings(z, w, tolerance):
        if _holes_match([a * hole + b for hole in holes], goals, tolerance):
            turn_deg = wrapped_deg(math.degrees(math.atan2(a.imag, a.real)))
            motions.append(Similarity(turn_deg=turn_deg, shift=(float(b.real), float(b.imag)), scale=float(abs(a))))
    return tuple(sorted(motions, key=lambda m: (round(abs(m.turn_deg), 6), -m.turn_deg)))


def _complex(ring: Ring) -> Complex:
    points = np.asarray(ring, dtype=float)
    return points[:, 0] + 1j * points[:, 1]


def _pairings(z: Complex, w: Complex, tolerance: float) -> list[tuple[complex, complex]]:
    """(a, b) for every cyclic pairing of corners under which a z + b is w to within the tolerance."""
    n = len(z)
    dz = z - z.mean()
    dw = w - w.mean()
    if not _radii_match(np.abs(dz), np.abs(dw), tolerance):
        return []
    shifts = _shifts_possible(dz, dw, tolerance) if n > MANY else np.arange(n)
    paired = dw[(shifts[:, None] + np.arange(n)) % n]  # a row for each shift k: z[i] is paired with w[i + k]
    a = paired @ dz.conj() / float((dz.conj() @ dz).real)
    residual = np.abs(a[:, None] * dz - paired).max(axis=1)
    return [(complex(a[row]), complex(w.mean() - a[row] * z.mean())) for row in np.flatnonzero(residual <= tolerance)]


def _shifts_possible(dz: Complex, dw: Complex, tolerance: float) -> NDArray[np.intp]:
    """The cyclic pairings that may be good, going by a few corners alone: those whose distances are the oddest.

    dz, dw : corners about their middles. The best similarity of every pairing comes of one cyclic correlation.
    """
    n = len(dz)
    a = np.fft.ifft(np.fft.fft(dz).conj() * np.fft.fft(dw)) / float((dz.conj() @ dz).real)
    radii = np.abs(dz)
    odd = np.argsort(-np.abs(radii - np.median(radii)), kind="stable")[:ODD_CORNERS]
    paired = dw[(np.arange(n)[:, None] + odd) % n]
    slack = 1e-9 * float(np.abs(dw).max())  # what rounding may take away
    return np.flatnonzero(np.abs(a[:, None] * dz[odd] - paired).max(axis=1) <= tolerance + slack)


def _radii_match(radii: NDArray[np.float64], goals: NDArray[np.float64], tolerance: float) -> bool:
    """Whether corners could lie on corners, going by how far they are from their middle alone; quick, never too strict.

    Where corners lie on corners to within the tolerance, so do the sorted radii to within twice that, at the scale of
    the pairing; the scale taken here, from the sums of squares, is off by at most what the second bound allows.
    """
    size, goal_size = float(np.linalg.norm(radii)), float(np.linalg.norm(goals))
    off = np.abs(np.sort(radii) * (goal_size / size) - np.sort(goals)).max()
    return bool(off <= (2.0 + 2.0 * goals.max() * math.sqrt(len(goals)) / goal_size) * tolerance)


def _holes_match(moved: list[Complex], goals: list[Complex], tolerance: float) -> bool:
    """Whether each moved hole lies on a goal of its own, corner for corner."""
    left = list(range(len(goals)))
    for hole in moved:
        found = next((j for j in left if _same_ring(hole, goals[j], tolerance)), None)
        if found is None:
            return False
        left.remove(found)
    return True


def _same_ring(ring: Complex, goal: Complex, tolerance: float) -> bool:
    n = len(ring)
    # Where corners lie on corners to within the tolerance, so do their middles.
    if n != len(goal) or abs(ring.mean() - goal.mean()) > tolerance * (1.0 + 1e-9):
        return False
    paired = goal[(np.arange(n)[:, None] + np.arange(n)) % n]  # a row for each shift
    return bool((np.abs(ring - paired).max(axis=1) <= tolerance).any())


def rotational_symmetry_order(outline: Outline, tolerance: float) -> int:
    """In how many turned positions the outline looks the same: 1 for most, 4 for a square."""
    return len(motions_onto(outline, outline, tolerance))


def is_chiral(outline: Outline, tolerance: float) -> bool:
    """Whether the outline turned over cannot be turned to lie on it."""
    return congruence(outline.mirrored(), outline, tolerance).kind is Match.MIRROR_ONLY

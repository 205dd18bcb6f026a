"""Laying one outline on another as well as turning, shifting and one scaling allow.

As well as can be: with the least area where only one of them has material, and their boundaries running on each other,
for that is the position that the eye finds; a position counts for less area the more of the boundary it shares.
Outlines that differ by a slip share most of their sides, so the search lays side on side: every long side of the one
along every long side of the other with an end in common, or the centres of gravity together, at the few scales that
make sense. Positions are weighed by their exact areas, save those that a bound rules out: the farther apart the centres
of gravity, the larger the area that only one of the two has. Where nothing lines up, the best positions are moved about
a little. No chance is involved: the same outlines give the same fit.

Corners are handled as complex numbers here: a similarity is w = a z + b.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass, fields

import numpy as np

from .angles import wrapped_deg
from .outline import Outline
from .position_measures import Complex, Floats, Sides, Strips, areas_in_common, shared_boundaries, with_corners_nearest
from .rigid_motion import Similarity

__all__ = ["BestFit", "best_fit"]

SIDES = 20  # long sides that are laid along others: what has more corners than that has enough to line up by
FIRST = 20  # positions that are weighed before others are ruled out, then four times as many, and so on
AT_ONCE = 400_000  # pairs of sides: where the positions left have more than that together, the likeliest are weighed
TRUE_SCALE_IS_WORTH = 0.8  # a changed scale must bring the difference below this part of what the own scale leaves
# A position in which the boundaries run on each other is the one that the eye finds, so it may differ by more.
NEAT_IS_WORTH = 0.75
RUNS_ON = 2e-3  # of the extent: how far apart boundaries may be that run on each other
LINED_UP = 0.6  # part of the boundary that is shared: no other scale need be tried
ASTRAY = 0.2  # part of the boundary that is shared: what has less may as well be moved about
MOVED_ABOUT_ABOVE = 0.15  # of the area: what differs by less lies well enough
MOVED_ABOUT = 3  # positions, from the least difference on, from which that is tried
IS_WORTH_IT = 0.75  # part of the difference that moving about must leave at most


@dataclass(frozen=True, slots=True, kw_only=True)
class BestFit:
    """The motion, and the area where only one of the two has material after it."""

    motion: Similarity
    difference: float  # in the units of the outline that it is laid on, squared


@dataclass(frozen=True, slots=True, kw_only=True)
class _Weighed:
    """Positions, and what speaks for them."""

    a: Complex
    b: Complex
    difference: Floats
    share: Floats  # of the longer boundary
    weight: Floats  # the least is the best

    @classmethod
    def all_of(cls, parts: list[_Weighed]) -> _Weighed:
        """All together."""
        if len(parts) == 1:
            return parts[0]
        return cls(
            **{field.name: np.concatenate([getattr(part, field.name) for part in parts]) for field in fields(cls)}
        )


def best_fit(
    outline: Outline, other: Outline, *, scales: tuple[float, ...] = (1.0,), shown_turn_deg: float = 0.0
) -> BestFit:
    """Lay ``outline`` on ``other``.

    scales         : scales to be preferred where they come near an equal area, best first
    shown_turn_deg : how the outline is shown: of equally good turns, the one nearest to it is taken
    """
    search = _Search(outline, other)
    equal_area = math.sqrt(other.area / outline.area)
    own = tuple(dict.fromkeys(scale for scale in scales if 0.7 < scale / equal_area < 1.0 / 0.7))
    parts = [search.weighed(search.side_on_side(own), TRUE_SCALE_IS_WORTH)] if own else []
    if not own or parts[0].share[parts[0].weight.argmin()] < LINED_UP:
        parts.append(search.weighed(search.both_ends_meeting(equal_area), 1.0))
    found = _Weighed.all_of(parts)
    grain = 1e-6 * other.area
    rounded = (found.weight / grain).round()
    best = min(
        (rounded == rounded.min()).nonzero()[0].tolist(),
        key=lambda i: _preference(complex(found.a[i]), complex(found.b[i]), shown_turn_deg),
    )
    a, b, difference = complex(found.a[best]), complex(found.b[best]), float(found.difference[best])
    if found.share[best] < ASTRAY and difference > MOVED_ABOUT_ABOVE * other.area:
        nearest = np.argsort((found.difference / grain).round(), kind="stable")[: MOVED_ABOUT - 1]
        moved = search.moved_about(found.a[[best, *nearest]], found.b[[best, *nearest]])
        a, b, difference = moved if moved[2] < IS_WORTH_IT * difference else (a, b, difference)
    turn_deg = wrapped_deg(math.degrees(cmath.phase(a)))
    motion = Similarity(turn_deg=turn_deg, shift=(b.real, b.imag), scale=_clean(abs(a)))
    return BestFit(motion=motion, difference=max(0.0, difference))


def _clean(scale: float) -> float:
    return 1.0 if abs(scale - 1.0) < 1e-12 else scale


def _preference(a: complex, b: complex, shown_turn_deg: float) -> tuple[float, ...]:
    """Of equally good positions the one with the least is taken: the shortest turn, anticlockwise rather than back."""
    turn_deg = wrapped_deg(math.degrees(cmath.phase(a)) - shown_turn_deg)
    return round(abs(turn_deg), 6), -round(turn_deg, 6), round(b.real, 6), round(b.imag, 6)


class _Search:
    """The positions of one outline on another, and how good they are."""

    def __init__(self, outline: Outline, other: Outline) -> None:
        self.sides, self.goal = Sides.of(outline), Sides.of(other)
        self.area, self.centre, self.spread = self.sides.moments()
        self.goal_area, self.goal_centre, self.goal_spread = self.goal.moments()
        self.extent, self.below = other.larger_extent, Strips.below(self.goal)
        self.radius = float(np.abs(self.sides.start - self.centre).max())
        self.goal_radius = float(np.abs(self.goal.start - self.goal_centre).max())
        # Rows for long sides of the one, columns for the other's.
        ours, theirs = self.sides.longest(SIDES), self.goal.longest(SIDES)
        self.p, self.q, self.goal_p, self.goal_q = ours.start[:, None], ours.end[:, None], theirs.start, theirs.end
        self.ratio = (self.goal_q - self.goal_p) / (self.q - self.p)

    def side_on_side(self, scales: tuple[float, ...]) -> Complex:
        """(2, k): a and b of every position at these scales with a side along a side and an end, or centres, in common.

        Those on which most pairs of sides agree come first.
        """
        turn = self.ratio / np.abs(self.ratio)
        return np.concatenate([self._at(scale * turn) for scale in scales], axis=1)

    def both_ends_meeting(self, equal_area: float) -> Complex:
        """(2, k): ``side_on_side`` at equal area, then every position in which both ends of a side meet."""
        near = np.abs(np.abs(self.ratio) / equal_area - 1.0) < 0.3
        both = np.stack([self.ratio[near], (self.goal_p - self.ratio * self.p)[near]])
        return np.concatenate([both, self.side_on_side((equal_area,))], axis=1)

    def _at(self, a: Complex) -> Complex:
        shifts = (self.goal_p - a * self.p, self.goal_q - a * self.q, self.goal_centre - a * self.centre)
        return np.stack([np.concatenate([a.ravel()] * 3), np.concatenate([shift.ravel() for shift in shifts])])

    def weighed(self, positions: Complex, worth: float) -> _Weighed:
        """The positions that may be the best, each once.

        worth : by how much an area counts for less with all of them
        """
        a, b = self._each_once(positions)
        bound = self._least_differences(a, b)
        rest = self._sifted(a, b, bound.argsort(kind="stable"))
        found: list[_Weighed] = []
        count, most = FIRST, math.inf
        while len(rest):
            now, rest = rest[:count], rest[count:]
            difference = self.differences(a[now], b[now])
            # Not even sharing all of its boundary makes a position as good as one that differs by so much less.
            near = difference <= min(most, self._most(difference.min() * worth, worth))
            if near.any():
                found.append(self._weighed(a[now[near]], b[now[near]], difference[near], worth))
                most = min(most, self._most(found[-1].weight.min(), worth))
            rest = rest[bound[rest] <= most]
            count *= 4
        return _Weighed.all_of(found)

    def _most(self, weight: float, worth: float) -> float:
        """By how much a position may differ that could still be as good as one of this weight."""
        return weight / (worth * (1.0 - NEAT_IS_WORTH)) + 1e-6 * self.goal_area

    def _weighed(self, a: Complex, b: Complex, difference: Floats, worth: float) -> _Weighed:
        share = shared_boundaries(a, b, self.sides, self.goal, RUNS_ON * self.extent)
        weight = difference * worth * (1.0 - NEAT_IS_WORTH * share)
        return _Weighed(a=a, b=b, difference=difference, share=share, weight=weight)

    def _each_once(self, positions: Complex) -> tuple[Complex, Complex]:
        """The positions without repeats, in the order of their first appearance."""
        a, b = positions
        grain = 1e-6 * self.extent
        rounded = np.stack([a.real / 1e-6, a.imag / 1e-6, b.real / grain, b.imag / grain]).round().astype(np.int64)
        codes = np.array([1_000_003, 998_244_353, 7_919, 15_485_863], dtype=np.int64) @ rounded
        _, first = np.unique(codes, return_index=True)
        first.sort()
        return a[first], b[first]

    def _least_differences(self, a: Complex, b: Complex) -> Floats:
        """What the difference of each position is at least.

        The moments about the goal's centre of what only one of the two has are, together, those of the one less those
        of the other; and none of it is farther away than the farthest corner of either.
        """
        scale = np.abs(a)
        away = a * self.centre + b - self.goal_centre
        area = scale**2 * self.area
        farthest = np.maximum(np.abs(away) + scale * self.radius, self.goal_radius)
        second = area * ((a**2) * self.spread + away**2) - self.goal_area * self.goal_spread
        first = np.maximum(area * np.abs(away) / farthest, np.abs(second) / farthest**2)
        found: Floats = np.maximum(first, np.abs(area - self.goal_area))
        return found

    def _sifted(self, a: Complex, b: Complex, rest: np.ndarray) -> np.ndarray:
        """So many as can be weighed: those in which corners come near each other."""
        room = max(FIRST, AT_ONCE // (len(self.sides.start) * len(self.goal.start)))
        if len(rest) <= room:
            return rest
        chosen = with_corners_nearest(a[rest], b[rest], self.sides, self.goal, 0.2 * self.extent, room)
        return rest[chosen]

    def differences(self, a: Complex, b: Complex) -> Floats:
        """Area where only one of the two has material, for each position."""
        common = areas_in_common(a, b, self.sides, self.below)
        found: Floats = np.abs(a) ** 2 * self.area + self.goal_area - 2.0 * common
        return found

    def moved_about(self, a: Complex, b: Complex) -> tuple[complex, complex, float]:
        """(a, b, difference) of the best position that small turns and shifts lead to from any of these."""
        at, by, best = a * self.centre + b, a, self.differences(a, b)
        step = np.full(len(a), 0.08 * self.extent)
        turn = np.full(len(a), math.radians(8.0))
        every = np.arange(len(a))
        for _ in range(9):
            none = np.zeros(len(a))
            shifts = np.stack([step, -step, 1j * step, -1j * step, none, none])
            turns = np.stack([none, none, none, none, turn, -turn])
            tried_by, tried_at = by * np.exp(1j * turns), at + shifts
            tried = self.differences(tried_by.ravel(), (tried_at - tried_by * self.centre).ravel())
            way = (tried := tried.reshape(6, -1)).argmin(axis=0)
            better = tried[way, every] < best * 0.999
            best = np.where(better, tried[way, every], best)
            at = np.where(better, tried_at[way, every], at)
            by = np.where(better, tried_by[way, every], by)
            step, turn = np.where(better, step, step / 2), np.where(better, turn, turn / 2)
        end = int(best.argmin())
        return complex(by[end]), complex(at[end] - by[end] * self.centre), float(best[end])

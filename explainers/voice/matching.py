"""One recording of a whole lesson, split into the parts of its steps by how long each should last.

The recording is a row of stretches of speech with silences between. Each step has phrases of known expected length; how
fast it is spoken is not known, and differs from step to step. A step takes some stretches in a row: the likelier, the
nearer their length comes to the expected one at an ordinary speed, and the better its phrases lie on them, all at *one*
speed: a silence is due between sentences, may be at a comma, and is odd anywhere else. A stretch may belong to no step
(a cough, a take that was begun again) and a step may have none (it was forgotten); both have a price. The cheapest
division is found by dynamic programming, from both ends, so that for each border between two steps the price of the
next best place is known as well. A step is doubtful where it could nearly as well lie elsewhere, or lies so badly that
other words may have been said.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .speech import Stretch

__all__ = ["Match", "Spoken", "Took", "match"]

_SPEED_SPREAD = 0.22  # of the logarithm of a step's speed: 30 % either way is ordinary
_PHRASE_SPREAD = 0.12  # of a phrase within its step ...
_PHRASE_SPREAD_S = 0.08  # ... and so many seconds, which matter in short ones
_LEAST_SPEED, _MOST_SPEED = 0.55, 1.85  # what cannot be one step spoken faster or slower
_MOST_STRETCHES = 28  # of one step
_MOST_RUN_ON = 4  # phrases on one stretch
_MOST_SPLIT = 3  # stretches of one phrase
# Natural logarithms of how seldom it is.
_PRICE_RUN_ON = 4.0  # two sentences without a silence between
_PRICE_COMMA = 0.7  # a comma with a silence, or without one: either is as likely
_PRICE_SPLIT = 3.0  # a silence inside a phrase
_PRICE_MISSING = 7.0
_PRICE_LEFT_OUT = 5.0  # a stretch that is nobody's ...
_PRICE_LEFT_OUT_S = 0.35  # ... and for each second of it
_DOUBTFUL_MARGIN = 3.5  # the next best place is less than 33 times less likely
_DOUBTFUL_STRAIN = 2.0  # price for each phrase, of what lies so badly that something else may have been said
_ROUNDS = 3  # the speed of the whole is estimated from the division, and the other way round


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoken:
    """What should be heard for one step."""

    step_id: str
    phrases: tuple[tuple[float, bool], ...]  # (expected length, above 0; whether a sentence ends with it), in order

    @property
    def seconds(self) -> float:
        """Expected length of its speech, silences left out."""
        return math.fsum(seconds for seconds, _ in self.phrases)


@dataclass(frozen=True, slots=True, kw_only=True)
class Took:
    """The part of the recording that belongs to a step."""

    step_id: str
    part: Stretch | None  # None: it is missing
    confidence: float  # 0 to 1, of both its ends
    doubtful: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """A recording, divided."""

    steps: tuple[Took, ...]  # one for each, in order
    left_out: tuple[Stretch, ...]  # speech that belongs to none
    speed: float  # of the whole: 1 is as expected, 2 twice as fast


def match(expected: Sequence[Spoken], stretches: Sequence[Stretch]) -> Match:
    """Divide the stretches of a recording among the steps.

    expected  : in the order in which they are spoken
    stretches : of speech, in order
    """
    speed = _first_speed(expected, stretches)
    table = _Table(expected, stretches, speed)
    for _ in range(_ROUNDS - 1):
        better = table.speed_of_path()
        if abs(math.log(better / speed)) < 0.02:
            break
        speed = better
        table = _Table(expected, stretches, speed)
    return table.divided()


def _first_speed(expected: Sequence[Spoken], stretches: Sequence[Stretch]) -> float:
    spoken_s = math.fsum(stretch.seconds for stretch in stretches)
    return math.fsum(step.seconds for step in expected) / spoken_s if spoken_s else 1.0


class _Table:
    """Prices of all divisions: `before[c][i]` of the first c steps on the first i stretches, `after` of the rest."""

    def __init__(self, expected: Sequence[Spoken], stretches: Sequence[Stretch], speed: float) -> None:
        self.expected, self.stretches, self.speed = expected, stretches, speed
        self._lengths = tuple(stretch.seconds for stretch in stretches)
        self._summed = (0.0, *itertools.accumulate(self._lengths))
        self._choices = [self._choices_of(spoken) for spoken in expected]
        self.before = self._forward()
        self.after = self._backward()

    def _choices_of(self, spoken: Spoken) -> list[list[tuple[int, float]]]:
        """For each stretch that a step may begin with: (first stretch that is no longer its own, price)."""
        count = len(self._lengths)
        if count == 0:
            return [[]]
        prices = _prices_of_runs(spoken.phrases, np.asarray(self._lengths), self.speed)
        found: list[list[tuple[int, float]]] = [[] for _ in range(count + 1)]
        for first, run in zip(*np.nonzero(np.isfinite(prices)), strict=True):
            found[first].append((int(first + run + 1), float(prices[first, run])))
        return found

    def _left_out(self, stretch: int) -> float:
        return _PRICE_LEFT_OUT + _PRICE_LEFT_OUT_S * self._lengths[stretch]

    def _forward(self) -> list[list[float]]:
        steps, count = len(self.expected), len(self.stretches)
        price = [[math.inf] * (count + 1) for _ in range(steps + 1)]
        price[0][0] = 0.0
        for c in range(steps + 1):
            for i in range(count + 1):
                here = price[c][i]
                if here == math.inf:
                    continue
                if i < count:
                    price[c][i + 1] = min(price[c][i + 1], here + self._left_out(i))
                if c < steps:
                    price[c + 1][i] = min(price[c + 1][i], here + _PRICE_MISSING)
                    for after, cost in self._choices[c][i]:
                        price[c + 1][after] = min(price[c + 1][after], here + cost)
        return price

    def _backward(self) -> list[list[float]]:
        steps, count = len(self.expected), len(self.stretches)
        price = [[math.inf] * (count + 1) for _ in range(steps + 1)]
        price[steps][count] = 0.0
        for c in range(steps, -1, -1):
            for i in range(count, -1, -1):
                best = price[c][i]
                if i < count:
                    best = min(best, self._left_out(i) + price[c][i + 1])
                if c < steps:
                    best = min(best, _PRICE_MISSING + price[c + 1][i])
                    for after, cost in self._choices[c][i]:
                        best = min(best, cost + price[c + 1][after])
                price[c][i] = best
        return price

    def path(self) -> tuple[list[tuple[int, int] | None], list[int]]:
        """(stretches of each step or None, those that are nobody's) in the cheapest division.

        Where a step was spoken twice, the later take is the one that was meant: leaving out comes first.
        """
        ranges: list[tuple[int, int] | None] = []
        nobodys: list[int] = []
        c = i = 0
        while c < len(self.expected) or i < len(self.stretches):
            here = self.after[c][i]
            if i < len(self.stretches) and _same(here, self._left_out(i) + self.after[c][i + 1]):
                nobodys.append(i)
                i += 1
                continue
            if c < len(self.expected):
                taken = [after for after, cost in self._choices[c][i] if _same(here, cost + self.after[c + 1][after])]
                ranges.append((i, taken[0]) if taken else None)
                i = taken[0] if taken else i
                c += 1
        return ranges, nobodys

    def speed_of_path(self) -> float:
        """The middle one of the speeds of the steps that were found."""
        ranges, _ = self.path()
        speeds = sorted(
            spoken.seconds / (self._summed[taken[1]] - self._summed[taken[0]])
            for spoken, taken in zip(self.expected, ranges, strict=True)
            if taken is not None
        )
        return speeds[len(speeds) // 2] if speeds else self.speed

    def divided(self) -> Match:
        ranges, nobodys = self.path()
        best = self.after[0][0]
        took = []
        for c, (spoken, taken) in enumerate(zip(self.expected, ranges, strict=True)):
            if taken is None:
                margin = self._margin_of_missing(c, best)
                part = None
                strained = False
            else:
                margin = self._margin(c, taken, best)
                price = dict(self._choices[c][taken[0]])[taken[1]]
                strained = price / (1 + len(spoken.phrases)) > _DOUBTFUL_STRAIN
                part = Stretch(start_s=self.stretches[taken[0]].start_s, end_s=self.stretches[taken[1] - 1].end_s)
            took.append(
                Took(
                    step_id=spoken.step_id,
                    part=part,
                    confidence=1.0 - math.exp(-max(0.0, margin)) if math.isfinite(margin) else 1.0,
                    doubtful=margin < _DOUBTFUL_MARGIN or strained,
                )
            )
        return Match(steps=tuple(took), left_out=tuple(self.stretches[i] for i in nobodys), speed=self.speed)

    def _margin(self, step: int, taken: tuple[int, int], best: float) -> float:
        """How much dearer the cheapest division is in which this step takes other stretches, or none."""
        others = [
            self.before[step][i] + cost + self.after[step + 1][after]
            for i in range(len(self.stretches))
            for after, cost in self._choices[step][i]
            if (i, after) != taken
        ]
        return min([*others, self._price_without(step)]) - best

    def _margin_of_missing(self, step: int, best: float) -> float:
        return (
            min(
                (
                    self.before[step][i] + cost + self.after[step + 1][after]
                    for i in range(len(self.stretches))
                    for after, cost in self._choices[step][i]
                ),
                default=math.inf,
            )
            - best
        )

    def _price_without(self, step: int) -> float:
        return min(
            self.before[step][i] + _PRICE_MISSING + self.after[step + 1][i] for i in range(len(self.stretches) + 1)
        )


def _prices_of_runs(
    phrases: Sequence[tuple[float, bool]], lengths_s: NDArray[np.float64], speed: float
) -> NDArray[np.float64]:
    """How badly a step lies on each run of stretches: its own speed, and its phrases at that one speed.

    Entry (i, n) is the run of n + 1 stretches from stretch i; inf where it cannot be. Along the way each group is one
    phrase on one or more stretches, or several phrases run together on one stretch.
    """
    count, longest = len(lengths_s), min(_MOST_STRETCHES, len(lengths_s))
    summed = np.concatenate([[0.0], np.cumsum(lengths_s)])
    starts = np.arange(count)[:, None]
    ends = np.minimum(starts + np.arange(1, longest + 1)[None, :], count)
    inside = starts + np.arange(1, longest + 1)[None, :] <= count
    total_s = math.fsum(seconds for seconds, _ in phrases)
    run_s = summed[ends] - summed[starts]
    own_speed = np.log(total_s / run_s / speed)
    possible = inside & (own_speed <= math.log(_MOST_SPEED)) & (own_speed >= math.log(_LEAST_SPEED))
    out = np.full((count, longest), math.inf)
    if not possible.any():
        return out
    longest = int(np.flatnonzero(possible.any(axis=0)).max()) + 1
    scale = np.log(run_s[:, :longest] / total_s)  # of heard seconds to expected ones, each run its own
    said = [0.0, *itertools.accumulate(seconds for seconds, _ in phrases)]
    joins = [0.0, *itertools.accumulate(_PRICE_RUN_ON if stop else _PRICE_COMMA for _, stop in phrases)]

    def heard(h: int, more: int) -> NDArray[np.float64]:
        """Logarithm of the length of `more` stretches after the first h of each run; a column, one row a start."""
        first = np.minimum(np.arange(count) + h, count)
        length = summed[np.minimum(first + more, count)] - summed[first]
        column: NDArray[np.float64] = np.log(np.maximum(length, 1e-9))[:, None]
        return column

    count_said = len(phrases)
    price: dict[tuple[int, int], NDArray[np.float64]] = {(0, 0): np.zeros((count, longest))}
    logs = {(h, more): heard(h, more) for h in range(longest) for more in range(1, _MOST_SPLIT + 1)}
    for h in range(longest):
        for s in range(count_said):
            here = price.get((s, h))
            if here is None:
                continue
            groups = [(more, 1) for more in range(1, _MOST_RUN_ON + 1)]
            groups += [(1, more) for more in range(2, _MOST_SPLIT + 1)]
            for phrases_more, stretches_more in groups:
                after = (s + phrases_more, h + stretches_more)
                if after[0] > count_said or after[1] > longest:
                    continue
                cost = joins[after[0] - 1] - joins[s] + (stretches_more - 1) * _PRICE_SPLIT
                if after[0] < count_said and not phrases[after[0] - 1][1]:
                    cost += _PRICE_COMMA
                off = logs[h, stretches_more] - math.log(said[after[0]] - said[s]) - scale
                spread = math.hypot(_PHRASE_SPREAD, _PHRASE_SPREAD_S / (said[after[0]] - said[s]))
                reached = here + cost + 0.5 * (off / spread) ** 2
                price[after] = np.minimum(price[after], reached) if after in price else reached
    for run in range(longest):
        last = price.get((count_said, run + 1))
        if last is not None:
            own = 0.5 * (own_speed[:, run] / _SPEED_SPREAD) ** 2
            out[:, run] = np.where(possible[:, run], own + last[:, run], math.inf)
    return out


def _same(one: float, other: float) -> bool:
    return math.isclose(one, other, rel_tol=1e-12, abs_tol=1e-9)

"""One recording of a whole lesson, split into the parts of its steps by how long each should last.

The recording is a row of stretches of speech with silences between. Each step has phrases of known expected length; how
fast it is spoken is not known, and differs from step to step. Between two steps there may be speech that belongs to
none; a step may be missing; and it may have been begun and given up once or twice before the take that was meant, in
which case its first words are heard again, at about the same speed. Everything that may have happened has a price, the
logarithm of how seldom it is; ``step_runs`` has those of the words themselves.

All divisions together are weighed by dynamic programming from both ends (the sums of a hidden semi-Markov model, L. R.
Rabiner, A tutorial on hidden Markov models, Proc. IEEE 77, 1989). So for each step it is known how likely it lies where
it most likely lies, among everything else that may have happened: that is its confidence, and a step is doubtful where
it is low, or where words that are not the step's were likely said inside it.

Below a confidence of 0.93 a step is doubtful. ``match(..., then=)`` tells which settled step follows, since that may
have been begun before. Prices were set on two demo lessons in two voices; `tests/bench/split_recordings.py` measures
on others.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .speech import Stretch
from .step_runs import SPEEDS, Prices, Runs, any_words, prices_of_speeds, runs_of

__all__ = ["DividedRecording", "Spoken", "StepSpan", "match"]

# Natural logarithms of how seldom it is.
_MISSING = 4.5
_BEGUN_AGAIN = 3.5
_MOST_BEGUN = 2  # times before the take that was meant
_UNASSIGNED = 4.5  # speech between two steps that belongs to none ...
_UNASSIGNED_MORE = 1.0  # ... and for each stretch of it
_BEAM = 30.0  # what is so much less likely than the best so far is not followed
_SURE = 0.93  # a step is doubtful where it is less likely to lie where it is said to
_ODD_SPEED = 0.5  # logarithm of a step's speed beside the whole from which other words may have been said
_ADDED_ODDS = 1.0  # logarithm of the odds from which words are taken to be added
_LONGEST_PAUSE_S = 5.0  # a longer one says no more
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
class StepSpan:
    """The part of the recording that belongs to a step."""

    step_id: str
    part: Stretch | None  # None: it is missing
    confidence: float  # 0 to 1, of both its ends
    doubtful: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class DividedRecording:
    """A recording, divided."""

    steps: tuple[StepSpan, ...]  # one for each, in order
    left_out: tuple[Stretch, ...]  # speech that belongs to none
    speed: float  # of the whole: 1 is as expected, 2 twice as fast


def match(expected: Sequence[Spoken], stretches: Sequence[Stretch], then: Spoken | None = None) -> DividedRecording:
    """Divide the stretches of a recording among the steps.

    expected  : in the order in which they are spoken
    stretches : of speech, in order
    then      : the step whose take comes after these stretches; it may have been begun and given up among them
    """
    lengths_s = np.array([stretch.seconds for stretch in stretches])
    if not len(lengths_s) or not expected:
        steps = tuple(StepSpan(step_id=step.step_id, part=None, confidence=1.0, doubtful=False) for step in expected)
        return DividedRecording(steps=steps, left_out=tuple(stretches), speed=1.0)
    ends = [*(stretch.start_s for stretch in stretches[1:]), math.inf]
    pauses_s = np.array([end - stretch.end_s for stretch, end in zip(stretches, ends, strict=True)])
    pauses_s = np.minimum(pauses_s, _LONGEST_PAUSE_S)
    speed = math.fsum(step.seconds for step in expected) / float(lengths_s.sum())
    weighed = _Weighed(expected, lengths_s, pauses_s, speed, then)
    for _ in range(_ROUNDS - 1):
        better = weighed.speed_of_places()
        if abs(math.log(better / speed)) < 0.03:
            break
        speed = better
        weighed = _Weighed(expected, lengths_s, pauses_s, speed, then)
    return weighed.divided(stretches)


@dataclass(frozen=True, slots=True)
class _Window:
    """The stretches among which a step is looked for, and its prices there."""

    first: int
    count: int
    runs: Runs


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a step most likely lies."""

    run: tuple[int, int] | None  # its first stretch and the first after it; None: it is missing
    confidence: float


class _Weighed:
    """All divisions, weighed: `before[c][i]` is the price of the first c steps on the first i stretches, `rest` of the
    others on the others; speech that is nobody's stands before each step, and at the end."""

    def __init__(
        self, expected: Sequence[Spoken], lengths_s: Prices, pauses_s: Prices, speed: float, then: Spoken | None
    ) -> None:
        self._expected, self._lengths_s, self._pauses_s, self._speed = expected, lengths_s, pauses_s, speed
        self._of_speed = prices_of_speeds()[None, :]
        self._unassigned = _prices_of_unassigned(lengths_s)
        self._end = self._prices_of_end(then)
        self._windows: list[_Window] = []
        self._arrived: list[tuple[Prices, Prices]] = []  # before the step at all, and at the take that was meant
        self._weigh_forward()
        self._weigh_backward()
        self._places = self._likeliest()

    def _weigh_forward(self) -> None:
        count = len(self._lengths_s)
        self._before = np.full((len(self._expected) + 1, count + 1), math.inf)
        self._before[0, 0] = 0.0
        for c, step in enumerate(self._expected):
            here = _summed(self._before[c][:, None] + self._unassigned, 0)
            window = self._window(step, here)
            meant = self._meant_takes(window, here)
            ended = np.full((len(window.runs.whole) + 1, count + 1), math.inf)
            ended[0] = here + _MISSING
            for row, (h, price) in enumerate(window.runs.whole.items(), start=1):
                ends = _summed(meant + price, 1)
                ended[row, window.first + h : window.first + window.count + 1] = ends[: window.count - h + 1]
            self._before[c + 1] = _summed(ended, 0)
            self._windows.append(window)
            self._arrived.append((here, meant))
        self._all = float(_summed(self._before[-1] + self._end, 0))

    def _prices_of_end(self, then: Spoken | None) -> Prices:
        """Of what comes after the last step: speech that is nobody's, or a next step that was begun and given up."""
        end = self._unassigned[:, -1]
        if then is None:
            return end
        begun = runs_of(then.phrases, self._lengths_s, self._pauses_s, self._speed).begun
        count = len(self._lengths_s)
        rows = [np.full((count + 1, len(SPEEDS)), math.inf)]
        rows[0][-1] = 0.0
        for _ in range(_MOST_BEGUN):
            again = [np.full_like(rows[0], math.inf)]
            for h, price in begun.items():
                row = np.full_like(rows[0], math.inf)
                row[: count + 1 - h] = price[: count + 1 - h] + rows[-1][h:]
                again.append(row)
            rows.append(_summed(np.stack(again), 0) + _BEGUN_AGAIN)
        given_up = _summed(_summed(np.stack(rows[1:]), 0) + self._of_speed, 1)
        return _summed(np.stack([end, _summed(self._unassigned + given_up[None, :], 1)]), 0)

    def _window(self, step: Spoken, here: Prices) -> _Window:
        likely = np.flatnonzero(here[:-1] <= here.min() + _BEAM)
        if not len(likely):
            likely = np.array([len(here) - 2])
        first = int(likely[0])
        # Room for two starts that were given up, and for the take itself.
        reach = (_MOST_BEGUN + 1) * (len(step.phrases) + 3)
        after = min(len(self._lengths_s), int(likely[-1]) + 1 + reach)
        runs = runs_of(step.phrases, self._lengths_s[first:after], self._pauses_s[first:after], self._speed)
        return _Window(first=first, count=after - first, runs=runs)

    def _meant_takes(self, window: _Window, here: Prices) -> Prices:
        """Price of arriving at each stretch of the window to begin the take that was meant, at each speed."""
        begins = here[window.first : window.first + window.count, None] + self._of_speed
        rows = [begins]
        for _ in range(_MOST_BEGUN):
            again = [np.full_like(begins, math.inf)]
            for h, price in window.runs.begun.items():
                shifted = np.full_like(begins, math.inf)
                shifted[h:] = (rows[-1] + price)[: window.count - h]
                again.append(shifted)
            rows.append(_summed(np.stack(again), 0) + _BEGUN_AGAIN)
        return _summed(np.stack(rows), 0)

    def _weigh_backward(self) -> None:
        count = len(self._lengths_s)
        self._rest = np.full((len(self._expected) + 1, count + 1), math.inf)
        self._rest[-1] = self._end
        for c in range(len(self._expected) - 1, -1, -1):
            window, after = self._windows[c], self._rest[c + 1]
            shape = (window.count, len(SPEEDS))
            ended = [np.full(shape, math.inf)]
            for h, price in window.runs.whole.items():
                row = np.full(shape, math.inf)
                ends = after[window.first + h : window.first + window.count + 1]
                row[: len(ends)] = price[: len(ends)] + ends[:, None]
                ended.append(row)
            rows = [_summed(np.stack(ended), 0)]
            for _ in range(_MOST_BEGUN):
                again = [np.full(shape, math.inf)]
                for h, price in window.runs.begun.items():
                    row = np.full(shape, math.inf)
                    row[: window.count - h] = price[: window.count - h] + rows[-1][h:]
                    again.append(row)
                rows.append(_summed(np.stack(again), 0) + _BEGUN_AGAIN)
            taken = np.full(count + 1, math.inf)
            taken[window.first : window.first + window.count] = _summed(_summed(np.stack(rows), 0) + self._of_speed, 1)
            here = _summed(np.stack([taken, after + _MISSING]), 0)
            self._rest[c] = _summed(self._unassigned + here[None, :], 1)

    def _likeliest(self) -> list[_Place]:
        """The likeliest place of each step after those of the steps before it."""
        places = []
        free = 0
        for c, (window, (here, meant)) in enumerate(zip(self._windows, self._arrived, strict=True)):
            best: tuple[float, tuple[int, int] | None] = (
                float(_summed(here + _MISSING + self._rest[c + 1], 0)) - self._all, None
            )  # fmt: skip
            for h, price in window.runs.whole.items():
                ends = self._rest[c + 1][window.first + h : window.first + window.count + 1]
                through = _summed(meant + price, 1)[: len(ends)] + ends - self._all
                through[: max(0, free - window.first)] = math.inf
                at = int(through.argmin()) if len(through) else 0
                if len(through) and through[at] < best[0]:
                    best = (float(through[at]), (window.first + at, window.first + at + h))
            places.append(_Place(run=best[1], confidence=min(1.0, math.exp(-best[0]))))
            free = best[1][1] if best[1] is not None else free
        return places

    def speed_of_places(self) -> float:
        """The middle one of the speeds of the steps that were found."""
        speeds = [
            step.seconds / float(self._lengths_s[place.run[0] : place.run[1]].sum())
            for step, place in zip(self._expected, self._places, strict=True)
            if place.run is not None
        ]
        return float(np.median(speeds)) if speeds else self._speed

    def divided(self, stretches: Sequence[Stretch]) -> DividedRecording:
        took = []
        used: set[int] = set()
        for step, place in zip(self._expected, self._places, strict=True):
            part = None
            doubtful = place.confidence < _SURE
            if place.run is not None:
                first, after = place.run
                used |= set(range(first, after))
                part = Stretch(start_s=stretches[first].start_s, end_s=stretches[after - 1].end_s)
                own = step.seconds / float(self._lengths_s[first:after].sum()) / self._speed
                doubtful = doubtful or abs(math.log(own)) > _ODD_SPEED or self._has_added_words(step, first, after)
            took.append(StepSpan(step_id=step.step_id, part=part, confidence=place.confidence, doubtful=doubtful))
        left_out = tuple(stretch for number, stretch in enumerate(stretches) if number not in used)
        return DividedRecording(steps=tuple(took), left_out=left_out, speed=self._speed)

    def _has_added_words(self, step: Spoken, first: int, after: int) -> bool:
        prices = []
        for with_added in (True, False):
            inside = (self._lengths_s[first:after], self._pauses_s[first:after])
            runs = runs_of(step.phrases, *inside, self._speed, with_added=with_added)
            whole = runs.whole.get(after - first)
            prices.append(math.inf if whole is None else float(_summed(whole[0] + self._of_speed[0], 0)))
        return prices[1] - prices[0] > _ADDED_ODDS


def _prices_of_unassigned(lengths_s: Prices) -> Prices:
    """(n + 1, n + 1): of the stretches from one up to another belonging to nobody; 0 for none."""
    so_far = np.concatenate([[0.0], np.cumsum(any_words(lengths_s) + _UNASSIGNED_MORE)])
    price = so_far[None, :] - so_far[:, None] + _UNASSIGNED
    price[np.tril_indices(len(so_far), -1)] = math.inf
    np.fill_diagonal(price, 0.0)
    return np.asarray(price)


def _summed(prices: Prices, axis: int) -> Prices:
    """The price of any of these, whichever it is."""
    least = np.min(prices, axis=axis, keepdims=True)
    least = np.where(np.isfinite(least), least, 0.0)
    with np.errstate(divide="ignore"):
        out = least - np.log(np.exp(least - prices).sum(axis=axis, keepdims=True))
    return np.asarray(np.squeeze(out, axis=axis))

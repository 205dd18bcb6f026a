"""How well the words of one step lie on runs of speech in a recording.

A step has phrases of known expected length, and is spoken at one speed of its own, which is not known: what is reckoned
here is reckoned for each of a row of speeds. Its phrases take the stretches of a run in order. A phrase lies on one
stretch, or on several where the speaker stopped inside it, or on one together with others that ran on; between two
phrases a stretch may hold words that are not the step's. A price is the logarithm of how much less likely something is
than as many stretches of any words.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["SPEEDS", "Prices", "Runs", "any_words", "pause_within", "prices_of_speeds", "runs_of"]

Prices = NDArray[np.float64]

# Logarithms of how much faster one step is spoken than the whole; further off it cannot be.
SPEEDS: Prices = np.arange(-0.48, 0.481, 0.06)
_SPEED_SPREAD = 0.22  # of the logarithm of a step's speed: 30 % either way is ordinary ...
_ORDINARY_SPEED = 0.36
_ODD_SPEED_SPREAD = 0.08  # ... and much more is not
_PHRASE_SPREAD = 0.12  # of a phrase within its step ...
_PHRASE_SPREAD_S = 0.08  # ... and so many seconds, which matter in short ones
_ODD = 0.03  # so many phrases are spoken in a way of their own ...
_ODD_SPREAD = 3.0  # ... which spreads them so many times wider
_MEDIAN_S, _ANY_SPREAD = 1.6, 0.8  # of stretches of any words
# Silences after sentences, and those within them, which are shorter but may be as long (common practice, no source).
_LONG_PAUSE_S, _LONG_PAUSE_SPREAD = 0.7, 0.5
_SHORT_PAUSE_S, _SHORT_PAUSE_SPREAD = 0.27, 0.35
_AS_LONG = 0.4  # so many of those within sentences are like those after them
_AS_SHORT = 0.05  # and the other way round
_MOST_RUN_ON = 4  # phrases on one stretch
_MOST_SPLIT = 3  # stretches of one phrase
_MOST_MORE = 6  # stretches in a step beyond its phrases
# Natural logarithms of how seldom it is.
_RUN_ON = 4.0  # two sentences without a silence between
_COMMA = 0.7  # a comma with a silence, or without one: either is as likely
_SPLIT = 3.0  # a silence inside a phrase
_ADDED = 4.5  # words that are not the step's, inside it
_BROKEN_OFF = 1.5  # a start given up inside a phrase, beside one given up at its end


@dataclass(frozen=True, slots=True)
class Runs:
    """Prices of runs by their number of stretches; each an array (first stretch, speed)."""

    whole: dict[int, Prices]  # of the whole step
    begun: dict[int, Prices]  # of its first words, after which it was given up


def pause_within(pauses_s: Prices) -> Prices:
    """The price of each silence standing within a sentence, beside standing after one."""
    log_s = np.log(np.maximum(pauses_s, 0.05))
    long = _bell(log_s, _LONG_PAUSE_S, _LONG_PAUSE_SPREAD)
    short = _bell(log_s, _SHORT_PAUSE_S, _SHORT_PAUSE_SPREAD)
    after = _AS_SHORT * short + (1.0 - _AS_SHORT) * long
    return np.asarray(np.log(after + 1e-12) - np.log(_AS_LONG * after + (1.0 - _AS_LONG) * short + 1e-12))


def _bell(log_s: Prices, middle_s: float, spread: float) -> Prices:
    return np.asarray(np.exp(-0.5 * ((log_s - math.log(middle_s)) / spread) ** 2) / spread)


def any_words(lengths_s: Prices) -> Prices:
    """The price of each stretch by its length alone: nothing for a middling one."""
    off = (np.log(lengths_s) - math.log(_MEDIAN_S)) / _ANY_SPREAD
    return np.asarray(0.5 * off * off)


def prices_of_speeds() -> Prices:
    """How seldom each of the speeds is."""
    beyond = np.maximum(0.0, np.abs(SPEEDS) - _ORDINARY_SPEED) / _ODD_SPEED_SPREAD
    price = 0.5 * (SPEEDS / _SPEED_SPREAD) ** 2 + 0.5 * beyond * beyond
    return np.asarray(price + math.log(float(np.exp(-price).sum())))


def runs_of(
    phrases: Sequence[tuple[float, bool]],
    lengths_s: Prices,
    pauses_s: Prices,
    speed: float,
    *,
    with_added: bool = True,
) -> Runs:
    """Prices of all runs that a step can take, the speed's own left out.

    phrases    : (expected seconds, whether a sentence ends with it), one or more
    lengths_s  : (n,) of the stretches
    pauses_s   : (n,) of silence after each
    speed      : of the whole recording; SPEEDS are beside it
    with_added : whether there may be words that are not the step's
    """
    return _Laying(phrases, lengths_s, pauses_s, speed, with_added=with_added).runs()


class _Laying:
    def __init__(
        self,
        phrases: Sequence[tuple[float, bool]],
        lengths_s: Prices,
        pauses_s: Prices,
        speed: float,
        *,
        with_added: bool,
    ) -> None:
        self._stops = [stop for _, stop in phrases]
        self._said_s = np.concatenate([[0.0], np.cumsum([seconds for seconds, _ in phrases])]) / speed
        self._lengths_s = lengths_s
        self._summed = np.concatenate([[0.0], np.cumsum(lengths_s)])
        self._within = pause_within(pauses_s)
        self._within_summed = np.concatenate([[0.0], np.cumsum(self._within)])
        self._any = any_words(lengths_s)[:, None] + np.zeros(len(SPEEDS))
        self._longest = min(len(lengths_s), len(phrases) + _MOST_MORE)
        self._with_added = with_added

    def runs(self) -> Runs:
        last = len(self._stops)
        begun: dict[int, Prices] = {}
        # By phrases said so far, then by stretches that they lie on.
        reached: list[dict[int, Prices]] = [{} for _ in range(last + 1)]
        reached[0][0] = np.zeros_like(self._any)
        for s in range(last):
            groups = list(self._groups(s))
            broken_off = self._broken_off(s)
            for h in range(self._longest):
                here = reached[s].get(h)
                if here is None:
                    continue
                if h:
                    _lower(begun, h, here)
                _lower(begun, h + 1, here + _seen_from(broken_off, h))
                for phrases, stretches, price in groups:
                    if h + stretches <= self._longest:
                        _lower(reached[s + phrases], h + stretches, here + _seen_from(price, h))
                if s and self._with_added:
                    _lower(reached[s], h + 1, here + _seen_from(self._any + _ADDED, h))
        for h, price in reached[last].items():
            _lower(begun, h, price)
        return Runs(whole=reached[last], begun=begun)

    def _groups(self, s: int) -> Iterator[tuple[int, int, Prices]]:
        """(phrases, stretches, prices) of what may come after the first s phrases."""
        for phrases in range(1, min(_MOST_RUN_ON, len(self._stops) - s) + 1):
            yield phrases, 1, self._lying(s, phrases, 1)
        for stretches in range(2, _MOST_SPLIT + 1):
            yield 1, stretches, self._lying(s, 1, stretches)

    def _lying(self, s: int, phrases: int, stretches: int) -> Prices:
        """So many phrases on so many stretches."""
        due_s = float(self._said_s[s + phrases] - self._said_s[s])
        first = np.arange(len(self._lengths_s))
        after = np.minimum(first + stretches, len(self._lengths_s))
        heard = np.log(np.maximum(self._summed[after] - self._summed[first], 1e-9))
        spread = math.hypot(_PHRASE_SPREAD, _PHRASE_SPREAD_S / due_s)
        off = (heard[:, None] - math.log(due_s) + SPEEDS[None, :]) / spread
        price = _nearly_normal(off) + math.log(spread / _ANY_SPREAD)
        price += (stretches - 1) * _SPLIT + self._joints(s, s + phrases)
        price += (self._within_summed[after - 1] - self._within_summed[first])[:, None]
        if self._ends_at_comma(s + phrases):
            price += self._within[after - 1][:, None]
        price[after - first < stretches] = math.inf
        return price

    def _joints(self, s: int, end: int) -> float:
        """Of phrases that run on, and of a silence at a comma after them."""
        inner = sum(_RUN_ON if stop else _COMMA for stop in self._stops[s : end - 1])
        return inner + (_COMMA if self._ends_at_comma(end) else 0.0)

    def _ends_at_comma(self, end: int) -> bool:
        return end < len(self._stops) and not self._stops[end - 1]

    def _broken_off(self, s: int) -> Prices:
        """A part of the next phrase alone: any length below its own."""
        due = math.log(self._said_s[s + 1] - self._said_s[s])
        too_long = np.log(self._lengths_s)[:, None] + SPEEDS[None, :] > due
        return np.where(too_long, math.inf, self._any + _BROKEN_OFF)


def _nearly_normal(off: Prices) -> Prices:
    """Of something so many spreads away from its middle, where a few are odd."""
    normal = (1.0 - _ODD) * np.exp(-0.5 * off * off)
    odd = _ODD / _ODD_SPREAD * np.exp(-0.5 * (off / _ODD_SPREAD) ** 2)
    return np.asarray(-np.log(normal + odd + 1e-300))


def _seen_from(price: Prices, stretches: int) -> Prices:
    """Prices by the stretch that lies so many before the one that they are given by."""
    if stretches == 0:
        return price
    out = np.full_like(price, math.inf)
    out[:-stretches] = price[stretches:]
    return out


def _lower(table: dict[int, Prices], key: int, price: Prices) -> None:
    known = table.get(key)
    table[key] = price if known is None else np.minimum(known, price)

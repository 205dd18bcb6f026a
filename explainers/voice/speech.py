"""Where somebody speaks in a recording, and where nobody does; and whether the recording is fit to be used.

The level of the sound is taken every 10 ms. What is well above the noise of the room is speech; a gap of less than a
fifth of a second is part of a word, and a sound of less than a twentieth is a click.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.signal import butter, sosfilt

from .sound import RATE, Sound

__all__ = ["Heard", "Stretch", "heard", "stretches"]

HOP_S = 0.010
LEAST_PAUSE_S = 0.20
LEAST_SPEECH_S = 0.05

_WINDOW_S = 0.025
_EVERY = 3
_FLOOR_DB = -90.0  # digital silence is counted as this
_RANGE_DB = 35.0  # the quietest speech, below the loudest: a whispered "s" may be lower, and is found by its margin
_ABOVE_NOISE_DB = 7.0
_LEAST_CONTRAST_DB = 9.0
_CLIPPED_FROM = 0.985
_CLIPPED_RUN = 3  # samples at full scale in a row: one alone may be a true peak
_AUDIBLE_DB = -60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A part of a recording, in seconds from its start."""

    start_s: float
    end_s: float

    @property
    def seconds(self) -> float:
        """Its length."""
        return self.end_s - self.start_s


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """What a recording is like."""

    stretches: tuple[Stretch, ...]  # of speech, in order; () where no voice stands out
    noise_db: float  # level of the room
    voice_db: float  # level of the voice; both relative to full scale
    clipped_s: float  # how much of it is cut off at full scale

    @property
    def span(self) -> Stretch | None:
        """From the first to the last word; None where there is none."""
        if not self.stretches:
            return None
        return Stretch(start_s=self.stretches[0].start_s, end_s=self.stretches[-1].end_s)


def heard(sound: Sound) -> Heard:
    """The stretches of speech, the noise and the voice of a recording."""
    levels = _levels(sound)
    noise_db = float(np.percentile(levels, 10)) if len(levels) else _FLOOR_DB
    voice_db = float(np.percentile(levels, 95)) if len(levels) else _FLOOR_DB
    clipped_s = _clipped_s(sound)
    silent = voice_db < _AUDIBLE_DB
    if silent:
        found: tuple[Stretch, ...] = ()
    elif voice_db - noise_db < _LEAST_CONTRAST_DB:
        # No pause in it to tell the room by: one stretch, as a take that was cut tightly is.
        found = _runs(levels >= voice_db - _RANGE_DB, sound)
    else:
        found = _runs(levels >= max(noise_db + _ABOVE_NOISE_DB, voice_db - _RANGE_DB), sound)
    return Heard(stretches=found, noise_db=noise_db, voice_db=voice_db, clipped_s=clipped_s)


def stretches(sound: Sound) -> tuple[Stretch, ...]:
    """The stretches of speech alone."""
    return heard(sound).stretches


def _levels(sound: Sound) -> NDArray[np.float64]:
    """The level in dB every 10 ms, each over 25 ms, hum and rumble left out."""
    if sound.seconds < _WINDOW_S:
        return np.zeros(0)
    # Every third sample has the same level as all of them, and takes a third of the time.
    rate = RATE // _EVERY
    some = sound.samples[::_EVERY].astype(np.float64)
    high = sosfilt(butter(2, 90.0, "highpass", fs=rate, output="sos"), some)
    summed = np.concatenate([[0.0], np.cumsum(high * high)])
    hop, window = round(HOP_S * rate), round(_WINDOW_S * rate)
    starts = np.arange(0, len(high) - window + 1, hop)
    power = (summed[starts + window] - summed[starts]) / window
    levels: NDArray[np.float64] = 10.0 * np.log10(np.maximum(power, 10.0 ** (_FLOOR_DB / 10.0)))
    return levels


def _runs(loud: NDArray[np.bool_], sound: Sound) -> tuple[Stretch, ...]:
    """Runs of loud moments; short gaps closed first, then short sounds dropped."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], loud, [False]]).astype(np.int8)))
    runs = [[first * HOP_S, (after - 1) * HOP_S + _WINDOW_S] for first, after in edges.reshape(-1, 2)]
    closed: list[list[float]] = []
    for run in runs:
        if closed and run[0] - closed[-1][1] < LEAST_PAUSE_S:
            closed[-1][1] = run[1]
        else:
            closed.append(run)
    return tuple(
        Stretch(start_s=float(start), end_s=float(min(end, sound.seconds)))
        for start, end in closed
        if end - start >= LEAST_SPEECH_S + _WINDOW_S
    )


def _clipped_s(sound: Sound) -> float:
    """Seconds cut off at full scale."""
    full = np.abs(sound.samples) >= _CLIPPED_FROM
    edges = np.flatnonzero(np.diff(np.concatenate([[False], full, [False]]).astype(np.int8)))
    lengths = np.diff(edges.reshape(-1, 2), axis=1)
    return math.fsum(float(length) for length in lengths[lengths >= _CLIPPED_RUN]) / RATE

"""How loud a sound is, and the same sound as loud as it should be, without clipping.

Loudness and true peak are those of ITU-R BS.1770, measured by FFmpeg's meter. A spoken track has one channel that is
played on both sides: it is measured as it is heard, as two equal channels, which reads 3 LU more than one alone.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

import av
import numpy as np
from av.audio.frame import AudioFrame
from av.filter import Graph
from numpy.typing import NDArray
from scipy.ndimage import minimum_filter1d, uniform_filter1d
from scipy.signal import resample_poly

from .sound import RATE, Samples, Sound

__all__ = ["LOUDEST_PEAK_DB", "TARGETS_LUFS", "Loudness", "levelled", "limited", "loudness_of", "loudness_of_channels"]

# AES TD1008 gives about -18 LUFS for speech, EBU R 128 -23.0 LUFS for programmes; both a true peak of at most -1 dBTP.
TARGETS_LUFS = {"speech": -18.0, "broadcast": -23.0}
LOUDEST_PEAK_DB = -1.0

QUIETEST_LUFS = -70.0  # the absolute gate of BS.1770: nothing below it is counted

_BLOCK = 48_000
_SHORTEST = round(0.4 * RATE)  # one gating block; less than this has no loudness, so it is measured repeated
_OVERSAMPLED = 4  # for true peaks, as BS.1770 asks of a rate of 48 kHz
_FAR_LOWER = 0.6
_MARGIN = 64  # samples at both ends of a block, for the filter that finds what lies between samples
_LOOK_S = 0.004  # a peak is turned down from this long before it, and this long after


@dataclass(frozen=True, slots=True, kw_only=True)
class Loudness:
    """What a meter shows."""

    lufs: float  # integrated, gated; -70 for what is too quiet to count
    peak_db: float  # true peak in dBTP; -inf for silence


def loudness_of(sound: Sound) -> Loudness:
    """The loudness of a voice that is played on both sides."""
    return loudness_of_channels(np.stack([sound.samples, sound.samples]))


def loudness_of_channels(channels: NDArray[np.float32]) -> Loudness:
    """The loudness of one or two channels.

    channels : (1 or 2, n), 48,000 samples a second
    """
    peak = float(np.abs(channels).max(initial=0.0))
    if peak == 0.0:
        return Loudness(lufs=QUIETEST_LUFS, peak_db=-math.inf)
    short = channels.shape[1] < 2 * _SHORTEST
    shown = _metered(np.tile(channels, (1, math.ceil(2 * _SHORTEST / channels.shape[1]))) if short else channels)
    return Loudness(lufs=max(shown.lufs, QUIETEST_LUFS), peak_db=max(shown.peak_db, 20.0 * math.log10(peak)))


def levelled(sound: Sound, target_lufs: float, peak_db: float = LOUDEST_PEAK_DB) -> Sound:
    """The sound at a loudness, its peaks turned down where they would go over; silence stays what it is.

    target_lufs : met to within 0.1 LU, unless the sound has so short and high peaks that it cannot be
    """
    out = sound
    for _ in range(4):
        shown = loudness_of(out)
        if shown.lufs <= QUIETEST_LUFS or (abs(shown.lufs - target_lufs) < 0.05 and shown.peak_db <= peak_db):
            return out
        out = limited(out.louder(target_lufs - shown.lufs), peak_db)
    return out


def limited(sound: Sound, peak_db: float) -> Sound:
    """The sound with every true peak at or below a level: turned down smoothly a few milliseconds round it."""
    ceiling = 10.0 ** ((peak_db - 0.1) / 20.0)  # a little below, since turning down moves peaks between samples
    heights = _true_heights(sound.samples, ceiling)
    if not len(heights) or float(heights.max()) <= ceiling:
        return sound
    wanted = np.minimum(1.0, ceiling / np.maximum(heights, 1e-9))
    width = 2 * round(_LOOK_S * RATE) + 1
    # The lowest gain within twice the reach, then the mean over it: never above what the peak itself needs.
    gain = uniform_filter1d(minimum_filter1d(wanted, width, mode="nearest"), width, mode="nearest")
    return Sound((sound.samples * gain).astype(np.float32))


def _true_heights(samples: Samples, above: float) -> NDArray[np.float64]:
    """The height of the wave at and between samples, one number a sample; at samples alone where it is far lower.

    above : what matters; between samples speech rises by less than half
    """
    highest: NDArray[np.float64] = np.abs(samples).astype(np.float64)
    for first in range(0, len(samples), _BLOCK):
        if float(highest[first : first + _BLOCK].max()) < above * _FAR_LOWER:
            continue
        start = max(0, first - _MARGIN)
        part = samples[start : first + _BLOCK + _MARGIN].astype(np.float64)
        between = np.abs(resample_poly(part, _OVERSAMPLED, 1)).reshape(len(part), _OVERSAMPLED).max(axis=1)
        room = highest[first : first + _BLOCK]
        np.maximum(room, between[first - start : first - start + len(room)], out=room)
    return highest


def _metered(channels: NDArray[np.float32]) -> Loudness:
    layout = "mono" if channels.shape[0] == 1 else "stereo"
    graph = Graph()
    source = graph.add_abuffer(sample_rate=RATE, format="fltp", layout=layout, time_base=Fraction(1, RATE))
    meter = graph.add("ebur128", "metadata=1:peak=true:framelog=quiet")
    sink = graph.add("abuffersink")
    source.link_to(meter)
    meter.link_to(sink)
    graph.configure()
    shown: dict[str, str] = {}
    for start in range(0, channels.shape[1], _BLOCK):
        frame = AudioFrame.from_ndarray(
            np.ascontiguousarray(channels[:, start : start + _BLOCK]), format="fltp", layout=layout
        )
        frame.sample_rate = RATE
        frame.pts = start
        graph.push(frame)
        shown = _pulled(graph) or shown
    graph.push(None)
    shown = _pulled(graph) or shown
    # The meter writes the peak with three decimals of full scale, which is coarse for quiet sounds but not near 0 dB.
    peak = float(shown.get("lavfi.r128.true_peak", "0"))
    return Loudness(
        lufs=float(shown.get("lavfi.r128.I", str(QUIETEST_LUFS))),
        peak_db=20.0 * math.log10(peak) if peak > 0.0 else -math.inf,
    )


def _pulled(graph: Graph) -> dict[str, str]:
    shown: dict[str, str] = {}
    while True:
        try:
            shown = dict(graph.pull().metadata)
        except (av.BlockingIOError, av.EOFError):
            return shown

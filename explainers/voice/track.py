"""One narration track: takes made ready, and their coded forms laid along a clip.

A take is trimmed to its words and levelled by itself, so that a step recorded on another day is as loud as the others.
It begins at the packet that is nearest to its time, half a packet (11 ms) early or late at most.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np
from av.audio.frame import AudioFrame

from .coded_take import AAC_FRAME, CodedTake, silent_packet
from .loudness import levelled
from .sound import RATE, Sound, read_sound

__all__ = ["CodedTrack", "laid", "made_ready", "read_take", "write_take"]

_FADE_S = 0.004  # so that a take which was cut in the noise of a room does not click


@dataclass(frozen=True, slots=True, kw_only=True)
class CodedTrack:
    """AAC packets in order; the first lies before the start of the clip, since the coder takes a run-up."""

    packets: tuple[bytes, ...]
    run_up: int  # samples before the start of the clip


def made_ready(take: Sound, start_s: float, end_s: float, target_lufs: float) -> Sound:
    """The part of a recording between two times, softly begun and ended, at a loudness and below the ceiling."""
    part = take.between(start_s, end_s)
    count = min(round(_FADE_S * RATE), len(part.samples) // 2)
    samples = part.samples.copy()
    if count:
        rise = np.linspace(0.0, 1.0, count, dtype=np.float32)
        samples[:count] *= rise
        samples[-count:] *= rise[::-1]
    return levelled(Sound(samples), target_lufs)


def write_take(path: Path, take: Sound) -> None:
    """Keep a take without loss, as FLAC of 24 bits."""
    with av.open(str(path), "w", format="flac") as container:
        stream = container.add_stream("flac", rate=RATE, layout="mono", format="s32")
        whole = np.clip(take.samples.astype(np.float64), -1.0, 1.0 - 2.0**-23)
        samples = (np.rint(whole * 2.0**23).astype(np.int32) << 8).reshape(1, -1)
        for first in range(0, samples.shape[1], RATE):
            frame = AudioFrame.from_ndarray(
                np.ascontiguousarray(samples[:, first : first + RATE]), format="s32", layout="mono"
            )
            frame.sample_rate = RATE
            frame.pts = first
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))


def read_take(path: Path) -> Sound:
    """A take that was kept."""
    return read_sound(path)


def laid(takes: Mapping[float, CodedTake], seconds: float) -> CodedTrack:
    """Takes laid along a clip, silence before, between and after them.

    takes   : by the second at which each begins; one that would begin inside the one before begins right after it
    seconds : length of the clip; what would sound after it is cut off
    """
    count = math.ceil(seconds * RATE / AAC_FRAME) + 1
    packets: list[bytes] = []
    for start_s, take in sorted(takes.items(), key=lambda entry: entry[0]):
        # The run-up of a take stands in the packet before its time, the track's own run-up one before the clip.
        gap = round(start_s * RATE / AAC_FRAME) - len(packets)
        packets += [silent_packet()] * gap
        packets += take.packets
    packets += [silent_packet()] * (count - len(packets))
    return CodedTrack(packets=tuple(packets[:count]), run_up=AAC_FRAME)

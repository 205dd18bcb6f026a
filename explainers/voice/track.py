"""One narration track: takes made ready, laid along a clip, coded once as AAC and measured as it will be heard.

A take is trimmed to its words and levelled by itself, so that a step recorded on another day is as loud as the others.
The track has two equal channels. AAC does not keep peaks exactly: the coded track is decoded and measured, and where
it goes over, it is coded again from the samples with a lower ceiling, never from what was coded before.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from av.audio.frame import AudioFrame
from numpy.typing import NDArray

from ..errors import OutputError
from .loudness import LOUDEST_PEAK_DB, Loudness, levelled, limited, loudness_of, loudness_of_channels
from .sound import RATE, Sound, read_sound

__all__ = ["AAC_FRAME", "BIT_RATE", "CodedTrack", "coded", "laid", "made_ready", "read_take", "write_take"]

BIT_RATE = 128_000
AAC_FRAME = 1024  # samples in one packet
_BLOCK = RATE
_FADE_S = 0.004  # so that a take which was cut in the noise of a room does not click
_CLOSE_LU = 0.3
_ROUNDS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class CodedTrack:
    """AAC packets in order; the first lies before the start of the clip, since the coder takes a run-up."""

    header: bytes  # what a decoder must be told first
    packets: tuple[bytes, ...]
    run_up: int  # samples before the start of the clip
    heard: Loudness  # of the decoded track


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


def laid(takes: Mapping[float, Sound], seconds: float, target_lufs: float) -> Sound:
    """Takes, each levelled already, laid along a clip, and the whole brought to the loudness by one small gain.

    takes   : by the second at which each begins
    seconds : length of the clip; what would sound after it is cut off
    """
    samples = np.zeros(round(seconds * RATE), dtype=np.float32)
    for start_s, take in takes.items():
        first = round(start_s * RATE)
        room = samples[first : first + len(take.samples)]
        room += take.samples[: len(room)]
    track = Sound(samples)
    shown = loudness_of(track)
    return track if shown.peak_db == -math.inf else track.louder(target_lufs - shown.lufs)


def coded(track: Sound, target_lufs: float, peak_db: float = LOUDEST_PEAK_DB) -> CodedTrack:
    """The track as AAC-LC in two equal channels, at the loudness and below the ceiling once it is decoded.

    Raises : OutputError where it cannot be brought below the ceiling
    """
    ceiling_db = peak_db
    for _ in range(_ROUNDS):
        shown = _encoded(limited(track, ceiling_db))
        # Hiss loses its highest part in the coder, so that a noisy recording may come out too quiet.
        off_lu = target_lufs - shown.heard.lufs
        silent = shown.heard.peak_db == -math.inf
        if shown.heard.peak_db <= peak_db and (silent or abs(off_lu) <= _CLOSE_LU):
            return shown
        if shown.heard.peak_db > peak_db:
            ceiling_db -= shown.heard.peak_db - peak_db + 0.1
        if not silent and abs(off_lu) > _CLOSE_LU:
            track = track.louder(off_lu)
    if shown.heard.peak_db <= peak_db:
        return shown
    raise OutputError("the narration cannot be brought below -1 dBTP. To mend it: record it again, less loud.")


def _encoded(track: Sound) -> CodedTrack:
    context = av.CodecContext.create("aac", "w")
    context.sample_rate = RATE
    context.layout = "stereo"
    context.format = "fltp"
    context.bit_rate = BIT_RATE
    context.profile = "LC"
    context.time_base = Fraction(1, RATE)
    context.options = {"flags": "+global_header+bitexact", "aac_coder": "fast"}
    context.open()
    packets: list[bytes] = []
    first_pts: int | None = None
    count = len(track.samples)
    for first in range(0, count, _BLOCK):
        block = track.samples[first : first + _BLOCK]
        frame = AudioFrame.from_ndarray(np.stack([block, block]), format="fltp", layout="stereo")
        frame.sample_rate = RATE
        frame.pts = first
        frame.time_base = Fraction(1, RATE)
        for packet in context.encode(frame):
            first_pts = packet.pts if first_pts is None else first_pts
            packets.append(bytes(packet))
    for packet in context.encode(None):
        first_pts = packet.pts if first_pts is None else first_pts
        packets.append(bytes(packet))
    run_up = -(first_pts or 0)
    header = bytes(context.extradata or b"")
    return CodedTrack(
        header=header, packets=tuple(packets), run_up=run_up, heard=loudness_of_channels(_decoded(header, packets))
    )


def _decoded(header: bytes, packets: list[bytes]) -> NDArray[np.float32]:
    context = av.CodecContext.create("aac", "r")
    context.extradata = header
    blocks = []
    for packet in packets:
        blocks += [frame.to_ndarray() for frame in context.decode(av.Packet(packet))]
    blocks += [frame.to_ndarray() for frame in context.decode(None)]
    return np.concatenate(blocks, axis=1) if blocks else np.zeros((2, 0), dtype=np.float32)

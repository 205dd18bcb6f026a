"""One take as AAC packets that can stand anywhere in a track between silence, measured as they will be heard.

The packets begin with the run-up of the coder and end with silence, so nothing of a take reaches its neighbours: a
track is laid of such packets without coding anything again, and a new take costs its own length. What depends on chance
in a decoder (noise put in place of noise) is left out, so that a take sounds the same wherever it stands. AAC does not
keep peaks exactly: the coded take is decoded and measured, and where it goes over, it is coded again from the samples
with a lower ceiling, never from what was coded before.

The loudness of a track is that of its takes, each measured with the silence round it; a very short one is raised by 1
LU at most. Coded takes are kept by the hash of their sound file and the loudness.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import av
import numpy as np
from av.audio.frame import AudioFrame
from numpy.typing import NDArray

from ..errors import OutputError
from .loudness import LOUDEST_PEAK_DB, Loudness, limited, loudness_of_channels
from .sound import RATE, Samples, Sound

__all__ = ["AAC_FRAME", "BIT_RATE", "CODER", "CodedTake", "coded_take", "silent_packet"]

BIT_RATE = 128_000
AAC_FRAME = 1024  # samples in one packet, and of the coder's run-up
# What decides the bytes of a coded take, beside its samples: part of the key under which one is kept.
CODER = f"1 av={av.__version__} {BIT_RATE}"

_BLOCK = RATE
_AROUND_S = 0.4  # silence round a take while it is measured: one gating block, as between two takes of a clip
_CLOSE_LU = 0.1
_MOST_LU = 1.0  # that a take is raised because of the silence round it: "yes" must not be shouted
_ROUNDS = 5
_HEAD = struct.Struct("<ddI")


@dataclass(frozen=True, slots=True, kw_only=True)
class CodedTake:
    """AAC-LC of two equal channels at 48 kHz; the first packet holds the run-up, the second the first samples."""

    packets: tuple[bytes, ...]
    heard: Loudness  # of the decoded take, silence round it

    def to_bytes(self) -> bytes:
        """For a cache."""
        sizes = [len(packet) for packet in self.packets]
        head = _HEAD.pack(self.heard.lufs, self.heard.peak_db, len(sizes))
        return head + struct.pack(f"<{len(sizes)}I", *sizes) + b"".join(self.packets)

    @classmethod
    def from_bytes(cls, data: bytes) -> CodedTake:
        """What `to_bytes` gave.

        Raises : ValueError for anything else
        """
        try:
            lufs, peak_db, count = _HEAD.unpack_from(data)
            sizes = struct.unpack_from(f"<{count}I", data, _HEAD.size)
        except struct.error as error:
            raise ValueError("not a coded take") from error
        at = _HEAD.size + 4 * count
        if at + sum(sizes) != len(data):
            raise ValueError("not a coded take")
        packets = []
        for size in sizes:
            packets.append(data[at : at + size])
            at += size
        return cls(packets=tuple(packets), heard=Loudness(lufs=lufs, peak_db=peak_db))


def coded_take(take: Sound, target_lufs: float, peak_db: float = LOUDEST_PEAK_DB) -> CodedTake:
    """The take coded, at the loudness and below the ceiling once it is decoded.

    take        : as loud as it should be by itself
    target_lufs : of the take with the silence round it, met to within 0.1 LU, unless the take is very short, or its
                  peaks so short and high that it cannot be
    Raises      : OutputError where it cannot be brought below the ceiling
    """
    with_silence = _heard_of(np.stack([take.samples, take.samples]))
    goal_lufs = min(target_lufs, with_silence.lufs + _MOST_LU)
    if with_silence.peak_db > -math.inf:
        take = take.louder(goal_lufs - with_silence.lufs)
    ceiling_db = peak_db
    below: CodedTake | None = None
    for _ in range(_ROUNDS):
        shown = _measured(_packets_of(limited(take, ceiling_db).samples))
        # Hiss loses its highest part in the coder, so that a noisy recording may come out too quiet.
        off_lu = goal_lufs - shown.heard.lufs
        silent = shown.heard.peak_db == -math.inf
        if shown.heard.peak_db <= peak_db:
            below = shown
            if silent or abs(off_lu) <= _CLOSE_LU:
                return shown
        else:
            ceiling_db -= shown.heard.peak_db - peak_db + 0.1
        if not silent and abs(off_lu) > _CLOSE_LU:
            take = take.louder(off_lu)
    if below is None:
        raise OutputError("the narration cannot be brought below -1 dBTP. To mend it: record it again, less loud.")
    return below


@cache
def silent_packet() -> bytes:
    """A packet of digital silence, to stand before, between and after takes."""
    return _packets_of(np.zeros(8 * AAC_FRAME, dtype=np.float32))[4]


def _packets_of(samples: Samples) -> tuple[bytes, ...]:
    context = av.CodecContext.create("aac", "w")
    context.sample_rate = RATE
    context.layout = "stereo"
    context.format = "fltp"
    context.bit_rate = BIT_RATE
    context.profile = "LC"
    context.time_base = Fraction(1, RATE)
    context.options = {"flags": "+global_header+bitexact", "aac_coder": "fast", "aac_pns": "0"}
    context.open()
    # Whole packets, and one of silence after them, so that the last sounds are whole without what comes next.
    padded = np.zeros((math.ceil(len(samples) / AAC_FRAME) + 1) * AAC_FRAME, dtype=np.float32)
    padded[: len(samples)] = samples
    packets: list[bytes] = []
    for first in range(0, len(padded), _BLOCK):
        block = padded[first : first + _BLOCK]
        frame = AudioFrame.from_ndarray(np.stack([block, block]), format="fltp", layout="stereo")
        frame.sample_rate = RATE
        frame.pts = first
        frame.time_base = Fraction(1, RATE)
        packets += [bytes(packet) for packet in context.encode(frame)]
    packets += [bytes(packet) for packet in context.encode(None)]
    return tuple(packets)


def _measured(packets: tuple[bytes, ...]) -> CodedTake:
    return CodedTake(packets=packets, heard=_heard_of(_decoded(packets)))


def _heard_of(channels: NDArray[np.float32]) -> Loudness:
    around = np.zeros((channels.shape[0], round(_AROUND_S * RATE)), dtype=np.float32)
    return loudness_of_channels(np.concatenate([around, channels, around], axis=1))


@cache
def _header() -> bytes:
    context = av.CodecContext.create("aac", "w")
    context.sample_rate, context.layout, context.format, context.profile = RATE, "stereo", "fltp", "LC"
    context.options = {"flags": "+global_header+bitexact"}
    context.open()
    return bytes(context.extradata or b"")


def _decoded(packets: Sequence[bytes]) -> NDArray[np.float32]:
    context = av.CodecContext.create("aac", "r")
    context.extradata = _header()
    blocks = []
    for packet in packets:
        blocks += [frame.to_ndarray() for frame in context.decode(av.Packet(packet))]
    blocks += [frame.to_ndarray() for frame in context.decode(None)]
    return np.concatenate(blocks, axis=1) if blocks else np.zeros((2, 0), dtype=np.float32)

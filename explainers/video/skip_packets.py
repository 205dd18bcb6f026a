"""Frames in which nothing moves, as packets that fit after any picture.

With the options of `encoder`, a P frame of an unmoving picture says "every block as before" and nothing else: it does
not depend on the picture, and of its header only `frame_num` changes, which counts the frames since the last IDR
picture modulo 16. So a hold is one encoded picture and a row of these packets. They are taken from the encoder at run
time and believed only after two different pictures have given the same ones, and a second round of frame_num has given
them again.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from .encoder import EncoderOptions, Pixels, SegmentEncoder
from .segment import Segment

__all__ = ["LONGEST_GOP", "hold_packets", "run_lengths", "skip_packets"]

LONGEST_GOP = 60  # frames from one IDR picture of a hold to the next: two seconds, for quick seeking

_PERIOD = 16  # frame_num has four bits


@cache
def skip_packets(options: EncoderOptions) -> tuple[bytes, ...] | None:
    """The packet for each value of frame_num, 0 to 15; None if this encoder's packets do depend on the picture."""
    flat, blocks = _two_pictures(options)
    # The frames up to the first whole round are left out: the one right after the IDR picture differs.
    of_flat = _packets(options, flat, frames=3 * _PERIOD)
    of_blocks = _packets(options, blocks, frames=2 * _PERIOD)
    skips, again = of_flat[_PERIOD : 2 * _PERIOD], of_flat[2 * _PERIOD :]
    if of_blocks[_PERIOD:] != skips or len(set(skips)) != _PERIOD:
        return None
    # The last byte is not compared: when it closes a slice, the encoder varies one bit there that no decoder reads.
    if any(packet[:-1] != later[:-1] for packet, later in zip(skips, again, strict=True)):
        return None
    return skips


def run_lengths(frames: int, longest: int | None = LONGEST_GOP) -> tuple[int, ...]:
    """How many frames each key frame carries, itself included: as even as can be, 2 or more, `longest` at most.

    longest : None for one key frame in all; only where `frames` is 1 does a key frame stand alone
    """
    runs = 1 if longest is None else -(-frames // longest)
    return tuple(frames // runs + (1 if run < frames % runs else 0) for run in range(runs))


def hold_packets(
    segment: Segment, frames: int, skips: tuple[bytes, ...] | None, longest: int | None = LONGEST_GOP
) -> tuple[bytes, ...]:
    """Packets for `frames` frames of one still.

    segment : the still encoded: one IDR picture where `skips` are to follow it, otherwise a run of LONGEST_GOP frames,
              which is repeated
    longest : frames from one IDR picture to the next, at most; None for a single one, which takes `skips`
    Returns : one packet a frame; each IDR picture starts a run of at least 2 frames, since the same IDR picture may not
              stand twice in a row. Only where `frames` is 1 does one stand alone.
    """
    packets: list[bytes] = []
    for length in run_lengths(frames, longest if skips is not None else LONGEST_GOP):
        if skips is None:
            packets.extend(segment.packets[:length])
        else:
            packets.append(segment.packets[0])
            packets.extend(skips[number % _PERIOD] for number in range(1, length))
    if len(packets) != frames:
        raise ValueError(f"a hold of {frames} frames cannot be made from {len(segment.packets)} packets")
    return tuple(packets)


def _two_pictures(options: EncoderOptions) -> tuple[Pixels, Pixels]:
    flat = np.full((options.height, options.width, 4), 255, dtype=np.uint8)
    blocks = flat.copy()
    blocks[: options.height // 2, : options.width // 3, :3] = (31, 41, 55)
    blocks[options.height // 3 :, options.width // 2 :, :3] = (201, 221, 232)
    return flat, blocks


def _packets(options: EncoderOptions, pixels: Pixels, *, frames: int) -> tuple[bytes, ...]:
    encoder = SegmentEncoder(options)
    frame = options.converted(pixels)
    for _ in range(frames):
        encoder.add_frame(frame)
    return encoder.finish().packets

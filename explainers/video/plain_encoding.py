"""The plain way: every frame of a clip through one encoder.

For an encoder whose segments cannot be laid end to end, such as one that reorders frames. Slow, since every frame of
every hold is encoded, and the pictures are encoded twice; but any encoder can do it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache

import av
import numpy as np
from av.packet import Packet
from av.video.frame import PictureType, VideoFrame
from av.video.stream import VideoStream

from .assembly import CodedFrame
from .encoder import EncoderOptions, SegmentEncoder
from .segment import Segment

__all__ = ["plainly_encoded", "segments_can_be_joined"]

_RUN = 4  # frames: enough for an encoder that looks ahead or reorders to do so


@cache
def segments_can_be_joined(options: EncoderOptions) -> bool:
    """Whether segments of this encoder show the same laid end to end, or one of them over and over, as each alone."""
    if options.opened_context().has_b_frames:
        return False
    first, second = _run(options, 40), _run(options, 200)
    alone = [*_planes(first), *_planes(first), *_planes(second)]
    joined = Segment(header=first.header, packets=first.packets * 2 + second.packets)
    return first.header == second.header and len(first.packets) == _RUN and _planes(joined) == alone


def plainly_encoded(options: EncoderOptions, runs: Iterable[tuple[Segment, tuple[int, ...]]]) -> Iterator[CodedFrame]:
    """Every frame of the clip, in the order in which a decoder needs them.

    runs : for each still or motion its segment, and how many frames each of its key frames carries. A segment with
           fewer pictures than that is a still, whose first picture is held
    """
    context = options.opened_context()
    count = 0
    for segment, lengths in runs:
        frames = sum(lengths)
        starts = {count + sum(lengths[:number]) for number in range(len(lengths))}
        pictures = _decoded(segment)
        for number in range(frames):
            picture = pictures[number] if len(pictures) == frames else pictures[0]
            picture.pts = count
            picture.time_base = Fraction(1, options.fps)
            picture.pict_type = PictureType.I if count in starts else PictureType.NONE
            count += 1
            yield from map(_coded, context.encode(picture))
    yield from map(_coded, context.encode(None))


def _coded(packet: Packet[VideoStream]) -> CodedFrame:
    return CodedFrame(packet=bytes(packet), is_idr=packet.is_keyframe, shown=packet.pts, decoded=packet.dts)


def _run(options: EncoderOptions, level: int) -> Segment:
    encoder = SegmentEncoder(options)
    for number in range(_RUN):
        pixels = np.full((options.height, options.width, 4), level, dtype=np.uint8)
        pixels[: options.height // 2, : options.width // 4 * (number + 1)] = 255 - level
        encoder.add(pixels)
    return encoder.finish()


def _decoded(segment: Segment) -> list[VideoFrame]:
    decoder = av.CodecContext.create("h264", "r")
    decoder.extradata = segment.header
    decoder.options = {"err_detect": "explode"}
    frames = [frame for packet in segment.packets for frame in decoder.decode(Packet(packet))]
    return [*frames, *decoder.decode(None)]


def _planes(segment: Segment) -> list[bytes]:
    try:
        return [b"".join(bytes(plane) for plane in frame.planes) for frame in _decoded(segment)]
    except av.FFmpegError:
        return []

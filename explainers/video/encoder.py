"""The one way pictures become H.264: options, level, colours, one packet a frame.

Every segment of a clip comes from these options, so that segments can be laid end to end without encoding anything
again. Constant quantiser, no adaptive quantisation, no B-frames, no look-ahead: a picture that does not move then costs
a few dozen bytes a frame and never changes after its first frame. Few kinds of blocks and no filter over their edges:
thin lines on flat cloth come out truer so, in less time. Pictures are (height, width, 4) uint8 arrays in RGBA order,
opaque; colours leave as BT.709 with limited range and are tagged so.

What was tried and dropped stands with its figures in `tests/bench/figures.md`.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import av
import numpy as np
from av.codec.context import Flags
from av.video.codeccontext import VideoCodecContext
from av.video.frame import PictureType, VideoFrame
from av.video.reformatter import Colorspace, VideoReformatter

from .changed_parts import PixelBox, can_be_told, tell_changed
from .segment import Segment

__all__ = ["EncoderOptions", "Pixels", "SegmentEncoder", "level_for"]

Pixels = np.ndarray[Any, np.dtype[np.uint8]]

# ITU-T H.264 Table A-1: level, macroblocks a second, macroblocks a frame.
_LEVELS = (
    ("2.2", 20_250, 1_620),
    ("3.0", 40_500, 1_620),
    ("3.1", 108_000, 3_600),
    ("3.2", 216_000, 5_120),
    ("4.0", 245_760, 8_192),
    ("4.2", 522_240, 8_704),
    ("5.0", 589_824, 22_080),
    ("5.1", 983_040, 36_864),
    ("5.2", 2_073_600, 36_864),
)

_BT709 = 1  # code point of BT.709 for primaries, transfer and matrix alike (ITU-T H.273)
_LIMITED = 1  # FFmpeg's number for limited range

_X264 = (
    "keyint=infinite:scenecut=0:bframes=0:stitchable=1:ref=1:weightp=0:aq-mode=0:mbtree=0"
    ":rc-lookahead=0:sync-lookahead=0:me=dia:subme=0:threads=1"
    ":analyse=none:no-8x8dct=1:no-deblock=1"
    ":ipratio=1.12:chroma-qp-offset=2"  # steps of the quantiser: key frames one finer, colour two coarser
)


def level_for(width: int, height: int, fps: int) -> str:
    """The lowest H.264 level whose macroblock limits hold the pictures; ValueError where none does."""
    per_frame = -(-width // 16) * -(-height // 16)
    for level, most_a_second, most_a_frame in _LEVELS:
        if per_frame <= most_a_frame and per_frame * fps <= most_a_second:
            return level
    raise ValueError(f"{width} x {height} at {fps} frames a second is more than any H.264 level in the table allows")


@dataclass(frozen=True, slots=True, kw_only=True)
class EncoderOptions:
    """Size, frame rate and quality of every picture of one clip."""

    width: int = 1920
    height: int = 1080
    fps: int = 30
    preset: str = "superfast"
    qp: int = 18
    x264: str = _X264

    def __post_init__(self) -> None:
        if self.width % 2 or self.height % 2:
            raise ValueError(f"{self.width} x {self.height}: yuv420p needs even sides")

    @property
    def level(self) -> str:
        """The H.264 level, such as "4.0"."""
        return level_for(self.width, self.height, self.fps)

    def settings(self) -> dict[str, str]:
        """What libx264 is told."""
        heeding = {"mb_info": "1"} if can_be_told() else {}
        return heeding | {
            "preset": self.preset,
            "qp": str(self.qp),
            "profile": "high",  # at most; without 8 x 8 transforms the stream is of Main
            "level": self.level,
            "forced-idr": "1",
            "x264-params": self.x264,
        }

    def apply_to(self, context: VideoCodecContext) -> None:
        """Set a libx264 context that is not yet open."""
        context.width, context.height, context.pix_fmt = self.width, self.height, "yuv420p"
        context.framerate = Fraction(self.fps)
        context.time_base = Fraction(1, self.fps)
        context.options = self.settings()
        context.flags |= Flags.global_header  # parameter sets once, in the file's header, not in every packet
        context.color_primaries = context.color_trc = context.colorspace = _BT709
        context.color_range = _LIMITED

    def opened_context(self) -> VideoCodecContext:
        """A new libx264 encoder."""
        context = av.CodecContext.create("libx264", "w")
        self.apply_to(context)
        context.open()
        return context

    def converted(self, pixels: Pixels) -> VideoFrame:
        """The picture in BT.709 yuv420p, limited range."""
        if pixels.shape != (self.height, self.width, 4):
            raise ValueError(f"a picture of shape {pixels.shape} does not fit {self.width} x {self.height} RGBA")
        return self.converted_part(pixels)

    def converted_part(self, pixels: Pixels, reformatter: VideoReformatter | None = None) -> VideoFrame:
        """A part of a picture in the same colours, of any even size; a view of a larger array is not copied.

        reformatter : one to use again and again, in one thread, which then need not be made for each part
        """
        if pixels.strides[1:] != (4, 1):
            pixels = np.ascontiguousarray(pixels)
        source = VideoFrame.from_numpy_buffer(pixels, format="rgba")
        # One thread: on a busy machine two take longer than one, since each picture waits for both.
        return (reformatter or VideoReformatter()).reformat(
            source,
            format="yuv420p",
            src_color_range="JPEG",
            dst_colorspace=Colorspace.ITU709,
            dst_color_range="MPEG",
            threads=1,
        )


class SegmentEncoder:
    """Encodes the frames of one segment; the first is an IDR picture, all others lean on the one before.

    key_frames : places at which an IDR picture stands, counted from 0; never two in a row, nor the last of several

    Two IDR pictures in a row must not have the same `idr_pic_id` (ITU-T H.264, 7.4.3). The encoder alternates 0 and 1,
    so for 1 a picture is encoded first and thrown away.
    """

    def __init__(self, options: EncoderOptions, *, idr_id: int = 0, key_frames: Collection[int] = (0,)) -> None:
        self._options = options
        self._key_frames = frozenset({0, *key_frames})
        self._context = options.opened_context()
        self._packets: list[bytes] = []
        self._count = 0
        self._thrown_away = idr_id

    def add(self, pixels: Pixels) -> None:
        """Encode the next frame."""
        self.add_frame(self._options.converted(pixels))

    def add_frame(self, frame: VideoFrame, changed: Sequence[PixelBox] | None = None) -> None:
        """Encode the next frame, already converted.

        changed : the only parts in which it may differ from the frame before, in pixels; None if that is not known
        """
        while self._count < self._thrown_away:
            self._encode(frame, None, idr=True)
        number = self._count - self._thrown_away
        self._encode(frame, changed if number > 0 else None, idr=number in self._key_frames)

    def finish(self) -> Segment:
        """The segment; nothing can be added afterwards."""
        self._packets.extend(bytes(packet) for packet in self._context.encode(None))
        packets = tuple(self._packets[self._thrown_away :])
        if len(self._packets) != self._count:
            raise RuntimeError(f"{self._count} frames went into the encoder, {len(self._packets)} packets came out")
        return Segment(header=bytes(self._context.extradata or b""), packets=packets)

    def _encode(self, frame: VideoFrame, changed: Sequence[PixelBox] | None, *, idr: bool) -> None:
        tell_changed(frame, changed)
        frame.pts = self._count
        frame.time_base = Fraction(1, self._options.fps)
        frame.pict_type = PictureType.I if idr else PictureType.NONE
        self._count += 1
        self._packets.extend(bytes(packet) for packet in self._context.encode(frame))

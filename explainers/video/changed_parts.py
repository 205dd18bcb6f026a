"""Where a picture differs from the one before, told to the encoder, which then looks at nothing else.

Most of a lesson's picture stands still while something moves, and finding that out block by block is a good part of
encoding it. libx264 takes the answer as "video hints" that lie beside a frame (FFmpeg's `AVVideoHint`, from FFmpeg 6.1
on). PyAV hands over whatever lies beside a frame but has no call to put hints there, so FFmpeg's own is called, at an
address that is found in the memory of PyAV's object. No version of PyAV promises where that stands. So it is switched
off: nothing is told unless the environment says EXPLAINERS_ENCODER_HINTS=1, and then only after all of it has been
tried, on a build of PyAV whose frames are known from the inside. Otherwise the encoder finds out by itself, which takes
it longer; a clip looks the same.

To allow a later PyAV: see in its `av/frame.pxd` that the pointer to the frame still comes first, raise
``_KNOWN_PYAV``, run `tests/video/test_changed_parts.py`.
"""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from typing import Any

import av
import numpy as np
from av.sidedata.sidedata import Type
from av.video.codeccontext import VideoCodecContext
from av.video.frame import PictureType, VideoFrame

__all__ = ["SWITCH", "PixelBox", "can_be_told", "tell_changed"]

PixelBox = tuple[int, int, int, int]  # left, top, right, bottom; right and bottom are the first beyond it

SWITCH = "EXPLAINERS_ENCODER_HINTS"  # in the environment: "1" to tell the encoder
_KNOWN_PYAV = 18  # whose frames hold the address of FFmpeg's right after the object's head and its table of methods
_CHANGED = 1  # FFmpeg's number for "the boxes have changed and all else has not"


class _Hint(ctypes.Structure):
    """FFmpeg's AVVideoHint."""

    _fields_ = (
        ("boxes", ctypes.c_size_t),
        ("first_box_at", ctypes.c_size_t),
        ("box_size", ctypes.c_size_t),
        ("kind", ctypes.c_int),
    )


class _Box(ctypes.Structure):
    """FFmpeg's AVVideoRect."""

    _fields_ = tuple((name, ctypes.c_uint32) for name in ("left", "top", "width", "height"))


def tell_changed(frame: VideoFrame, changed: Sequence[PixelBox] | None) -> None:
    """Lay beside a frame what has changed since the frame that the encoder was given before it.

    changed : the only parts in which it may differ; None where that is not known. What was told before is forgotten.
    """
    if can_be_told():
        _tell(frame, changed)


@cache
def can_be_told() -> bool:
    """Whether hints are wished for, and this build of PyAV, FFmpeg and x264 takes and heeds them."""
    if os.environ.get(SWITCH) != "1":
        return False
    if sys.implementation.name != "cpython" or av.__version__.split(".")[0] != str(_KNOWN_PYAV):
        return False
    if _ffmpeg() is None or getattr(Type, "VIDEO_HINT", None) is None:
        return False
    one, other = (_noise(seed) for seed in (1, 2))
    if not all(_address_is_right(frame) for frame in (one, other)):
        return False
    # Told that nothing has changed where all has, an encoder that heeds it writes next to nothing.
    return len(_second_packet(one, other, ())) < len(_second_packet(one, other, None)) // 4


def _tell(frame: VideoFrame, changed: Sequence[PixelBox] | None) -> None:
    ffmpeg, address = _ffmpeg(), _address(frame)
    kind = Type.VIDEO_HINT.value
    ffmpeg.av_frame_remove_side_data(address, kind)
    if changed is None:
        return
    # An empty list would be passed over; one pixel keeps one block from being taken for unmoved, which does no harm.
    boxes = list(changed) or [(0, 0, 1, 1)]
    hint = ffmpeg.av_video_hint_create_side_data(address, len(boxes))
    if not hint:
        raise MemoryError
    hint.contents.kind = _CHANGED
    first = ctypes.addressof(hint.contents) + hint.contents.first_box_at
    for number, (left, top, right, bottom) in enumerate(boxes):
        box = _Box.from_address(first + number * hint.contents.box_size)
        box.left, box.top, box.width, box.height = left, top, right - left, bottom - top


@cache
def _ffmpeg() -> Any:
    """The FFmpeg that PyAV itself has loaded; None where it has no hints."""
    try:
        # Looked for in what this module is linked with. The lock of the interpreter is kept: these calls are short.
        library = ctypes.PyDLL(sys.modules[VideoFrame.__module__].__file__)
        create, remove = library.av_video_hint_create_side_data, library.av_frame_remove_side_data
    except (AttributeError, OSError):
        return None
    create.restype, create.argtypes = ctypes.POINTER(_Hint), (ctypes.c_void_p, ctypes.c_size_t)
    remove.restype, remove.argtypes = None, (ctypes.c_void_p, ctypes.c_int)
    return library


def _address(frame: VideoFrame) -> int:
    """Of FFmpeg's AVFrame."""
    place = id(frame) + object.__basicsize__ + ctypes.sizeof(ctypes.c_void_p)
    return ctypes.c_void_p.from_address(place).value or 0


def _address_is_right(frame: VideoFrame) -> bool:
    """Whether FFmpeg's frame is there: it opens with the addresses of the planes."""
    address = _address(frame)
    if not address:
        return False
    return list((ctypes.c_void_p * 3).from_address(address)) == [plane.buffer_ptr for plane in frame.planes]


def _noise(seed: int) -> VideoFrame:
    frame, values = VideoFrame(64, 64, "yuv420p"), np.random.default_rng(seed)
    for plane in frame.planes:
        levels = np.frombuffer(memoryview(plane), dtype=np.uint8)
        levels[:] = values.integers(16, 236, levels.shape, dtype=np.uint8)
    return frame


def _second_packet(first: VideoFrame, second: VideoFrame, changed: Sequence[PixelBox] | None) -> bytes:
    context: VideoCodecContext = av.CodecContext.create("libx264", "w")
    context.width, context.height, context.pix_fmt = 64, 64, "yuv420p"
    context.time_base = Fraction(1, 30)
    context.options = {
        "preset": "superfast",
        "qp": "18",
        "mb_info": "1",
        "x264-params": "bframes=0:scenecut=0:threads=1",
    }
    packets = []
    for number, (frame, told) in enumerate(((first, None), (second, changed))):
        frame.pts = number
        frame.pict_type = PictureType.NONE if number else PictureType.I
        _tell(frame, told)
        packets += [bytes(packet) for packet in context.encode(frame)]
    packets += [bytes(packet) for packet in context.encode(None)]
    return packets[1]

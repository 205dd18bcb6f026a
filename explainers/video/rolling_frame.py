"""A picture kept in the encoder's colours, converted again only where it changes.

Colour is sampled at every other pixel in both directions from a few pixels around, so a part is converted with a margin
and the margin thrown away: what is kept is, to the last bit, what converting the whole picture gives.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from itertools import islice
from typing import Any

import numpy as np
from av.video.frame import VideoFrame

from .encoder import EncoderOptions, Pixels

__all__ = ["PixelBox", "RollingFrame", "empty_frame"]

PixelBox = tuple[int, int, int, int]  # left, top, right, bottom; right and bottom are the first beyond it
Plane = np.ndarray[Any, np.dtype[np.uint8]]

_REACH = 4  # pixels that a changed one may tint beside it; even
_MARGIN = 8  # pixels around a part without which its colours would come out otherwise; even
_REMEMBERED = 64  # pictures whose changes are kept


class RollingFrame:
    """The picture last seen, as yuv420p."""

    def __init__(self, options: EncoderOptions) -> None:
        self._options = options
        self._frame = empty_frame(options)
        self._planes = _planes(self._frame)
        self._seen = False
        self._count = 0  # of pictures taken
        self._changes: deque[tuple[PixelBox, ...]] = deque(maxlen=_REMEMBERED)  # of the last of them
        self._copied: dict[VideoFrame, int] = {}  # how many were taken before the copy

    def update(self, pixels: Pixels, changed: Iterable[PixelBox]) -> None:
        """Take the next picture; `changed` are the only parts in which it may differ from the one before."""
        width, height = self._options.width, self._options.height
        whole = (0, 0, width, height)
        boxes = tuple(_grown(box, _REACH, width, height) for box in (changed if self._seen else (whole,)))
        for left, top, right, bottom in boxes:
            from_left, from_top, to_right, to_bottom = _grown((left, top, right, bottom), _MARGIN, width, height)
            part = _planes(self._options.converted_part(pixels[from_top:to_bottom, from_left:to_right]))
            for plane, fresh, size in zip(self._planes, part, (1, 2, 2), strict=True):
                plane[top // size : bottom // size, left // size : right // size] = fresh[
                    (top - from_top) // size : (bottom - from_top) // size,
                    (left - from_left) // size : (right - from_left) // size,
                ]
        self._seen = True
        self._count += 1
        self._changes.append(boxes)

    def copy_to(self, frame: VideoFrame) -> None:
        """Make another frame, one of `empty_frame`, show what this one does; they share nothing.

        Nobody else may write to that frame: it is brought up to date from what it showed when it was last copied to.
        """
        behind = self._count - self._copied.get(frame, self._count - _REMEMBERED - 1)
        self._copied[frame] = self._count
        width, height = self._options.width, self._options.height
        boxes: set[PixelBox] = {(0, 0, width, height)}
        if behind <= len(self._changes):
            told = islice(self._changes, len(self._changes) - behind, None)
            changed = {box for picture in told for box in picture}
            if sum((right - left) * (bottom - top) for left, top, right, bottom in changed) < width * height:
                boxes = changed
        others = _planes(frame)
        for left, top, right, bottom in boxes:
            for mine, other, size in zip(self._planes, others, (1, 2, 2), strict=True):
                part = np.s_[top // size : bottom // size, left // size : right // size]
                other[part] = mine[part]


def empty_frame(options: EncoderOptions) -> VideoFrame:
    """A frame of the encoder's size and colours, to copy pictures to."""
    frame = VideoFrame(options.width, options.height, "yuv420p")
    frame.colorspace, frame.color_range = 1, 1  # BT.709, limited: as `converted` tags its frames
    return frame


def _grown(box: PixelBox, by: int, width: int, height: int) -> PixelBox:
    """A box grown on all sides, to even pixels, within the picture."""
    left, top, right, bottom = box
    return (
        max(0, (left - by) // 2 * 2),
        max(0, (top - by) // 2 * 2),
        min(width, -((-right - by) // 2) * 2),
        min(height, -((-bottom - by) // 2) * 2),
    )


def _planes(frame: VideoFrame) -> list[Plane]:
    return [
        np.frombuffer(memoryview(plane), dtype=np.uint8).reshape(plane.height, plane.line_size)[:, : plane.width]
        for plane in frame.planes
    ]

"""A picture kept in the encoder's colours, converted again only where it changes.

Colour is sampled at every other pixel in both directions from a few pixels around, so a part is converted with a margin
and the margin thrown away: what is kept is, to the last bit, what converting the whole picture gives.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from av.video.frame import VideoFrame
from av.video.reformatter import VideoReformatter

from .changed_parts import PixelBox
from .encoder import EncoderOptions, Pixels

__all__ = ["FramePart", "PixelBox", "Plane", "RollingFrame", "empty_frame", "planes_of"]

Plane = np.ndarray[Any, np.dtype[np.uint8]]

_REACH = 4  # pixels that a changed one may tint beside it; even
_MARGIN = 8  # pixels around a part without which its colours would come out otherwise; even
_STEPS = (1, 2, 2)  # pixels from one value of a plane to the next: luma, then the two of colour


@dataclass(frozen=True, slots=True)
class FramePart:
    """A part of a picture in the encoder's colours, that nobody else writes to."""

    box: PixelBox  # its sides are even
    planes: tuple[Plane, ...]

    @property
    def size(self) -> int:
        """Bytes, its margin left out."""
        return sum(plane.size for plane in self.planes)

    def lay_on(self, planes: Sequence[Plane]) -> None:
        """Put it where it belongs on the planes of a picture."""
        left, top, right, bottom = self.box
        for mine, other, step in zip(self.planes, planes, _STEPS, strict=True):
            other[top // step : bottom // step, left // step : right // step] = mine


class RollingFrame:
    """The picture last seen, as yuv420p."""

    def __init__(self, options: EncoderOptions) -> None:
        self._options = options
        self._whole = (0, 0, options.width, options.height)
        self._planes: tuple[Plane, ...] | None = None
        self._reformatter = VideoReformatter()

    def update(self, pixels: Pixels, changed: Iterable[PixelBox]) -> tuple[FramePart, ...]:
        """Take the next picture; what of it may differ from the one before is handed back.

        changed : the only parts in which it may differ, not overlapping; of the first picture all is new
        """
        if self._planes is None:
            part = self._converted(pixels, self._whole)
            self._planes = tuple(plane.copy() for plane in part.planes)
            return (part,)
        _, _, width, height = self._whole
        parts = tuple(self._converted(pixels, _grown(box, _REACH, width, height)) for box in changed)
        for part in parts:
            part.lay_on(self._planes)
        return parts

    def whole(self) -> FramePart:
        """A copy of the whole picture."""
        if self._planes is None:
            raise ValueError("no picture has been taken yet")
        return FramePart(box=self._whole, planes=tuple(plane.copy() for plane in self._planes))

    def _converted(self, pixels: Pixels, box: PixelBox) -> FramePart:
        left, top, right, bottom = box
        from_left, from_top, to_right, to_bottom = _grown(box, _MARGIN, self._options.width, self._options.height)
        around = pixels[from_top:to_bottom, from_left:to_right]
        converted = planes_of(self._options.converted_part(around, self._reformatter))
        inner = tuple(
            plane[
                (top - from_top) // step : (bottom - from_top) // step,
                (left - from_left) // step : (right - from_left) // step,
            ]
            for plane, step in zip(converted, _STEPS, strict=True)
        )
        return FramePart(box=box, planes=inner)


def empty_frame(options: EncoderOptions) -> VideoFrame:
    """A frame of the encoder's size and colours, to lay pictures on."""
    frame = VideoFrame(options.width, options.height, "yuv420p")
    frame.colorspace, frame.color_range = 1, 1  # BT.709, limited: as `converted` tags its frames
    return frame


def planes_of(frame: VideoFrame) -> tuple[Plane, ...]:
    """Its planes, to be read and written; they keep the frame."""
    return tuple(
        np.frombuffer(memoryview(plane), dtype=np.uint8).reshape(plane.height, plane.line_size)[:, : plane.width]
        for plane in frame.planes
    )


def _grown(box: PixelBox, by: int, width: int, height: int) -> PixelBox:
    """A box grown on all sides, to even pixels, within the picture."""
    left, top, right, bottom = box
    return (
        max(0, (left - by) // 2 * 2),
        max(0, (top - by) // 2 * 2),
        min(width, -((-right - by) // 2) * 2),
        min(height, -((-bottom - by) // 2) * 2),
    )

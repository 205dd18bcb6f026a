"""The library that reads pictures, OpenCV, where it is installed; and a picture unpacked by it.

Nobody needs it but who traces pictures, so it is an extra of the package and one clear error where it is missing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from ..errors import OutputError
from .picture_file import check_picture
from .sketch import Refused

__all__ = ["INSTALL", "Picture", "opencv", "picture_of", "png_of"]

INSTALL = "pip install 'explainers[trace]'"
WORKED_SIDE = 2000  # pixels: a sheet is read no larger
_SHRUNK = ((8, "IMREAD_REDUCED_COLOR_8"), (4, "IMREAD_REDUCED_COLOR_4"), (2, "IMREAD_REDUCED_COLOR_2"))

Pixels = Any  # an array of OpenCV's


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as a person sees it, the camera's turn undone, no larger than it is read."""

    pixels: Pixels  # height x width x 3, 8 bits, blue first
    size: tuple[int, int]  # width and height of the whole picture, turned upright
    scale: float  # pixels of the whole picture to one of these


def opencv() -> Any:
    """The library.

    Raises : OutputError where it is not installed
    """
    try:
        import cv2
    except ImportError as error:
        message = "pictures are read by OpenCV, which is not installed"
        raise OutputError(f"{message}. To mend it: {INSTALL}, or pip install opencv-python-headless.") from error
    return cv2


def picture_of(data: bytes) -> Picture:
    """A picture unpacked, its camera's turn undone.

    Raises : Refused where it is none, too large, cut short or damaged; OutputError where the library is missing
    """
    wide, high = check_picture(data)
    cv2 = opencv()
    flag = cv2.IMREAD_COLOR
    if data[:2] == b"\xff\xd8":  # a JPEG can be unpacked smaller, with a fraction of the memory
        flag = next((getattr(cv2, name) for by, name in _SHRUNK if max(wide, high) // by >= WORKED_SIDE), flag)
    try:
        pixels = cv2.imdecode(np.frombuffer(data, dtype=np.uint8), flag)
    except (cv2.error, MemoryError, ValueError):
        pixels = None
    if pixels is None or pixels.ndim != 3:
        raise Refused("the picture is damaged", "send or save the picture again")
    lying = (pixels.shape[1] > pixels.shape[0]) == (wide > high) or wide == high
    size = (wide, high) if lying else (high, wide)
    most = max(pixels.shape[:2])
    if most > WORKED_SIDE:
        by = WORKED_SIDE / most
        new = (max(1, round(pixels.shape[1] * by)), max(1, round(pixels.shape[0] * by)))
        pixels = cv2.resize(pixels, new, interpolation=cv2.INTER_AREA)
    return Picture(pixels, size, size[0] / pixels.shape[1])


def png_of(pixels: Pixels) -> bytes:
    """A picture packed as a PNG."""
    _, packed = opencv().imencode(".png", pixels)
    return bytes(packed.tobytes())

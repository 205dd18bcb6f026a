"""PNG files of opaque pictures (ISO/IEC 15948): each row stored as its difference to the row above."""

from __future__ import annotations

import struct
import zlib
from typing import Any

import numpy as np

__all__ = ["png_bytes"]

_UP = 2  # the filter that stores differences to the row above
_TRUECOLOUR = 2
_EFFORT = 6


def png_bytes(pixels: np.ndarray[Any, np.dtype[np.uint8]]) -> bytes:
    """A (height, width, 3 or more) array, red, green, blue first, as a PNG file."""
    height, width = pixels.shape[:2]
    colours = pixels[:, :, :3].reshape(height, width * 3)
    rows = np.empty((height, 1 + width * 3), dtype=np.uint8)
    rows[:, 0] = _UP
    rows[0, 1:] = colours[0]
    np.subtract(colours[1:], colours[:-1], out=rows[1:, 1:])  # modulo 256, as the filter has it
    header = struct.pack(">IIBBBBB", width, height, 8, _TRUECOLOUR, 0, 0, 0)
    return b"".join(
        (
            b"\x89PNG\r\n\x1a\n",
            _chunk(b"IHDR", header),
            _chunk(b"IDAT", zlib.compress(rows.tobytes(), _EFFORT)),
            _chunk(b"IEND", b""),
        )
    )


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

"""What a PNG or a JPEG says of itself, before a single pixel is unpacked: its kind, its size, whether it is whole."""

from __future__ import annotations

import struct
import zlib

from .sketch import Refused

__all__ = ["MAX_BYTES", "MAX_PIXELS", "check_picture"]

MAX_BYTES = 30_000_000
MAX_PIXELS = 60_000_000  # a telephone's camera takes up to 50 million
LEAST_SIDE = 100
MAX_SIDE = 20_000

_PNG = b"\x89PNG\r\n\x1a\n"
_JPEG = b"\xff\xd8\xff"
_AGAIN = "send or save the picture again"
_AT_ONCE = 1_000_000  # bytes
_MAX_PARTS = 20_000
_PLAIN = 0xC0, 0xC1, 0xC2  # frames of baseline, extended and progressive pictures
_FRAMES = (*range(0xC0, 0xC4), *range(0xC5, 0xC8), *range(0xC9, 0xCC), *range(0xCD, 0xD0))
_ALONE = (0x01, *range(0xD0, 0xD8))  # markers that no length follows


def check_picture(data: bytes) -> tuple[int, int]:
    """Width and height of a whole picture, as it is stored.

    Raises : Refused for any other file, for one that is cut short, and for one that is too large
    """
    if len(data) > MAX_BYTES:
        raise Refused(f"the picture has more than {MAX_BYTES:,} bytes", "save it smaller, as a JPEG")
    if data.startswith(_PNG):
        size = _png(data)
    elif data.startswith(_JPEG):
        size = _jpeg(data)
    else:
        raise Refused("the file is neither a PNG nor a JPEG picture", "save the picture as one of the two")
    wide, high = size
    if wide * high > MAX_PIXELS or max(size) > MAX_SIDE:
        raise Refused(f"the picture is {wide} x {high} pixels large, which is too much", "save it smaller")
    if min(size) < LEAST_SIDE:
        raise Refused(f"the picture is {wide} x {high} pixels large, too small to be read", "take it larger")
    return size


def _png(data: bytes) -> tuple[int, int]:
    size, at, packed = (0, 0), len(_PNG), list[memoryview]()
    head = b""
    for _ in range(_MAX_PARTS):
        if at + 12 > len(data):
            raise Refused("the picture is cut short", _AGAIN)
        length, kind = struct.unpack(">I4s", data[at : at + 8])
        end = at + 12 + length
        if end > len(data):
            raise Refused("the picture is cut short", _AGAIN)
        if zlib.crc32(memoryview(data)[at + 4 : end - 4]) != struct.unpack(">I", data[end - 4 : end])[0]:
            raise Refused("the picture is damaged", _AGAIN)
        if at == len(_PNG):
            if kind != b"IHDR" or length != 13:
                raise Refused("the picture is damaged", _AGAIN)
            head = data[at + 8 : at + 21]
            size = struct.unpack(">II", head[:8])
        if kind == b"IDAT":
            packed.append(memoryview(data)[at + 8 : end - 4])
        if kind == b"IEND":
            if 0 < size[0] * size[1] <= MAX_PIXELS:
                _check_pixels(head, packed)
            return size
        at = end
    raise Refused(f"the picture has more than {_MAX_PARTS:,} parts", _AGAIN)


def _check_pixels(head: bytes, packed: list[memoryview]) -> None:
    """Whether what is packed comes to as many bytes as the head says; unpacked a little at a time, none of it kept."""
    wide, high, bits, colour, _, _, interlaced = struct.unpack(">IIBBBBB", head)
    per_pixel = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}.get(colour)
    if per_pixel is None or bits not in (1, 2, 4, 8, 16):
        raise Refused("the picture is damaged", _AGAIN)
    due = high * (1 + (wide * per_pixel * bits + 7) // 8)
    most = 2 * due + 10_000 if interlaced else due  # seven passes have rows of their own
    count, unpacking = 0, zlib.decompressobj()
    try:
        for part in packed:
            left: bytes | memoryview = part
            while left and count <= most:
                count += len(unpacking.decompress(left, _AT_ONCE))
                left = unpacking.unconsumed_tail
    except zlib.error as error:
        raise Refused("the picture is damaged", _AGAIN) from error
    if count > most or (count < due and not interlaced) or not unpacking.eof:
        raise Refused("the picture is damaged", _AGAIN)


def _jpeg(data: bytes) -> tuple[int, int]:
    at, size = 2, None
    for _ in range(_MAX_PARTS):
        while at + 1 < len(data) and data[at] == 0xFF and data[at + 1] == 0xFF:
            at += 1
        if at + 4 > len(data):
            raise Refused("the picture is cut short", _AGAIN)
        if data[at] != 0xFF:
            raise Refused("the picture is damaged", _AGAIN)
        marker = data[at + 1]
        if marker in _ALONE:
            at += 2
            continue
        if marker == 0xD9:
            break
        length = struct.unpack(">H", data[at + 2 : at + 4])[0]
        if length < 2 or at + 2 + length > len(data):
            raise Refused("the picture is cut short" if length >= 2 else "the picture is damaged", _AGAIN)
        if marker in _FRAMES:
            if size is not None or marker not in _PLAIN or length < 8:
                raise Refused(
                    "the picture is a JPEG of an unusual kind, or damaged", "save it as a plain JPEG or a PNG"
                )
            high, wide = struct.unpack(">HH", data[at + 5 : at + 9])
            size = (wide, high)
        if marker == 0xDA:  # from here on pixels: the end of the picture must come
            if b"\xff\xd9" not in data[at:]:
                raise Refused("the picture is cut short", _AGAIN)
            break
        at += 2 + length
    if size is None:
        raise Refused("the picture is damaged", _AGAIN)
    return size

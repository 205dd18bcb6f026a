"""Encoded frames of one span of a clip, on disk between the process that draws and the one that assembles.

A file holds a magic line, the parameter sets, then one packet a frame; each of these byte strings is preceded by its
length as four bytes, most significant first.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass
from pathlib import Path

__all__ = ["Segment", "read_segment", "write_segment"]

_MAGIC = b"explainers segment 1\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """H.264 packets, one a frame, that can be decoded on their own: the first is an IDR picture."""

    header: bytes  # SPS and PPS, in Annex B form
    packets: tuple[bytes, ...]


def write_segment(path: Path, segment: Segment) -> None:
    """Write a segment to a file that its reader waits for: written in full, then renamed."""
    unfinished = path.with_suffix(".part")
    with unfinished.open("wb") as file:
        file.write(_MAGIC)
        for chunk in (segment.header, *segment.packets):
            file.write(struct.pack(">I", len(chunk)))
            file.write(chunk)
    unfinished.replace(path)


def read_segment(path: Path) -> Segment:
    """Read a segment; ValueError for a file that is not one, or not whole."""
    data = path.read_bytes()
    if not data.startswith(_MAGIC):
        raise ValueError(f"{path.name} holds no segment")
    chunks: list[bytes] = []
    place = len(_MAGIC)
    while place < len(data):
        start = place + 4
        place = start + int.from_bytes(data[place:start], "big")
        if start > len(data) or place > len(data):
            raise ValueError(f"{path.name} ends in the middle of a packet")
        chunks.append(data[start:place])
    if len(chunks) < 2:
        raise ValueError(f"{path.name} holds no frame")
    return Segment(header=chunks[0], packets=tuple(chunks[1:]))

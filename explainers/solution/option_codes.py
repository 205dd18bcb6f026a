"""Short codes of outlines, for step ids: tied to what an option looks like, never to its place in the file.

A code does not change when an option is turned, scaled, shifted or moved to another place in the list, nor when others
are added. It says nothing of whether the option is right.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Ring
from ..geometry.rings import centroid, interior_angles_deg, sides

__all__ = ["option_codes"]

LETTERS = "0123456789bcdfghjkmnpqrstvwxyz"  # no vowels: no word can come of it
# Grains are counted from an odd offset: lengths such as 1/8 would else lie on the border between two of them.
OFFSET = 0.3171


def option_codes(outlines: Sequence[Outline], names: Sequence[str | None]) -> tuple[str, ...]:
    """The name of each option that has one, a code of its outline for the others; no two alike."""
    codes: list[str] = []
    for outline, name in zip(outlines, names, strict=True):
        digits = _digits(outline)
        code = name or next((f"k{digits[:n]}" for n in range(4, 20) if f"k{digits[:n]}" not in codes), "")
        repeat = 2
        while not code or code in codes:  # the same outline twice: an item that is not sound, but must still be told of
            code = f"k{digits[:4]}-{repeat}"
            repeat += 1
        codes.append(code)
    return tuple(codes)


def _digits(outline: Outline) -> str:
    scale = math.sqrt(outline.area)
    middle = centroid(outline.exterior)
    rings = [_walk(outline.exterior, scale)]
    rings += sorted((_grain(math.dist(centroid(hole), middle) / scale), *_walk(hole, scale)) for hole in outline.holes)
    number = int.from_bytes(hashlib.sha256(repr(rings).encode()).digest()[:20], "big")
    digits = ""
    while number:
        number, digit = divmod(number, len(LETTERS))
        digits += LETTERS[digit]
    return digits


def _walk(ring: Ring, scale: float) -> tuple[int, ...]:
    """Lengths and angles round the ring, from the corner that makes the sequence come first."""
    steps = [
        (_grain(math.dist(*side) / scale), _grain(angle / 100.0))
        for side, angle in zip(sides(ring), interior_angles_deg(ring), strict=True)
    ]
    first = min(tuple(steps[i:] + steps[:i]) for i in range(len(steps)))
    return tuple(number for step in first for number in step)


def _grain(ratio: float) -> int:
    return math.floor(ratio * 100.0 + OFFSET)

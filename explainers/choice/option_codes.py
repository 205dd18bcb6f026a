"""Short codes of options, for step ids: tied to what an option is, never to its place in the file.

The code of an option drawn by hand comes of its outline; that of one made from the result, of how it is made, since its
outline changes with every piece. A code does not change when an option is turned, scaled, shifted or moved to another
place in the list, nor when pieces or other options are added. It says nothing of whether the option is right: it is
another one in every item.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Ring
from ..geometry.rings import centroid, interior_angles_deg, sides
from .question import Option, Question

__all__ = ["option_codes"]

LETTERS = "0123456789bcdfghjkmnpqrstvwxyz"  # no vowels: no word can come of it
# Grains are counted from an odd offset: lengths such as 1/8 would else lie on the border between two of them.
OFFSET = 0.3171


def option_codes(item: Question, outlines: Sequence[Outline]) -> tuple[str, ...]:
    """The name of each option that has one, a code for the others; no two alike.

    outlines : of the item's options, in their own coordinates
    """
    codes: list[str] = []
    for option, outline in zip(item.options, outlines, strict=True):
        digits = _digits(_recipe(item.name, option) if option.corners is None else _look(outline))
        code = option.name or next((f"k{digits[:n]}" for n in range(4, 20) if f"k{digits[:n]}" not in codes), "")
        repeat = 2
        while not code or code in codes:  # the same outline twice: an item that is not sound, but must still be told of
            code = f"k{digits[:4]}-{repeat}"
            repeat += 1
        codes.append(code)
    return tuple(codes)


def _recipe(item_name: str, option: Option) -> object:
    # The item's name makes the right option's code another one in each item: nobody can learn to know it.
    return item_name, option.slip, option.slip_subject


def _look(outline: Outline) -> object:
    scale = math.sqrt(outline.area)
    middle = centroid(outline.exterior)
    rings = [_walk(outline.exterior, scale)]
    rings += sorted((_grain(math.dist(centroid(hole), middle) / scale), *_walk(hole, scale)) for hole in outline.holes)
    return rings


def _digits(of: object) -> str:
    number = int.from_bytes(hashlib.sha256(repr(of).encode()).digest()[:20], "big")
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

"""Items of as many corners as an outline may have, with options drawn by hand: for figures of time and memory."""

from __future__ import annotations

import cmath
import math
import random
from collections.abc import Callable

from explainers.item.outline_reader import outline_yaml

__all__ = ["KINDS", "jagged_item"]

Corners = list[complex]


def _jagged(count: int, rng: random.Random) -> Corners:
    """A round patch torn all round: no two corners alike."""
    radii = [10.0, 10.0, *(rng.uniform(7.0, 10.0) for _ in range(count - 2))]
    return [cmath.rect(radius, 2 * math.pi * i / count) for i, radius in enumerate(radii)]


def _cogged(count: int, rng: random.Random) -> Corners:
    """A round patch with teeth that are all alike, so that it nearly looks the same in many turned positions."""
    return [cmath.rect(10.0 if i % 2 else 9.0, 2 * math.pi * i / count) for i in range(count)]


def _combed(count: int, rng: random.Random) -> Corners:
    """A long strip with long teeth: every side stands above many others."""
    teeth = (count - 2) // 2
    saw = [
        complex(0.2 * (i // 2 + i % 2 * 0.5), 6.0 if i % 2 else 1.0 + rng.uniform(0.0, 0.5)) for i in range(teeth * 2)
    ]
    width = saw[-1].real
    return [
        complex(0.0, 0.0),
        complex(width + 0.1 * (count % 2), 0.0),
        *([complex(width + 0.1, 0.5)] * (count % 2)),
        *saw[::-1],
    ]


KINDS: dict[str, Callable[[int, random.Random], Corners]] = {"jagged": _jagged, "cogged": _cogged, "combed": _combed}


def jagged_item(corners: int, *, kind: str = "jagged", made: bool = False, seed: int = 1) -> str:
    """The text of an item of one piece whose result has so many corners, and five options with as many.

    The options: the result turned, its mirror image, one with a corner moved, one with a tenth of them moved, and
    another outline of the same kind.
    made : whether the options are left to be made
    """
    rng = random.Random(seed)
    base = KINDS[kind](corners - 1, rng)
    start, end = base[0], base[1]
    apex = start + (0.3 - 0.3j) * (end - start)  # outside: the base runs anticlockwise
    length = abs(end - start)
    piece = [0j, complex(length, 0.0), complex(0.7 * length, 0.3 * length)]
    result = [base[0], apex, *base[1:]]
    other = KINDS[kind](corners, rng)
    options = [
        _turned(result, 40.0),
        _turned([-z.conjugate() for z in reversed(result)], -75.0),
        _turned(_moved(result, [corners // 3], rng), 130.0),
        _turned(_moved(result, range(0, corners, 10), rng), 10.0),
        _turned(other, 200.0),
    ]
    lines = ["item: torn-patch", "base:", *_outline(base, "  "), "pieces:", "  - piece: flag", "    does: join"]
    side = f"[{_point(start)}, {_point(end)}]"
    own = f"[{_point(piece[0])}, {_point(piece[1])}]"
    lines += [*_outline(piece, "    "), f"    side: {own}", f"    meets: {side}", "    mark: K", "    turned: 30"]
    if made:
        return "\n".join([*lines, "options: {make: 4, seed: 7}", ""])
    lines.append("options:")
    for option in options:
        first, *rest = _outline(option, "    ")
        lines += [f"  - {first.lstrip()}", *rest]
    return "\n".join([*lines, ""])


def _turned(corners: Corners, degrees: float) -> Corners:
    return [z * cmath.rect(1.0, math.radians(degrees)) for z in corners]


def _moved(corners: Corners, which: range | list[int], rng: random.Random) -> Corners:
    """Some corners drawn in a little towards the middle of those beside them."""
    moved = list(corners)
    for i in which:
        between = (corners[i - 1] + corners[(i + 1) % len(corners)]) / 2
        moved[i] += (between - corners[i]) * rng.uniform(0.05, 0.15)
    return moved


def _outline(corners: Corners, indent: str) -> list[str]:
    return outline_yaml(tuple((round(z.real, 4), round(z.imag, 4)) for z in corners), (), indent=indent)


def _point(z: complex) -> str:
    return f"[{round(z.real, 4)}, {round(z.imag, 4)}]"

"""Rows of numbers thinned out to the keys between which straight lines will do."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...drawing.svg import Element

__all__ = ["Keys", "kept_keys", "path_numbers", "same_build"]

Keys = Sequence[Sequence[float]]

_NUMBER = re.compile(r"-?(?:\d+(?:\.\d*)?|\.\d+)")


def kept_keys(rows: Keys, off: Sequence[float]) -> list[int]:
    """Which rows must be kept, so that each other one is found between its kept neighbours.

    rows : one or more, each of as many numbers as `off`
    off  : how far each number may be from where a straight line puts it
    """
    kept = [0]
    last = len(rows) - 1
    while kept[-1] < last:
        start = kept[-1]
        end = start + 1
        while end < last and _straight(rows, start, end + 1, off):
            end += 1
        kept.append(end)
    if len(kept) == 2 and all(abs(a - b) <= far for a, b, far in zip(rows[0], rows[-1], off, strict=True)):
        return [0]
    return kept


def path_numbers(path: str) -> list[float]:
    """The numbers of a path in order."""
    return [float(number) for number in _NUMBER.findall(path)]


def same_build(drawn: Sequence[Sequence[Element]]) -> bool:
    """Whether rows of paths differ in nothing but the numbers in them."""
    builds = {repr([(tag, {**own, "d": _NUMBER.sub("#", own.get("d", ""))}) for tag, own in row]) for row in drawn}
    return len(builds) == 1 and all(tag == "path" for row in drawn for tag, _ in row)


def _straight(rows: Keys, start: int, end: int, off: Sequence[float]) -> bool:
    for look in range(start + 1, end):
        part = (look - start) / (end - start)
        for a, b, value, far in zip(rows[start], rows[end], rows[look], off, strict=True):
            if abs(a + part * (b - a) - value) > far:
                return False
    return True

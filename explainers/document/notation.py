"""How numbers, points and names are written in a message to a teacher."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from ..geometry.rigid_motion import Point, Side

__all__ = ["listed", "nearest", "shown", "shown_lengths", "shown_pair", "shown_point", "typed_pair"]

_MOST_DIGITS = 1e12  # whole numbers up to here are written out


def shown(number: float) -> str:
    """A number as a teacher would type it."""
    if number == round(number) and abs(number) < _MOST_DIGITS:
        return str(round(number))
    return f"{number:.6g}"


def shown_lengths(one: float, other: float) -> tuple[str, str]:
    """Two lengths with as many digits as it takes to see that they differ."""
    for digits in range(4, 16):
        texts = f"{one:.{digits}g}", f"{other:.{digits}g}"
        if texts[0] != texts[1]:
            return texts
    return shown(one), shown(other)


def shown_point(point: Point) -> str:
    """A point in a sentence, such as (4, 0)."""
    return f"({shown(point[0])}, {shown(point[1])})"


def shown_pair(pair: Side) -> str:
    """A side in a sentence, such as (4, 0) to (4, 2)."""
    return f"{shown_point(pair[0])} to {shown_point(pair[1])}"


def typed_pair(pair: Sequence[Point]) -> str:
    """A side as it is typed in a file, such as [[4, 0], [4, 2]]."""
    return "[" + ", ".join(f"[{shown(x)}, {shown(y)}]" for x, y in pair) + "]"


def listed(names: Iterable[str], last: str = "or") -> str:
    """a, b or c."""
    *start, end = names
    return f"{', '.join(start)} {last} {end}" if start else end


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like a misspelt one; None when none is near."""
    matches = get_close_matches(word.strip().lower().replace("_", "-"), list(known), n=1, cutoff=0.6)
    return matches[0] if matches else None

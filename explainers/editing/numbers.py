"""Numbers as they are written when they come from a drawing: short, and near enough for what a teacher meant.

A number that is typed on purpose comes as a text and stays as it is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..document.fields import MAX_NUMBER, is_plain_number
from ..document.text_places import CannotEdit
from ..document.yaml_text import angle_yaml, number_yaml

__all__ = ["Coordinate", "TypedPoint", "decimals_short", "number_text", "point_text", "ring_values", "value_of"]

Coordinate = float | str
TypedPoint = tuple[Coordinate, Coordinate]

# Of the larger extent: an eighth of the authoring tolerance at most is lost by leaving out what is smaller.
_FINE = 5e-4
_MOST_DECIMALS = 6


def decimals_short(extent: float) -> int:
    """As many decimals as it takes to write a length well within what counts as equal, of an outline of some extent."""
    if not extent > 0.0:
        return 3
    return min(_MOST_DECIMALS, max(0, math.ceil(-math.log10(_FINE * extent) - 1e-9)))


def number_text(number: Coordinate, decimals: int | None = None) -> str:
    """A number as it is written; to six decimals where nothing says how many.

    Raises : CannotEdit for one that no file may hold
    """
    value = value_of(number)
    if isinstance(number, str):
        return number
    return angle_yaml(value) if decimals is None else number_yaml(value, decimals)


def point_text(point: TypedPoint, decimals: int) -> str:
    """A point in brackets."""
    return f"[{number_text(point[0], decimals)}, {number_text(point[1], decimals)}]"


def value_of(number: Coordinate) -> float:
    """What a number comes to.

    Raises : CannotEdit for one that no file may hold
    """
    if isinstance(number, str) and not is_plain_number(number):
        raise CannotEdit(f"{number[:40]!r} is not a plain number", "write a number such as 2 or 1.5")
    value = float(number)
    if not math.isfinite(value) or abs(value) > MAX_NUMBER:
        raise CannotEdit("the number is too large", f"write one up to {MAX_NUMBER:,.0f}")
    return value


def ring_values(points: Sequence[TypedPoint]) -> tuple[tuple[float, float], ...]:
    """The points as numbers."""
    return tuple((value_of(x), value_of(y)) for x, y in points)

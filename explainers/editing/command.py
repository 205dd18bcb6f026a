"""A command: one change that a page asks for, as an immutable value read from JSON.

A command is a frozen dataclass with a name (``asks``) and fields of the few types below; ``apply`` gives the new sheet.
What is no such JSON is refused before anything is done: unknown commands and keys, wrong types, too long, not finite.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields
from typing import Any, ClassVar, Protocol

from ..document.fields import MAX_CORNERS
from .numbers import Coordinate, TypedPoint
from .sheet import CannotEdit, Sheet

__all__ = ["Command", "MarkedSide", "Points", "Sizes", "command_from", "described"]

_MOST_TEXT = 2000
_MOST_SIZES = 20
# Control characters, separators of lines that YAML folds, halves of pairs, what is no character.
_ODD = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff\ud800-\udfff\ufffe\uffff]")

Points = tuple[TypedPoint, ...]
MarkedSide = tuple[TypedPoint, TypedPoint] | int
"""The two ends of a side, or its number."""
Sizes = Mapping[str, Coordinate]


class Command(Protocol):
    """One change."""

    asks: ClassVar[str]

    def apply(self, sheet: Sheet) -> Sheet:
        """The sheet with the change.

        Raises : CannotEdit where it cannot be made, with why and what to do
        """


def command_from(data: Any, known: Mapping[str, type[Command]]) -> Command:
    """The command that a value of JSON describes.

    Raises : CannotEdit
    """
    if not isinstance(data, dict) or not isinstance(data.get("do"), str):
        raise _no_command("a command is an object with the key do")
    kind = known.get(data["do"])
    if kind is None:
        raise _no_command(f"there is no command {data['do'][:40]!r}")
    given = {key: value for key, value in data.items() if key != "do"}
    taken: dict[str, Any] = {}
    for each in fields(kind):  # type: ignore[arg-type]
        name = each.name.rstrip("_").replace("_", "-")
        if name in given:
            taken[each.name] = _READERS[str(each.type)](given.pop(name), name)
        elif each.default is MISSING:
            raise _no_command(f"{kind.asks} needs {name}")
    if given:
        raise _no_command(f"{kind.asks} has no {next(iter(given))[:40]!r}")
    return kind(**taken)


def described(kind: type[Command]) -> dict[str, Any]:
    """A command for whoever writes a page: its name, its keys with their types, what it does."""
    keys = {
        each.name.rstrip("_").replace("_", "-"): str(each.type) + ("" if each.default is MISSING else "?")
        for each in fields(kind)  # type: ignore[arg-type]
    }
    return {"do": kind.asks, "keys": keys, "what": (kind.__doc__ or "").strip().split("\n")[0]}


def _no_command(message: str) -> CannotEdit:
    return CannotEdit(message, "this is a fault of the page: load it again")


def _text(value: Any, name: str) -> str:
    if not isinstance(value, str) or len(value) > _MOST_TEXT or _ODD.search(value):
        raise _no_command(f"{name} is no line of text, or too long")
    return value


def _whole(value: Any, name: str) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= 2**31:
        raise _no_command(f"{name} is no whole number")
    return value


def _coordinate(value: Any, name: str) -> Coordinate:
    if isinstance(value, str):
        return _text(value, name)
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise _no_command(f"{name} is no number")
    return float(value)


def _point(value: Any, name: str) -> TypedPoint:
    if not isinstance(value, list) or len(value) != 2:
        raise _no_command(f"{name} is no point")
    return _coordinate(value[0], name), _coordinate(value[1], name)


def _points(value: Any, name: str) -> tuple[TypedPoint, ...]:
    if not isinstance(value, list) or len(value) > MAX_CORNERS:
        raise _no_command(f"{name} is no list of at most {MAX_CORNERS} points")
    return tuple(_point(each, name) for each in value)


def _side(value: Any, name: str) -> MarkedSide:
    """Two points, or the number of a side."""
    if isinstance(value, int) and not isinstance(value, bool):
        return _whole(value, name)
    points = _points(value, name)
    if len(points) != 2:
        raise _no_command(f"{name} is no side")
    return points[0], points[1]


def _value(value: Any, name: str) -> Coordinate | None:
    return None if value is None else _coordinate(value, name)


def _sizes(value: Any, name: str) -> dict[str, Coordinate]:
    if not isinstance(value, dict) or len(value) > _MOST_SIZES:
        raise _no_command(f"{name} is no set of sizes")
    return {_text(key, name): _coordinate(size, name) for key, size in value.items()}


def _optional(reader: Callable[[Any, str], Any]) -> Callable[[Any, str], Any]:
    return lambda value, name: None if value is None else reader(value, name)


_READERS: dict[str, Callable[[Any, str], Any]] = {
    "str": _text,
    "int": _whole,
    "Coordinate": _coordinate,
    "Coordinate | None": _value,
    "TypedPoint": _point,
    "Points": _points,
    "MarkedSide": _side,
    "Sizes": _sizes,
    "str | None": _optional(_text),
    "int | None": _optional(_whole),
    "TypedPoint | None": _optional(_point),
    "Points | None": _optional(_points),
    "MarkedSide | None": _optional(_side),
}
"""By the annotation of a field, as it is written in the command."""

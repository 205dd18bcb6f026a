"""A stable key of a value: what has the same key need not be drawn again."""

from __future__ import annotations

import dataclasses
import hashlib
from collections.abc import Callable, Iterable
from enum import Enum
from functools import cache

__all__ = ["content_key", "drawing_key", "drawing_keys"]

_NOT_DRAWN = frozenset({"alt", "seconds", "subject"})


def content_key(value: object) -> str:
    """24 hexadecimal digits made from a tree of dataclasses, tuples and plain values.

    The same on every machine and in every run. Numbers are rounded to 1e-6 first, and 1 is 1.0, so that noise of the
    last digits redraws nothing. Raises TypeError for anything that has no content of its own, such as a function.
    """
    return _key(value, frozenset())


def drawing_keys(values: Iterable[object]) -> tuple[str, ...]:
    """The `drawing_key` of each value, quicker for values that share their parts, as the figures of a lesson do."""
    kept = tuple(values)  # so that no part goes away and another takes its identity
    known: dict[int, str] = {}
    return tuple(_key(value, _NOT_DRAWN, known) for value in kept)


def drawing_key(value: object) -> str:
    """The key of what can be seen: alternative text, subjects, and the natural length of a motion are left out.

    For pixels only. A file that carries the alternative text, such as an SVG, needs ``content_key``.
    """
    return _key(value, _NOT_DRAWN)


def _key(value: object, left_out: frozenset[str], known: dict[int, str] | None = None) -> str:
    parts: list[str] = []
    _write(value, parts.append, left_out, known)
    return hashlib.sha256("".join(parts).encode()).hexdigest()[:24]


def _write(value: object, put: Callable[[str], object], left_out: frozenset[str], known: dict[int, str] | None) -> None:
    """Every value is written with its kind and, where its length is open, its length: no two trees write the same.

    known : what dataclasses were written as before, by identity; None to remember nothing
    """
    match value:
        case float() if not isinstance(value, Enum):
            put(f"n{round(value, 6) + 0.0:.6f};")  # + 0.0 turns -0.0 into 0.0
        case str() if not isinstance(value, Enum):
            put(f"s{len(value)}:{value}")
        case tuple() | list():
            put(f"({len(value)}:")
            for part in value:
                _write(part, put, left_out, known)
        case None | bool():
            put(f"{value};")
        case Enum():
            put(f"e{type(value).__name__}.{value.name};")
        case int():
            put(f"n{value}.000000;")
        case dict():
            put(f"d{len(value)}:")
            for key in sorted(value, key=str):
                _write(key, put, left_out, known)
                _write(value[key], put, left_out, known)
        case _ if known is not None:
            if id(value) not in known:
                parts: list[str] = []
                _write_fields(value, parts.append, left_out, known)
                known[id(value)] = "".join(parts)
            put(known[id(value)])
        case _:
            _write_fields(value, put, left_out, known)


def _write_fields(
    value: object, put: Callable[[str], object], left_out: frozenset[str], known: dict[int, str] | None
) -> None:
    kind: type = type(value)
    put(f"c{kind.__name__}:")
    for name in _field_names(kind):
        if name not in left_out:
            put(f"{name}=")
            _write(getattr(value, name), put, left_out, known)


@cache
def _field_names(kind: type) -> tuple[str, ...]:
    if not dataclasses.is_dataclass(kind):
        raise TypeError(f"a value of kind {kind.__name__} has no content that a key could be made from")
    names: list[str] = [field.name for field in dataclasses.fields(kind)]
    return tuple(names)

"""Where the values of a YAML text stand: by field path, with the lines that belong to each, remarks included.

For editing a text that is not to be set anew: everything outside the places named here stays byte for byte. Its lines
may end with CR LF.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from .composing import Composed, compose_text
from .laid_out import Collection, LaidOutEntry, LaidOutValue, Leaf, laid_out

__all__ = [
    "CannotEdit",
    "Lines",
    "Part",
    "above",
    "column_of",
    "composed_once",
    "entry_at",
    "is_nothing",
    "line_start",
    "lines_of_entry",
    "mark_of",
    "next_line",
    "parts_of",
    "rooted",
    "shares_line",
    "value_at",
]

_PART = re.compile(r"(?:^|\.)([^.\[\]]+)|\[(\d+)\]")
_NOTHING = ("", "~", "null", "Null", "NULL")

Part = str | int
"""One step of a field path: a key, or a place in a list."""


class CannotEdit(Exception):
    """A change cannot be made in this text; the message says why, ``fix`` what to do."""

    def __init__(self, message: str, fix: str) -> None:
        super().__init__(message)
        self.fix = fix


@dataclass(frozen=True, slots=True)
class Lines:
    """A run of whole lines: from the start of the first to the start of the line after the last."""

    start: int
    end: int


def parts_of(path: str) -> tuple[Part, ...]:
    """A field path such as ``pieces[0].meets``, step by step.

    Raises : CannotEdit where it is none
    """
    found = list(_PART.finditer(path))
    if "".join(each[0] for each in found) != path:
        raise CannotEdit(f"{path[:60]} is no field", "name a field such as pieces[0].meets")
    return tuple(each[1] if each[2] is None else int(each[2]) for each in found)


def rooted(text: str) -> Collection | None:
    """The text's keys with their values; None for one that has nothing but remarks.

    Raises : CannotEdit where the text is no YAML of keys, or repeats values by * or names them by !
    """
    return _rooted_once(text)


@lru_cache(maxsize=8)
def _rooted_once(text: str) -> Collection | None:
    """One change looks at its text several times; nobody changes what is found."""
    composed = composed_once(text)
    if composed.root is None and not _holds_anything(text):
        return None
    if composed.root is None or composed.faults:
        fault = composed.faults[0]
        where = f"line {fault.line}: " if fault.line else ""
        raise CannotEdit(f"{where}{fault.message}", f"mend the text of the file first: {fault.fix}")
    root = laid_out(text)
    if root is None:
        raise CannotEdit("the file repeats a value by * or names one by !", "write the value out in each place first")
    return root


@lru_cache(maxsize=8)
def composed_once(text: str) -> Composed:
    """A text composed, without a name, and not again while it is looked at."""
    return compose_text(text, "")


def value_at(root: Collection | None, parts: tuple[Part, ...]) -> LaidOutValue | None:
    """The value that stands at a path; None where there is none."""
    if not parts:
        return root
    entry = entry_at(root, parts)
    return None if entry is None else entry.value


def entry_at(root: Collection | None, parts: tuple[Part, ...]) -> LaidOutEntry | None:
    """The key with its value, or the value of a list, that stands at a path."""
    value = value_at(root, parts[:-1])
    if not isinstance(value, Collection):
        return None
    last = parts[-1]
    if isinstance(last, int):
        return value.entries[last] if not value.is_map and last < len(value.entries) else None
    if not value.is_map:
        return None
    return next((each for each in value.entries if each.key is not None and each.key.text == last), None)


def is_nothing(value: LaidOutValue | None) -> bool:
    """Whether nothing is written there."""
    return value is None or (isinstance(value, Leaf) and not value.quoted and value.text in _NOTHING)


def line_start(text: str, at: int) -> int:
    """Where the line begins in which a place stands."""
    return text.rfind("\n", 0, at) + 1


def next_line(text: str, at: int) -> int:
    """Where the line after a place begins, or the end of the text."""
    found = text.find("\n", at)
    return len(text) if found < 0 else found + 1


def column_of(text: str, at: int) -> int:
    """How far from the margin a place stands."""
    return at - line_start(text, at)


def mark_of(text: str, entry: LaidOutEntry) -> int:
    """Where the key, or the dash, of an entry stands that is not in brackets."""
    return entry.start if entry.key is not None else text.rfind("-", 0, entry.start)


def shares_line(text: str, entry: LaidOutEntry) -> bool:
    """Whether something stands before an entry in its line, such as the dash of what it is in."""
    at = mark_of(text, entry)
    return bool(text[line_start(text, at) : at].strip())


def lines_of_entry(text: str, entry: LaidOutEntry) -> Lines:
    """The lines of an entry that stands on lines of its own: remarks set further in after it are its own, too."""
    # A block text ends with its last line, however far the parser's own mark lies behind it.
    end = next_line(text, max(entry.value.end - 1, entry.start, entry.key.end - 1 if entry.key else 0))
    while end < len(text):
        line = text[end : next_line(text, end)]
        inner = line.lstrip(" ")
        if not inner.startswith("#") or len(line) - len(inner) <= entry.column:
            break
        end = next_line(text, end)
    return Lines(line_start(text, mark_of(text, entry)), end)


def above(text: str, entry: LaidOutEntry) -> int:
    """Where the remarks begin that stand right above an entry, no further in than itself; else its own line."""
    start = line_start(text, mark_of(text, entry))
    while start > 0:
        before = line_start(text, start - 1)
        line = text[before:start]
        inner = line.lstrip(" ")
        if not inner.startswith("#") or len(line) - len(inner) > entry.column:
            break
        start = before
    return start


def _holds_anything(text: str) -> bool:
    lines = (line.strip() for line in text.splitlines())
    return any(line and not line.startswith("#") and line not in ("---", "...") for line in lines)

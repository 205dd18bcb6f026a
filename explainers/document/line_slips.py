"""Slips of typing that stop the parser, found on their own line: a colon, a bracket, a space that is missing.

The parser gives up where the text makes no sense to it any more, which is often a line or two later. Every function
here is given the lines of the file with the number of one of them, from 1, and gives (message, fix, line) or None.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

__all__ = ["colon_missing", "comma_missing", "indented", "left_open", "line_above", "points_without_bracket"]

Told = tuple[str, str, int]

_KEY = re.compile(r"[a-z][a-z0-9-]*")
_TWO_LISTS = re.compile(r"\]\s*\[")
_MOST = 60  # characters of a line that a fix repeats


def colon_missing(lines: Sequence[str], line: int) -> Told | None:
    """A key with its value and no colon between them, or a colon without its space."""
    typed = _content(lines, line)
    key, _, value = typed.partition(" ")
    if ":" in key and not key.endswith(":"):
        key, _, value = typed.partition(":")
        if _KEY.fullmatch(key):
            return f"the colon after {key} has no space behind it", f"write {_written(key, value)}", line
    if _KEY.fullmatch(key) and ":" not in typed and "#" not in typed:
        return f"the key {key} has no colon after it", f"write {_written(key, value)}", line
    return None


def points_without_bracket(lines: Sequence[str], line: int) -> Told | None:
    """``meets: [1, 0], [3, 0]``: a list ends before the line does."""
    key, colon, value = (part.strip() for part in _content(lines, line).partition(":"))
    end = _end_of_list(value) if colon else 0
    after = value[end:].lstrip()
    if not end or not _KEY.fullmatch(key):
        return None
    if after.startswith(",") and after[1:].lstrip().startswith("["):
        message = f"several lists stand after {key} with no bracket round them all"
        whole = f"{key}: [{value}]"
        return (
            message,
            f"write {whole}" if len(whole) <= _MOST else "write [ before the first and ] behind the last",
            line,
        )
    if after.startswith(("]", "}")):
        message = f"a bracket is closed after {key} that was not opened"
        return message, f"take out one {after[0]}, or write the bracket that it closes", line
    return None


def comma_missing(lines: Sequence[str], opened: int, line: int) -> Told | None:
    """``[0, 0] [4, 0]``: two lists with nothing between them."""
    for number in range(opened, line + 1):
        if 0 < number <= len(lines) and _TWO_LISTS.search(lines[number - 1]):
            return "a comma is missing between two lists", "write a comma between ] and [", number
    return None


def left_open(lines: Sequence[str], opened: int, line: int) -> Told | None:
    """A bracket that is still open at the end of its line, where the next line begins with a key or a dash."""
    if not 0 < opened < line <= len(lines):
        return None
    typed, following = lines[opened - 1], lines[opened].lstrip()
    key = following.partition(":")[0]
    if following.startswith("- ") or (_KEY.fullmatch(key) and ":" in following):
        for one, other in ("[]", "{}"):
            if typed.count(one) > typed.count(other):
                missing = typed.count(one) - typed.count(other)
                what = f"{missing} {one} {'is' if missing == 1 else 'are'} opened on this line and not closed"
                return what, f"close each {one} with {other}", opened
    return None


def indented(lines: Sequence[str], line: int) -> Told | None:
    """A line that begins a few spaces too far in or out, or a dash without its space."""
    if not 0 < line <= len(lines):
        return None
    here = lines[line - 1]
    bare = here.strip()
    if bare.startswith("-") and _KEY.match(bare[1:]):
        return "the dash of this line has no space behind it", f"write {_clipped(f'- {bare[1:]}')}", line
    dashed = bare.startswith("- ")
    for number in range(line - 1, 0, -1):
        above = lines[number - 1]
        content = above.strip()
        if not content or content.startswith("#") or (dashed and not content.startswith("- ")):
            continue
        starts = len(above) - len(above.lstrip())
        due = starts + 2 if content.startswith("- ") and not dashed else starts
        begins = len(here) - len(here.lstrip())
        if due == begins or ":" not in content:
            return None
        spaces = {0: "no space", 1: "1 space"}.get(due, f"{due} spaces")
        message = f"the indentation of this line does not fit the lines above it: it begins with {begins} spaces"
        return message, f"begin it with {spaces}, if it belongs with line {number}", line
    return None


def line_above(lines: Sequence[str], line: int) -> int:
    """The number of the nearest line above one that is neither empty nor a remark; 0 where there is none."""
    held = ((number, lines[number - 1].strip()) for number in range(min(line, len(lines) + 1) - 1, 0, -1))
    return next((number for number, typed in held if typed and not typed.startswith("#")), 0)


def _content(lines: Sequence[str], line: int) -> str:
    """A line without its indentation and its dash."""
    return lines[line - 1].strip().removeprefix("- ").strip() if 0 < line <= len(lines) else ""


def _written(key: str, value: str) -> str:
    return _clipped(f"{key}: {value.strip()}".strip())


def _clipped(text: str) -> str:
    return text if len(text) <= _MOST else f"{text[: _MOST - 3]}..."


def _end_of_list(value: str) -> int:
    """Behind the bracket that closes the first one; 0 where the text begins with none, or leaves it open."""
    depth = 0
    for index, sign in enumerate(value):
        depth += (sign in "[{") - (sign in "]}")
        if depth <= 0:
            return index + 1 if index else 0
    return 0

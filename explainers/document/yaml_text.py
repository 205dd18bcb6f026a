"""Values as YAML text in the house's form: numbers and texts as a teacher types them, lists of points in brackets."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Iterator

from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import larger_extent

__all__ = [
    "WIDTH",
    "Written",
    "angle_yaml",
    "broken",
    "decimals_for",
    "in_brackets",
    "lines_of",
    "number_yaml",
    "points_yaml",
    "text_yaml",
]

WIDTH = 120  # columns after which a list of corners goes on in the next line
ANGLE_DECIMALS = 6
DIGITS = 6  # of the larger extent

Written = str | dict[str, "Written"] | list["Written"]
"""What stands after a key: the text of one value, or keys or a list on lines of their own."""

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9]*([ -][A-Za-z0-9]+)*")
# Other readers of YAML take these for something else than a text.
_NOT_A_TEXT = re.compile(r"y|n|yes|no|on|off|true|false|null", re.IGNORECASE)


def text_yaml(text: str) -> str:
    """A text as it is, or quoted where YAML would read something else in it."""
    if _PLAIN.fullmatch(text) and not _NOT_A_TEXT.fullmatch(text):
        return text
    return json.dumps(text, ensure_ascii=False)


def number_yaml(number: float, decimals: int) -> str:
    """A number as a teacher would type it, with no more decimals than it needs."""
    text = f"{number:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def angle_yaml(number: float) -> str:
    """A number that has no outline to be measured by: degrees, or a scale."""
    return number_yaml(number, ANGLE_DECIMALS)


def decimals_for(ring: Ring) -> int:
    """As many decimals as it takes to write a millionth of the outline's larger extent."""
    size = larger_extent(ring)
    return max(0, DIGITS - (math.floor(math.log10(size)) if size > 0.0 else 0))


def points_yaml(points: Iterable[Point], decimals: int) -> str:
    """A list of points in brackets."""
    return f"[{', '.join(f'[{number_yaml(x, decimals)}, {number_yaml(y, decimals)}]' for x, y in points)}]"


def in_brackets(value: Written) -> str:
    """A value on one line."""
    if isinstance(value, dict):
        return f"{{{', '.join(f'{key}: {in_brackets(inner)}' for key, inner in value.items())}}}"
    return value if isinstance(value, str) else f"[{', '.join(map(in_brackets, value))}]"


def lines_of(keys: dict[str, Written], indent: str = "") -> Iterator[str]:
    """Keys with their values on lines of their own."""
    for key, value in keys.items():
        start = f"{indent}{key}:"
        if isinstance(value, str):
            yield from _with_points(f"{start} {value}", len(start) + 2)
            continue
        yield start
        yield from lines_of(value, f"{indent}  ") if isinstance(value, dict) else _dashed(value, f"{indent}  ")


def _dashed(values: list[Written], indent: str) -> Iterator[str]:
    for value in values:
        if isinstance(value, dict):
            first, *more = lines_of(value, f"{indent}  ")
            yield f"{indent}- {first.lstrip()}"
            yield from more
        else:
            yield from _with_points(f"{indent}- {in_brackets(value)}", len(indent) + 3)


def _with_points(line: str, start: int) -> list[str]:
    """The line, broken after a point's comma where it is too wide; a text is left whole."""
    return broken(line, " " * start, "], ", start) if line[start - 1 : start] in ("[", "{") else [line]


def broken(line: str, hanging: str, mark: str, start: int) -> list[str]:
    """The line, broken behind a mark wherever it is too wide.

    start : how much of the first line must stay together
    """
    lines = []
    while len(line) > WIDTH:
        at = line.rfind(mark, start, WIDTH)
        if at < 0:
            break
        end = at + len(mark)
        lines.append(line[:end].rstrip())
        line = hanging + line[end:]
        start = len(hanging) + 1
    return [*lines, line]

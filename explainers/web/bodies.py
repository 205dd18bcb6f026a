"""What a page sends: JSON of a bounded size and depth, or refused in plain words.

Python's own reader would follow brackets as deep as they go, and take NaN and endless numbers that JSON does not have.
How many bytes come is bounded by the guard.
"""

from __future__ import annotations

import json
import re
from typing import Any, NoReturn

__all__ = ["MOST_DEPTH", "BadBody", "json_in"]

MOST_DEPTH = 16
_MOST_DIGITS = 40  # of a number
# Possessive: nothing is kept to go back to, however long a text is.
_BRACKETS = re.compile(rb'"(?:[^"\\]++|\\.)*+"|[\[{]|[\]}]', re.DOTALL)


class BadBody(Exception):
    """What came cannot be taken; the message says why."""


def json_in(body: bytes) -> Any:
    """The value that a body holds.

    Raises : BadBody
    """
    depth = 0
    for found in _BRACKETS.finditer(body):
        if found[0] in b"[{":
            depth += 1
            if depth > MOST_DEPTH:
                raise BadBody(f"nested more than {MOST_DEPTH} deep")
        elif found[0] in b"]}":
            depth -= 1
    try:
        text = body.decode("utf-8")
        return json.loads(text, parse_constant=_refuse, parse_float=_number, parse_int=_whole, object_pairs_hook=_once)
    except UnicodeDecodeError as error:
        raise BadBody("this is not UTF-8") from error
    except (ValueError, RecursionError) as error:
        raise BadBody("this is not JSON") from error


def _refuse(word: str) -> NoReturn:
    raise BadBody(f"{word} is no number")


def _number(digits: str) -> float:
    value = float(digits)
    if len(digits) > _MOST_DIGITS or abs(value) == float("inf"):
        raise BadBody("a number is too large or too long")
    return value


def _whole(digits: str) -> int:
    if len(digits) > _MOST_DIGITS:
        raise BadBody("a number is too large or too long")
    return int(digits)


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise BadBody("a key is given twice")
    return found

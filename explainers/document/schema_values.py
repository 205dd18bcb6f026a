"""Kinds of values as JSON Schema: what an editor can hold a text, a name, a number or a list of corners against."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from .fields import MAX_CORNERS, MAX_NAME, MAX_NUMBER, NAME

__all__ = [
    "CORNERS",
    "NAME_VALUE",
    "POINT",
    "SIDE",
    "Schema",
    "choice",
    "defined",
    "either",
    "keys_with",
    "list_of",
    "number",
    "text",
    "told",
    "whole",
    "whole_match",
]

Schema = dict[str, Any]


def whole_match(pattern: re.Pattern[str] | str) -> str:
    """A pattern for the whole of a text, as the readers apply it; a schema looks for it anywhere."""
    return f"^(?:{pattern if isinstance(pattern, str) else pattern.pattern})$"


def text(most: int) -> Schema:
    """A line of text; a number or true typed without quotation marks is read as the text that it is."""
    return {"type": ["string", "number", "boolean"], "minLength": 1, "maxLength": most, "pattern": r"\S"}


def choice(words: Iterable[str]) -> Schema:
    first, *others = words
    return {"enum": [first, *others]} if others else {"const": first}


def number(least: float = -MAX_NUMBER, most: float = MAX_NUMBER) -> Schema:
    return {"type": "number", "minimum": least, "maximum": most}


def whole(least: int, most: int) -> Schema:
    return {"type": "integer", "minimum": least, "maximum": most}


def list_of(entry: Schema, least: int, most: int) -> Schema:
    return {"type": "array", "items": entry, "minItems": least, "maxItems": most}


def either(*kinds: Schema) -> Schema:
    return {"anyOf": list(kinds)}


def defined(name: str) -> Schema:
    """What the schema says once, among its definitions."""
    return {"$ref": f"#/$defs/{name}"}


def told(value: Schema, words: str) -> Schema:
    """A value with what an editor shows beside it."""
    return {"description": words, **value}


def keys_with(values: Mapping[str, Schema], *, due: Sequence[str] = (), **rules: object) -> Schema:
    """A mapping with these keys and no others, each with its value.

    due   : the keys that must be there
    rules : further words of the schema
    """
    found: Schema = {"type": "object", "properties": dict(values), "additionalProperties": False}
    if due:
        found["required"] = list(due)
    return {**found, **rules}


NAME_VALUE: Schema = {"type": ["string", "integer"], "pattern": whole_match(NAME), "maxLength": MAX_NAME, "minimum": 0}
POINT: Schema = {"type": "array", "items": number(), "minItems": 2, "maxItems": 2}
SIDE: Schema = either({"type": "array", "items": POINT, "minItems": 2, "maxItems": 2}, whole(1, MAX_CORNERS))
CORNERS: Schema = list_of(POINT, 3, MAX_CORNERS)

"""Kinds of values: each says once how it is read, what an editor holds it against, and how it is written."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Generic, TypeVar

from ..geometry.rigid_motion import Point
from . import schema_values as schema
from .fields import (
    MAX_NUMBER,
    Faults,
    choice_of,
    degrees_of,
    list_of,
    name_of,
    number_of,
    shown_text_of,
    text_of,
    whole_of,
)
from .key_order import ANY_ORDER, KeyOrder
from .nodes import Node
from .points import point_of
from .schema_values import Schema
from .yaml_text import Written, angle_yaml, text_yaml

__all__ = [
    "Value",
    "angle",
    "choice",
    "list_value",
    "member",
    "name",
    "number",
    "plain_text",
    "point",
    "shown_text",
    "whole",
]

T = TypeVar("T")
E = TypeVar("E", bound=StrEnum)


@dataclass(frozen=True, slots=True, kw_only=True)
class Value(Generic[T]):
    """One kind of value."""

    read: Callable[[Node, str, Faults], T | None]  # None with the fault added at the path, where it is wrong
    schema: Schema
    order: KeyOrder = ANY_ORDER  # of the keys that stand in it
    write: Callable[[Any], Written] = str


def shown_text(most: int, *, fix: str) -> Value[str]:
    """A line of text that is shown in pictures and on pages."""
    return Value(
        read=lambda node, at, faults: shown_text_of(node, at, faults, most=most, fix=fix),
        schema=schema.text(most),
        write=text_yaml,
    )


def plain_text(most: int, *, fix: str) -> Value[str]:
    """A line of text that no picture shows."""
    return Value(
        read=lambda node, at, faults: text_of(node, at, faults, most=most, fix=fix),
        schema=schema.text(most),
        write=text_yaml,
    )


def name(example: str) -> Value[str]:
    """A name: lower-case letters, digits and hyphens between them."""
    return Value(
        read=lambda node, at, faults: name_of(node, at, faults, example=example),
        schema=schema.NAME_VALUE,
        write=text_yaml,
    )


def choice(words: Sequence[str], *, offered: Sequence[str] = ()) -> Value[str]:
    """One of a few words.

    offered : the same words as they are named to the teacher, where more must be said of one
    """
    return Value(
        read=lambda node, at, faults: choice_of(node, at, faults, words, offered=offered), schema=schema.choice(words)
    )


def member(kind: type[E]) -> Value[E]:
    """One of the members of an enumeration, by its word."""
    word = choice([member.value for member in kind])

    def read(node: Node, at: str, faults: Faults) -> E | None:
        found = word.read(node, at, faults)
        return None if found is None else kind(found)

    return Value(read=read, schema=word.schema)


def number(least: float = -MAX_NUMBER, most: float = MAX_NUMBER) -> Value[float]:
    """A finite number between two others, both allowed."""
    return Value(
        read=lambda node, at, faults: number_of(node, at, faults, least=least, most=most),
        schema=schema.number(least, most),
        write=angle_yaml,
    )


def angle() -> Value[float]:
    """A turn in degrees, any finite number."""
    return Value(read=degrees_of, schema=schema.number(), write=angle_yaml)


def whole(least: int, most: int) -> Value[int]:
    """A whole number between two others, both allowed."""
    return Value(
        read=lambda node, at, faults: whole_of(node, at, faults, least=least, most=most),
        schema=schema.whole(least, most),
    )


def point() -> Value[Point]:
    """A point [x, y]."""
    return Value(read=point_of, schema=schema.POINT)


def list_value(entry: Value[T], least: int, most: int, *, noun: str, fix: str) -> Value[tuple[T | None, ...]]:
    """A list; None stands in the place of an entry that cannot be read, so that the others keep their numbers.

    noun : in the plural, one that an s makes
    """

    def read(node: Node, at: str, faults: Faults) -> tuple[T | None, ...] | None:
        nodes = list_of(node, at, faults, least=least, most=most, noun=noun, fix=fix)
        if nodes is None:
            return None
        return tuple(entry.read(inner, f"{at}[{index}]", faults) for index, inner in enumerate(nodes))

    def write(values: Sequence[T]) -> Written:
        return [entry.write(value) for value in values]

    return Value(read=read, schema=schema.list_of(entry.schema, least, most), order=entry.order, write=write)

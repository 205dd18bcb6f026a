"""What a new file tells of keys, as data: lines, and terms with what they mean."""

from __future__ import annotations

from collections.abc import Mapping

from ..document.format import Format
from .ready_outlines import READY
from .ring_reader import RING

__all__ = ["Explanation", "keys_explained", "outline_explained", "outline_in_one"]

Explanation = tuple[str | Mapping[str, str], ...]
"""What is told below a key, in order: a line of its own, or terms with what they mean, one below the other."""


def keys_explained(table: Format) -> dict[str, str]:
    """Each key of a format with what it means."""
    return {field.key: field.doc for field in table.fields}


def outline_explained(table: Format) -> Explanation:
    """The keys of a mapping that gives an outline, and every ready one."""
    return (
        "One of corners, walk and ready gives the outline:",
        keys_explained(table),
        "Ready outlines with their sizes, such as ready: {rectangle: {wide: 4, high: 2}}",
        {name: f"{ready.example}: {ready.what}" for name, ready in READY.items()},
    )


def outline_in_one(keys: Mapping[str, str], like: str) -> dict[str, str]:
    """Keys with those of an outline told in one line, where they were told one by one before.

    like : what is given by them too, such as "the base"
    """
    first, *others = (field.key for field in RING.fields)
    told = f"or {', '.join(others)}: its outline, given as that of {like} is"
    return {key: told if key == first else meaning for key, meaning in keys.items() if key not in others}

"""The values of a YAML file as typed, each with its line."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["ListNode", "MapEntry", "MapNode", "Node", "ScalarNode", "text_at"]


@dataclass(frozen=True, slots=True)
class ScalarNode:
    """A word or number, exactly as typed."""

    text: str
    quoted: bool
    line: int

    @property
    def is_null(self) -> bool:
        """Nothing was written here, or YAML's own word for nothing."""
        return not self.quoted and self.text in ("", "~", "null", "Null", "NULL")


@dataclass(frozen=True, slots=True)
class ListNode:
    """A list."""

    items: tuple[Node, ...]
    line: int


@dataclass(frozen=True, slots=True)
class MapEntry:
    """The value of one key, with the line of the key."""

    value: Node
    line: int


@dataclass(frozen=True, slots=True)
class MapNode:
    """Keys with their values, in the order of the file."""

    entries: dict[str, MapEntry]
    line: int


Node = ScalarNode | ListNode | MapNode


def text_at(node: MapNode, key: str, *, most: int = 120) -> str:
    """As much of the text at a key as is of use where a file may hold anything; "" where there is none."""
    entry = node.entries.get(key)
    return entry.value.text.strip()[:most] if entry is not None and isinstance(entry.value, ScalarNode) else ""

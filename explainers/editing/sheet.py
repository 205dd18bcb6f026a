"""The text of an item's file while it is changed: values set by field path, each change a new value.

Everything that is not touched stays byte for byte (``document.text_edits``). What a change brings about besides is
noted, so that whoever asked for it can say so.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..document.key_order import KeyOrder
from ..document.laid_out import Collection, LaidOutEntry, LaidOutValue
from ..document.nodes import ListNode, MapNode, Node, ScalarNode
from ..document.text_edits import inserted, moved, removed, renamed_key, with_value
from ..document.text_places import CannotEdit, composed_once, entry_at, parts_of, rooted, value_at
from ..document.yaml_text import Written

__all__ = ["BecameCorners", "CannotEdit", "Note", "Renamed", "Sheet", "node_at"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BecameCorners:
    """A walk or a ready outline had to give way to the corners that it came to."""

    field: str  # of the outline
    was: str  # walk, ready

    def told(self) -> dict[str, str]:
        """For a page."""
        return {"note": "became-corners", "field": self.field, "was": self.was}


@dataclass(frozen=True, slots=True, kw_only=True)
class Renamed:
    """Fields that named a thing were given its new name."""

    field: str
    name: str

    def told(self) -> dict[str, str]:
        """For a page."""
        return {"note": "renamed", "field": self.field, "name": self.name}


Note = BecameCorners | Renamed


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A text, the order in which its keys are set, and what was noted."""

    text: str
    order: KeyOrder
    notes: tuple[Note, ...] = ()

    def value(self, path: str) -> LaidOutValue | None:
        """What stands at a field; None for nothing.

        Raises : CannotEdit, as all that follow, where the text is no YAML of keys, or the path no field
        """
        return value_at(rooted(self.text), parts_of(path))

    def entry(self, path: str) -> LaidOutEntry | None:
        """A field with its key."""
        return entry_at(rooted(self.text), parts_of(path))

    def node(self, path: str) -> Node | None:
        """What stands at a field, as the readers see it."""
        root = composed_once(self.text).root
        return None if root is None else node_at(root, path)

    def keys_at(self, path: str) -> tuple[str, ...]:
        """The keys that may stand at a field."""
        order = self.order
        for part in parts_of(path):
            if isinstance(part, str):
                order = order.of(part)
        return order.keys

    def length(self, path: str) -> int:
        """How many entries a list has."""
        found = self.value(path)
        return len(found.entries) if isinstance(found, Collection) and not found.is_map else 0

    def put(self, path: str, written: Written) -> Sheet:
        """With a value at a field."""
        return replace(self, text=with_value(self.text, parts_of(path), written, self.order))

    def without(self, path: str) -> Sheet:
        """Without a field; as it is where there is none."""
        return replace(self, text=removed(self.text, parts_of(path)))

    def into(self, path: str, index: int, written: Written) -> Sheet:
        """With another entry in a list, before that of a number."""
        return replace(self, text=inserted(self.text, parts_of(path), index, written, self.order))

    def moved(self, path: str, start: int, end: int) -> Sheet:
        """With an entry of a list at another place."""
        return replace(self, text=moved(self.text, parts_of(path), start, end))

    def in_place_of(self, path: str, key: str, written: Written) -> Sheet:
        """With another key and its value where a field stands."""
        return replace(self, text=renamed_key(self.text, parts_of(path), key, written))

    def noting(self, *notes: Note) -> Sheet:
        """With something noted."""
        return replace(self, notes=(*self.notes, *notes))


def node_at(root: MapNode, path: str) -> Node | None:
    """What stands at a field path; None where nothing does."""
    node: Node = root
    for part in parts_of(path):
        if isinstance(part, int) and isinstance(node, ListNode) and part < len(node.items):
            node = node.items[part]
        elif isinstance(part, str) and isinstance(node, MapNode) and part in node.entries:
            node = node.entries[part].value
        else:
            return None
    return None if isinstance(node, ScalarNode) and node.is_null else node

"""An item from a composed file: first its kind, then every key that this kind of question has."""

from __future__ import annotations

from functools import cache

from ..document.fields import Faults, table_of
from ..document.format import Format
from ..document.nodes import MapNode
from ..document.notation import listed
from ..document.values import choice
from ..item.item_format import NAME, ItemDraft, item_format, read_draft
from ..kinds.registry import DEFAULT_KIND, kind_named, kind_names

__all__ = ["format_of_kind", "item_of", "kind_in"]


@cache
def format_of_kind(kind: str) -> Format:
    """The format of items of a kind."""
    return item_format(kind, kind_named(kind).keys, default=DEFAULT_KIND)


def kind_in(root: MapNode, faults: Faults) -> str | None:
    """The kind of question that an item says it is; None, with the fault noted, for one that there is not."""
    kinds = kind_names()
    entry = root.entries.get("kind")
    if entry is not None:
        return choice(kinds).read(entry.value, "kind", faults)
    if DEFAULT_KIND in kinds:
        return DEFAULT_KIND
    faults.add("kind", "the key kind is missing from the file", f"write kind: {listed(kinds)}")
    return None


def item_of(root: MapNode, faults: Faults) -> ItemDraft:
    """The item as far as it reads well; of a kind that there is not, its name alone."""
    kind = kind_in(root, faults)
    if kind is not None:
        return read_draft(root, format_of_kind(kind), kind_named(kind).keys, faults)
    table = table_of(root, "", faults, keys=tuple(root.entries), owner="an item", fix="begin with item:")
    return ItemDraft(name=(NAME.read_in(table) if table else None) or faults.file.stem)

"""An item from a composed file: every key of the contract, its default and its range.

The keys, defaults and limits are those of the item format in the README; each stands as a constant in the module that
reads it. Whether pieces can be laid is for the solver.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import takewhile

from ..document.fields import Faults, Table, name_of, shown_text_of, table_of
from ..document.nodes import MapNode
from ..geometry.outline import Outline
from .accepted_reader import accepted_of
from .model import Item
from .option_reader import options_of
from .outline_reader import outline_of
from .piece_reader import Typed, pieces_of
from .ring_reader import RING_EXAMPLE, RING_KEYS

__all__ = ["BASE_KEYS", "ITEM_KEYS", "ItemDraft", "item_of"]

ITEM_KEYS = ("item", "title", "base", "pieces", "options", "accepted")
BASE_KEYS = (*RING_KEYS, "holes")
MAX_TITLE = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemDraft:
    """An item as far as it could be read."""

    name: str  # the file's stem where no name could be read
    item: Item | None  # there where base and pieces read well
    first_pieces: Item | None  # the same up to the first piece that does not read well; None where that leaves none


def item_of(root: MapNode, stem: str, faults: Faults) -> ItemDraft:
    """The item as far as it reads well.

    Faults elsewhere leave it whole enough for its pieces to be laid: a bad name gives way to the file's stem, and the
    result stands in for an option that could not be read, so that the others keep their numbers.
    """
    table = table_of(root, "", faults, keys=ITEM_KEYS, owner="an item", fix="begin with item:")
    if table is None:
        return ItemDraft(name=stem, item=None, first_pieces=None)
    node = table.due("item", "the file", f"name the item, such as item: {stem or 'corner-block'}")
    name = (name_of(node, "item", faults, example="corner-block") if node else None) or stem
    title = _title(table, name)
    base = _base(table)
    drafts = pieces_of(table, base)
    options, made = options_of(table, [draft.name if draft else None for draft in drafts])
    accepted = accepted_of(table)
    pieces = [draft.piece if draft else None for draft in drafts]
    whole = tuple(piece for piece in takewhile(lambda piece: piece is not None, pieces) if piece is not None)
    if base is None or not whole:
        return ItemDraft(name=name, item=None, first_pieces=None)
    start = Item(
        name=name,
        title=title,
        base=base.outline,
        pieces=whole,
        options=options,
        made=made,
        accepted=accepted,
        clockwise=base.corners != base.outline.exterior,
    )
    return ItemDraft(name=name, item=start if len(whole) == len(pieces) else None, first_pieces=start)


def _title(table: Table, name: str) -> str:
    plain = name.replace("-", " ")
    node = table.get("title")
    if node is None:
        return plain[:1].upper() + plain[1:]
    fix = "write the title, or leave the key out"
    return shown_text_of(node, "title", table.faults, most=MAX_TITLE, fix=fix) or plain


def _base(table: Table) -> Typed | None:
    faults = table.faults
    fix = f"write corners: {RING_EXAMPLE} below base:"
    node = table.due("base", "the file", f"add base: with corners: {RING_EXAMPLE} below it")
    base = node and table_of(node, "base", faults, keys=BASE_KEYS, owner="the base", fix=fix)
    if not base:
        return None
    outline = outline_of(base, "the base")
    return outline and Typed(Outline.of(*outline), outline[0])

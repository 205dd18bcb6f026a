"""An item from a composed file: every key of the contract, its default and its range.

The keys, defaults and limits are those of the item format in the README. Whether pieces can be laid is for the solver.
"""

from __future__ import annotations

from ..geometry.outline import Outline
from .fields import Faults, Table, name_of, table_of, text_of
from .model import Item
from .nodes import MapNode
from .option_reader import options_of
from .outline_reader import RING_EXAMPLE, outline_of
from .piece_reader import pieces_of

__all__ = ["BASE_KEYS", "ITEM_KEYS", "item_of"]

ITEM_KEYS = ("item", "title", "base", "pieces", "options")
BASE_KEYS = ("corners", "holes")
MAX_TITLE = 120


def item_of(root: MapNode, stem: str, faults: Faults) -> Item | None:
    """The item, or None where its base or pieces do not read well.

    Faults elsewhere leave it whole enough to be laid out: a bad name gives way to the file's stem, and options of
    which one is bad are left out altogether.
    """
    table = table_of(root, "", faults, keys=ITEM_KEYS, owner="an item", fix="begin with item:")
    if table is None:
        return None
    node = table.due("item", "the file", f"name the item, such as item: {stem or 'corner-block'}")
    name = (name_of(node, "item", faults, example="corner-block") if node else None) or stem or "item"
    title = _title(table, name)
    base = _base(table)
    pieces = pieces_of(table, base)
    options, made = options_of(table, [piece.name for piece in pieces or ()])
    whole = [piece.piece for piece in pieces or () if piece.piece is not None]
    if base is None or not pieces or len(whole) < len(pieces):
        return None
    return Item(name=name, title=title, base=base, pieces=tuple(whole), options=options, made=made)


def _title(table: Table, name: str) -> str:
    plain = name.replace("-", " ")
    node = table.get("title")
    if node is None:
        return plain[:1].upper() + plain[1:]
    fix = "write the title, or leave the key out"
    return text_of(node, "title", table.faults, most=MAX_TITLE, fix=fix) or plain


def _base(table: Table) -> Outline | None:
    faults = table.faults
    fix = f"write corners: {RING_EXAMPLE} below base:"
    node = table.due("base", "the file", f"add base: with corners: {RING_EXAMPLE} below it")
    base = node and table_of(node, "base", faults, keys=BASE_KEYS, owner="the base", fix=fix)
    if not base:
        return None
    outline = outline_of(base, "the base")
    return outline and Outline.of(*outline)

"""An item from a composed file: every key of the contract, its default and its range.

The keys, defaults and limits are those of the item format in the README; each row of the tables stands in the module
that reads its value. Whether pieces can be laid is for the solver.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import takewhile

from ....choice.question import WarningKind
from ....document.fields import Faults
from ....document.format import Field, Format, Record, Row, Rule
from ....document.nodes import MapNode
from ....document.values import name, shown_text
from ....geometry.outline import Outline
from ....item.accepted_reader import accepted_field
from ....item.option_reader import OPTIONS, check_options
from ....item.outline_reader import DEFINITIONS, OUTLINE, ListedOutline
from ....item.ring_reader import RING_EXAMPLE
from ..model import WARNINGS, Item
from .piece_reader import PIECES, Typed, check_pieces

__all__ = ["BASE", "ITEM", "ItemDraft", "item_format", "item_of"]

MAX_TITLE = 120


def item_format(
    question: Sequence[Row], rules: Sequence[Rule] = (), *, warnings: Sequence[str] = tuple(WarningKind)
) -> Format:
    """The format of an item: what every item has, around the fields of its kind of question.

    question, rules : the fields of the kind, and what must hold between them and the others
    warnings        : the names of all that its questions may be warned of, in the order in which they are told
    """
    return Format(
        owner="an item",
        missing_from="the file",
        fix="begin with item:",
        rows=(
            Field(
                "item",
                name("corner-block"),
                "the name of the item: lower-case letters, digits, hyphens",
                attribute="name",
                due="name the item, such as item: {stem}",
            ),
            Field(
                "title",
                shown_text(MAX_TITLE, fix="write the title, or leave the key out"),
                "what learners read above it (default: from the name)",
            ),
            *question,
            OPTIONS,
            accepted_field(warnings),
        ),
        rules=tuple(rules),
        definitions=DEFINITIONS,
    )


BASE = Format(owner="the base", fix=f"write corners: {RING_EXAMPLE} below base:", rows=(OUTLINE,))


def _typed(record: Record) -> Typed | None:
    outline = record["outline"]
    return outline and Typed(Outline.of(*outline), outline[0])


def _pieces_fit(record: Record) -> None:
    check_pieces(record["pieces"] or (), record["base"])


ITEM = item_format(
    question=(
        Field(
            "base",
            BASE.value(_typed),
            "the outline that pieces are joined to or cut out of",
            due=f"add base: with corners: {RING_EXAMPLE} below it",
            write=lambda item: BASE.written(ListedOutline(item.base.exterior, item.base.holes)),
        ),
        PIECES,
    ),
    rules=(Rule("marked sides lie on sides of the same length", check=_pieces_fit),),
    warnings=WARNINGS,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemDraft:
    """An item as far as it could be read."""

    name: str  # the file's stem where no name could be read
    item: Item | None  # there where base and pieces read well
    first_pieces: Item | None  # the same up to the first piece that does not read well; None where that leaves none


def item_of(root: MapNode, faults: Faults) -> ItemDraft:
    """The item as far as it reads well.

    Faults elsewhere leave it whole enough for its pieces to be laid: a bad name gives way to the file's stem, and the
    result stands in for an option that could not be read, so that the others keep their numbers.
    """
    stem = faults.file.stem
    record = ITEM.read(root, "", faults)
    if record is None:
        return ItemDraft(name=stem, item=None, first_pieces=None)
    name, base, drafts, asked = record["name"] or stem, record["base"], record["pieces"] or (), record["options"]
    options = check_options(asked, [draft.name if draft else None for draft in drafts]) if asked else ()
    pieces = [draft.piece if draft else None for draft in drafts]
    whole = tuple(piece for piece in takewhile(lambda piece: piece is not None, pieces) if piece is not None)
    if base is None or not whole:
        return ItemDraft(name=name, item=None, first_pieces=None)
    start = Item(
        name=name,
        title=_title(record, name),
        base=base.outline,
        pieces=whole,
        options=options,
        made=asked.made if asked else None,
        accepted=record["accepted"] or (),
        clockwise=base.corners != base.outline.exterior,
    )
    return ItemDraft(name=name, item=start if len(whole) == len(pieces) else None, first_pieces=start)


def _title(record: Record, name: str) -> str:
    plain = name.replace("-", " ")
    return record["title"] or (plain if "title" in record.table else plain[:1].upper() + plain[1:])

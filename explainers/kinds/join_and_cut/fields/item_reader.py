"""The keys of an item of joining and cutting: its base and its pieces, and the question that they make.

Beside them stands where a lesson may stop within such an item. Whether pieces can be laid is for the solver.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import takewhile
from typing import Any

from ....choice.question import WarningKind
from ....document.format import Field, Format, Record, Rule
from ....document.values import name
from ....geometry.outline import Outline
from ....item.accepted_reader import GENERAL_WARNINGS
from ....item.item_format import QuestionKeys
from ....item.outline_reader import OUTLINE, ListedOutline
from ....item.ring_reader import RING_EXAMPLE
from ....item.stops import Stops
from ..model import EVERY_PIECE, Item, PieceWarning
from .piece_reader import PIECES, Typed, check_pieces

__all__ = ["BASE", "KEYS", "STOPS"]

BASE = Format(owner="the base", fix=f"write corners: {RING_EXAMPLE} below base:", rows=(OUTLINE,))


def _typed(record: Record) -> Typed | None:
    outline = record["outline"]
    return outline and Typed(Outline.of(*outline), outline[0])


def _pieces_fit(record: Record) -> None:
    check_pieces(record["pieces"] or (), record["base"])


def _piece_names(record: Record) -> Sequence[str | None]:
    return [draft.name if draft else None for draft in record["pieces"] or ()]


def _item(record: Record, shared: Mapping[str, Any]) -> tuple[Item | None, Item | None]:
    """The item, and the same up to the first piece that does not read well."""
    base, drafts = record["base"], record["pieces"] or ()
    pieces = [draft.piece if draft else None for draft in drafts]
    whole = tuple(piece for piece in takewhile(lambda piece: piece is not None, pieces) if piece is not None)
    if base is None or not whole:
        return None, None
    begun = Item(**shared, base=base.outline, pieces=whole, clockwise=base.corners != base.outline.exterior)
    return begun if len(whole) == len(pieces) else None, begun


KEYS = QuestionKeys(
    rows=(
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
    slip_keys=(
        Field("slip", name("flipped"), "the slip that makes it, such as flipped or not-turned"),
        Field("piece", name("flag"), "the piece that the slip happens to", attribute="slip_subject"),
    ),
    warnings={
        PieceWarning.NO_TURN: "a piece is shown as it lies",
        PieceWarning.MISREAD_MARK: "a mark such as p, Z or 6 looks like another when the sheet is turned",
        PieceWarning.MARK_LIKE_OPTION: "a mark has the letter of an option, such as A",
        PieceWarning.TWO_WAY_MARK: "a mark could be taken for another one, or for another part of its side",
        PieceWarning.SYMMETRIC_PIECE: "a piece fits with more than one end",
        **GENERAL_WARNINGS,
        WarningKind.FINE_SIDES: "sides of base or pieces are too short to be seen",
        WarningKind.FINE_OPTIONS: "sides of options are",  # told below the one above
    },
    subjects=_piece_names,
    build=_item,
)


def _names_of_pieces(item: Item) -> list[str]:
    return [piece.name for piece in item.pieces]


STOPS = Stops(
    names=(EVERY_PIECE, "outline", "options"),
    in_a_part=("turn", "meet"),
    part="piece",
    parts_of=_names_of_pieces,
    example=f"{EVERY_PIECE}, or a list such as [flag.turn, flag.meet, outline, options]",
)

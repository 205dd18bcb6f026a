"""Where a lesson may stop within an item of joining and cutting and ask."""

from __future__ import annotations

from ....item.stops import Stops
from ..model import EVERY_PIECE, Item

__all__ = ["STOPS"]


def _piece_names(item: Item) -> list[str]:
    return [piece.name for piece in item.pieces]


STOPS = Stops(
    names=(EVERY_PIECE, "outline", "options"),
    in_a_part=("turn", "meet"),
    part="piece",
    parts_of=_piece_names,
    example=f"{EVERY_PIECE}, or a list such as [flag.turn, flag.meet, outline, options]",
)

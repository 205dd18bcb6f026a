"""What solving would refuse in an item of which only a part could be read, so that a file's faults come in one run."""

from __future__ import annotations

from collections.abc import Sequence

from ....choice.solving import refused
from ....document.notation import listed
from ....errors import Fault, ItemError
from ..model import Item
from ..slips.diagnosis import Replays
from ..slips.registry import slip_faults
from .laying import lay_pieces

__all__ = ["asking_faults", "refusals"]


def refusals(item: Item, *, is_whole: bool, is_named: bool) -> list[Fault]:
    """Every fault that can be told of what was read, field paths only.

    is_whole : whether these are all the pieces of the file; else only what is wrong with these is asked, for the
               result, which the options are made from and held against, is not known
    is_named : whether the name is the item's own
    """
    faults = slip_faults(item)
    if not is_whole:  # a slip may happen to a piece that could not be read
        faults = [fault for fault in faults if fault.field.endswith(".slip")]
    try:
        placements = lay_pieces(item)
    except ItemError as error:
        return [*faults, *error.faults]
    if not is_whole or not placements:
        return faults
    return [*faults, *refused(item, Replays.of(item, placements), is_named=is_named)]


def asking_faults(item: Item, asks: Sequence[str], field: str) -> list[Fault]:
    """Stops before pieces that the item does not have.

    field : where they stand in the lesson's file
    """
    names = [piece.name for piece in item.pieces]
    return [
        Fault(
            field=field,
            message=f"{ask} is no place to stop: the item {item.name} has no piece called {name}",
            fix=f"name one of its pieces: {listed(names)}",
        )
        for ask in asks
        for name, dot, _ in [ask.partition(".")]
        if dot and name not in names
    ]

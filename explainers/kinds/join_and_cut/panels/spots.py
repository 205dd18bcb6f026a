"""Where a warning about the base or a piece is shown: in which panel, round which point."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ....choice.model import Warning_
from ....choice.panels.remarks import Spot, shortest_middle
from ....choice.question import WarningKind
from ..model import BASE, Item, PieceWarning
from ..solving.solution import JoinAndCutSolution

__all__ = ["spots"]

_PIECE = re.compile(r"pieces\[(\d+)\]")


def spots(warning: Warning_, solution: JoinAndCutSolution) -> Iterator[Spot]:
    """The place of a warning about the base or a piece; none for any other."""
    item = solution.item
    if warning.kind == WarningKind.FINE_SIDES and warning.field == "base":
        yield Spot(panel="base", at=shortest_middle(item.base.rings))
    found = _PIECE.match(warning.field)
    if found is None:
        return
    index = int(found[1])
    piece, own = item.pieces[index], f"piece-{index + 1}"
    if warning.kind == PieceWarning.NO_TURN:
        yield Spot(panel=f"step-{index + 1}", picture="turn", at=piece.mark)
    elif warning.kind == WarningKind.FINE_SIDES:
        yield Spot(panel=own, at=shortest_middle((piece.corners,)))
    else:
        partner = warning.field.endswith(".meets")
        yield Spot(panel=_panel_of(piece.of, item) if partner else own, at=piece.mark)


def _panel_of(owner: str, item: Item) -> str:
    names = [piece.name for piece in item.pieces]
    return "base" if owner == BASE or owner not in names else f"piece-{names.index(owner) + 1}"

"""Where the options of a printed question lie, for whoever turns them on the picture itself."""

from __future__ import annotations

from ..drawing.option_cells import OptionCells
from .sheet_model import SheetPart

__all__ = ["option_parts"]


def option_parts(cells: OptionCells) -> tuple[SheetPart, ...]:
    """Each option in order: it is turned about the middle of what it takes up, since that is what is kept in place."""
    labels = [verdict.label for verdict in cells.solution.verdicts]
    rooms = [cells.shape_of(label) for label in labels]
    return tuple(
        SheetPart(middle=room.middle, room=room, option=label) for label, room in zip(labels, rooms, strict=True)
    )

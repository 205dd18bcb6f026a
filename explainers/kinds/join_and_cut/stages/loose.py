"""The pieces of a question, to be moved about by hand as cut-outs on paper: nothing is said of where they lie."""

from __future__ import annotations

from ....storyboard.doing import Loose
from ..drawing.sheet import Sheet
from .handling import MOVE_UNITS, TURN_STEPS_DEG, grid_unit

__all__ = ["loose_pieces"]


def loose_pieces(sheet: Sheet) -> tuple[Loose, ...]:
    """The pieces of a question sheet, to be moved about over its base and beside it, never over the options."""
    solution = sheet.solution
    unit = grid_unit(solution.item.extent) * sheet.assembly.scale
    return tuple(
        Loose(
            name=solution.placements[index].piece.name,
            group=glide.group,
            about=(glide.about[0] + glide.by[0], glide.about[1] + glide.by[1]),
            reach=sheet.assembly.reach(index),
            room=sheet.band,
            moves=(MOVE_UNITS[0] * unit, MOVE_UNITS[1] * unit),
            turns_deg=TURN_STEPS_DEG,
        )
        for index in range(len(solution.placements))
        for glide in (sheet.piece_glide(index),)
    )

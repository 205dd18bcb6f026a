"""The outline of every option, in the option's own coordinates."""

from __future__ import annotations

from ....choice.question import Option
from ....choice.slip import SlipCase
from ....errors import Fault
from ....geometry.outline import Outline
from ..model import Item
from ..slips.diagnosis import Replays
from ..slips.model import CannotBeMade, MakesTheResult
from ..slips.registry import SLIPS

__all__ = ["option_outlines"]


def option_outlines(item: Item, replays: Replays) -> tuple[tuple[Outline | None, ...], list[Fault]]:
    """(one outline an option, None for those whose slip makes none, with the faults of these)."""
    outlines: list[Outline | None] = []
    faults: list[Fault] = []
    outline, tolerance = replays.scene.outline, replays.tolerance
    for index, option in enumerate(item.options):
        try:
            outlines.append(_outline_of(option, item, replays).simplified(_own(tolerance, option, outline)))
        except CannotBeMade as error:
            outlines.append(None)
            faults.append(
                Fault(
                    field=f"options[{index}].slip",
                    message=f"the slip {option.slip} gives no outline here: {error}",
                    fix="choose another slip or another piece, or draw the option by its corners",
                )
            )
    return tuple(outlines), faults


def _own(tolerance: float, option: Option, outline: Outline) -> float:
    """The tolerance in the option's own units: a drawn one may be typed to another scale."""
    if option.corners is None:
        return tolerance
    return tolerance * Outline.of(option.corners).larger_extent / outline.larger_extent


def _outline_of(option: Option, item: Item, replays: Replays) -> Outline:
    outline = replays.scene.outline
    if option.corners is not None:
        return Outline.of(option.corners, option.holes)
    if option.slip is None:
        return outline
    spec = SLIPS.get(option.slip)
    if spec is None or (spec.needs_piece and option.slip_piece not in {piece.name for piece in item.pieces}):
        return outline  # told already, with the field that is wrong
    try:
        return replays.slipped((SlipCase(slip=option.slip, subject=option.slip_piece),)).outline
    except MakesTheResult:  # a matter of soundness: two options are right then
        return outline

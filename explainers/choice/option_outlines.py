"""The outline of every option, in the option's own coordinates."""

from __future__ import annotations

from ..errors import Fault
from ..geometry.outline import Outline
from .question import Option, Question
from .slip import CannotBeMade, MakesTheResult, SlipCase, Slips, subjects_of

__all__ = ["option_outlines"]


def option_outlines(item: Question, slips: Slips) -> tuple[tuple[Outline | None, ...], list[Fault]]:
    """(one outline an option, None for those whose slip makes none, with the faults of these)."""
    outlines: list[Outline | None] = []
    faults: list[Fault] = []
    other = " or another piece" if subjects_of(slips) else ""
    for index, option in enumerate(item.options):
        try:
            outlines.append(_outline_of(option, slips).simplified(_own(slips.tolerance, option, slips.outline)))
        except CannotBeMade as error:
            outlines.append(None)
            faults.append(
                Fault(
                    field=f"options[{index}].slip",
                    message=f"the slip {option.slip} gives no outline here: {error}",
                    fix=f"choose another slip{other}, or draw the option by its corners",
                )
            )
    return tuple(outlines), faults


def _own(tolerance: float, option: Option, outline: Outline) -> float:
    """The tolerance in the option's own units: a drawn one may be typed to another scale."""
    if option.corners is None:
        return tolerance
    return tolerance * Outline.of(option.corners).larger_extent / outline.larger_extent


def _outline_of(option: Option, slips: Slips) -> Outline:
    if option.corners is not None:
        return Outline.of(option.corners, option.holes)
    if option.slip is None:
        return slips.outline
    case = SlipCase(slip=option.slip, subject=option.slip_piece)
    if not slips.knows(case):
        return slips.outline  # told already, with the field that is wrong
    try:
        return slips.made((case,))
    except MakesTheResult:  # a matter of soundness: two options are right then
        return slips.outline

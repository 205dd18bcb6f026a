"""Solving an item: the finished outline is the one that is shown; which option is it, turned?"""

from __future__ import annotations

from ...choice import solving
from ...errors import Fault, ItemError
from ...geometry import overlay
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Ring
from .model import TurnedOutline
from .slips.diagnosis import OutlineSlips
from .slips.registry import slip_faults
from .solution import TurnedOutlineAnswer, TurnedOutlineSolution

__all__ = ["answer", "refusals", "solve", "with_pairs"]


def answer(item: TurnedOutline) -> TurnedOutlineAnswer:
    """Which option is right; without a fit, a reason or a slip.

    Raises : as ``solve``
    """
    return solving.answered(_basis_for(item), TurnedOutlineAnswer)


def solve(item: TurnedOutline, slips: OutlineSlips | None = None) -> TurnedOutlineSolution:
    """Everything that is true of an item; one that asks for options to be made is handed on with them in it.

    slips  : of its outline, where they have been made before
    Raises : ItemError with every fault found, field paths only; an item that solves without exactly one right option
             raises nothing: the solution says why it is not sound
    """
    basis = _basis_for(item, slips)
    drawn: list[tuple[str, Ring]] = [("outline", ring) for ring in basis.slips.outline.rings]
    return solving.solved(basis, TurnedOutlineSolution, warned=(), drawn=drawn, pairs=False)


def with_pairs(solution: TurnedOutlineSolution) -> TurnedOutlineSolution:
    """What ``solve`` finds when pairs of slips are sought too, from a solution for which they were not."""
    return solving.with_pairs(solution, lambda solution: OutlineSlips.of(solution.item))


def refusals(item: TurnedOutline, *, is_named: bool) -> list[Fault]:
    """What is wrong with an item whose file has other faults, field paths only.

    is_named : whether the name is the item's own
    """
    faults = [*_malformed(item), *slip_faults(item)]
    return faults or solving.refused(item, OutlineSlips.of(item), is_named=is_named)


def _basis_for(item: TurnedOutline, slips: OutlineSlips | None = None) -> solving.VerdictBasis:
    """Raises : as ``solve``"""
    faults = [*_malformed(item), *slip_faults(item)]
    if any(fault.field == "outline" for fault in faults):
        raise ItemError(faults)
    return solving.basis_for(item, slips or OutlineSlips.of(item), faults)


def _malformed(item: TurnedOutline) -> list[Fault]:
    """Faults of outlines that are none: a reader refuses them earlier, but an item may be built without one."""
    shapes = [("outline", item.outline)]
    shapes += [
        (f"options[{index}].corners", Outline.of(option.corners, option.holes))
        for index, option in enumerate(item.options)
        if option.corners is not None
    ]
    return [
        Fault(
            field=field,
            message="the outline crosses or touches itself, or a hole is not inside it",
            fix="list the corners in order round the outline, so that no two sides cross",
        )
        for field, shape in shapes
        if not overlay.is_simple(shape)
    ]

"""Solving an item: from marks alone to where every piece lies, what comes of it, which option shows it."""

from __future__ import annotations

from functools import partial

from ....choice import solving
from ....choice.solving import refused
from ....errors import Fault, ItemError
from ....geometry.rigid_motion import Ring
from ..model import Item
from ..slips.diagnosis import Replays
from ..slips.registry import slip_faults
from .laying import laid_so_far, lay_pieces, malformed
from .placement import Placement
from .readings import readings
from .solution import JoinAndCutAnswer, JoinAndCutSolution

__all__ = ["answer", "lay_pieces", "refusals", "solve", "with_pairs"]


def answer(item: Item) -> JoinAndCutAnswer:
    """Where the pieces lie, what comes of it, which option is right; without a fit, a reason or a slip.

    Raises : as ``solve``
    """
    placements, basis = _basis_for(item)
    return solving.answered(basis, partial(JoinAndCutAnswer, placements=placements))


def solve(item: Item, *, pairs: bool = False) -> JoinAndCutSolution:
    """Everything that is true of an item; one that asks for options to be made is handed on with them in it.

    pairs  : whether pairs of slips are sought too for options drawn by hand that no single slip makes
    Raises : ItemError with every fault found, field paths only; an item that solves without exactly one right option
             raises nothing: the solution says why it is not sound
    """
    placements, basis = _basis_for(item)
    drawn: list[tuple[str, Ring]] = [("base", ring) for ring in item.base.simplified(0.0).rings]
    drawn += [(f"pieces[{i}].corners", piece.corners) for i, piece in enumerate(item.pieces)]
    drawn += [("pieces", ring) for ring in basis.slips.outline.rings]
    return solving.solved(
        basis,
        partial(JoinAndCutSolution, placements=placements),
        warned=tuple(readings(item, placements)),
        drawn=drawn,
        pairs=pairs,
    )


def with_pairs(solution: JoinAndCutSolution) -> JoinAndCutSolution:
    """What ``solve`` finds when pairs of slips are sought too, from a solution for which they were not."""
    return solving.with_pairs(solution, lambda solution: Replays.of(solution.item, solution.placements))


def _basis_for(item: Item) -> tuple[tuple[Placement, ...], solving.VerdictBasis]:
    """The pieces laid, the options drawn.

    Raises : as ``solve``
    """
    faults = [*malformed(item), *slip_faults(item)]
    if any(fault.field.startswith(("base", "pieces")) for fault in faults):
        raise ItemError(faults)
    placements, unlaid = laid_so_far(item, None)
    if unlaid:
        raise ItemError([*faults, *unlaid])
    return placements, solving.basis_for(item, Replays.of(item, placements), faults)


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

"""Solving an item: from marks alone to where every piece lies, what comes of it, which option shows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ....choice import soundness
from ....choice.making import with_made_options
from ....choice.model import Answer, Judgement, Placement, Solution
from ....choice.verdicts import judgements, verdicts
from ....errors import ItemError
from ....geometry.outline import Outline
from ....geometry.symmetry import rotational_symmetry_order
from ....geometry.tolerance import authoring_tolerance
from ..model import Item
from ..slips.diagnosis import Replays, diagnosed_pair
from ..slips.model import Scene
from ..slips.registry import slip_faults
from .laying import laid_so_far, lay_pieces, malformed
from .option_outlines import option_outlines

__all__ = ["answer", "lay_pieces", "solve", "with_pairs"]


def answer(item: Item) -> Answer:
    """Where the pieces lie, what comes of it, which option is right; without a fit, a reason or a slip.

    Raises : as ``solve``
    """
    ground = _grounded(item)
    judged = judgements(ground.options, ground.outline, ground.tolerance)
    key, because = _ruled(judged, ground)
    return Answer(
        item=ground.item,
        placements=ground.placements,
        outline=ground.outline,
        verdicts=judged,
        key=key,
        sound=not because,
        unsound_because=because,
    )


def solve(item: Item, *, pairs: bool = False) -> Solution:
    """Everything that is true of an item; one that asks for options to be made is handed on with them in it.

    pairs  : whether pairs of slips are sought too for options drawn by hand that no single slip makes
    Raises : ItemError with every fault found, field paths only; an item that solves without exactly one right option
             raises nothing: the solution says why it is not sound
    """
    ground = _grounded(item)
    item, outline = ground.item, ground.outline
    # Options that were asked for may be made by two slips, and are written by their corners then.
    pairs = pairs or item.made is not None
    judged = verdicts(item, ground.options, ground.replays, pairs=pairs)
    key, because = _ruled(judged, ground)
    order = rotational_symmetry_order(outline, ground.tolerance)
    found = soundness.warnings(item, ground.placements, outline, judged, order)
    accepted = {entry.kind for entry in item.accepted}
    return Solution(
        item=item,
        placements=ground.placements,
        outline=outline,
        verdicts=judged,
        key=key,
        sound=not because,
        unsound_because=because,
        warnings=tuple(warning for warning in found if warning.kind not in accepted),
        symmetry_order=order,
        accepted=tuple(warning for warning in found if warning.kind in accepted),
    )


def with_pairs(solution: Solution) -> Solution:
    """What ``solve`` finds when pairs of slips are sought too, from a solution for which they were not.

    Nothing is laid or judged again: a pair of slips is the one thing that may be added to an option.
    """
    item = solution.item
    hard = [verdict for verdict in solution.verdicts if not verdict.same and verdict.slip is None]
    if item.made is not None or not hard:
        return solution  # for options that were asked for, pairs have been sought already
    scene = Scene(item=item, placements=solution.placements, outline=solution.outline)
    replays = Replays(scene, authoring_tolerance(item.extent))
    slips = {verdict.label: diagnosed_pair(verdict.label, verdict.outline, replays) for verdict in hard}
    verdicts = (replace(verdict, slip=slips.get(verdict.label, verdict.slip)) for verdict in solution.verdicts)
    return replace(solution, verdicts=tuple(verdicts))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ground:
    """What verdicts stand on."""

    item: Item  # with its options, made or written
    tolerance: float
    placements: tuple[Placement, ...]
    outline: Outline
    replays: Replays
    options: tuple[Outline, ...]  # in their own coordinates


def _grounded(item: Item) -> _Ground:
    """The pieces laid, the options drawn.

    Raises : as ``solve``
    """
    tolerance = authoring_tolerance(item.extent)
    faults = [*malformed(item), *slip_faults(item)]
    placements: tuple[Placement, ...] = ()
    if not any(fault.field.startswith(("base", "pieces")) for fault in faults):
        placements, laying = laid_so_far(item, None)
        faults.extend(laying)
        if not laying:
            outline = placements[-1].after if placements else item.base.simplified(tolerance)
            if item.made is not None and not item.options:
                item = with_made_options(item, item.made, placements, outline, tolerance)
            replays = Replays(Scene(item=item, placements=placements, outline=outline), tolerance)
            known, refused = option_outlines(item, replays)
            faults.extend(fault for fault in refused if fault not in faults)
            if faults:  # else the verdicts will tell
                faults.extend(soundness.repeated_outlines(known, outline, tolerance))
            options = tuple(shape for shape in known if shape is not None)
    if faults:
        raise ItemError(faults)
    return _Ground(
        item=item, tolerance=tolerance, placements=placements, outline=outline, replays=replays, options=options
    )


def _ruled(judged: Sequence[Judgement], ground: _Ground) -> tuple[str | None, tuple[str, ...]]:
    """(the label of the right option where there is exactly one, else why there is not).

    Raises : ItemError where two wrong options are the same outline
    """
    repeated = soundness.repeated_options(judged, ground.outline, ground.tolerance)
    if repeated:
        raise ItemError(repeated)
    because = soundness.unsound_because(judged)
    return (None if because else next(one.label for one in judged if one.same)), because

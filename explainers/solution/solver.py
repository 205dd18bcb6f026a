"""Solving an item: from marks alone to where every piece lies, what comes of it, which option shows it."""

from __future__ import annotations

from ..errors import ItemError
from ..geometry.symmetry import rotational_symmetry_order
from ..geometry.tolerance import authoring_tolerance
from ..item.model import Item
from . import soundness
from .diagnosis import Replays
from .laying import laid_so_far, lay_pieces, malformed
from .making import with_made_options
from .model import Placement, Solution
from .option_outlines import option_outlines
from .slips.model import Scene
from .slips.registry import slip_faults
from .verdicts import verdicts

__all__ = ["lay_pieces", "solve"]


def solve(item: Item, *, pairs: bool = False, slips: bool = True) -> Solution:
    """Everything that is true of an item; one that asks for options to be made is handed on with them in it.

    slips  : whether the slip behind an option drawn by hand is sought: turns, outline and verdicts do not need it
    pairs  : whether pairs of slips are sought too for options drawn by hand that no single slip makes
    Raises : ItemError with every fault found, field paths only; an item that solves without exactly one right option
             raises nothing: the solution says why it is not sound
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
            outlines, refused = option_outlines(item, replays)
            faults.extend(fault for fault in refused if fault not in faults)
    if faults:
        raise ItemError(faults)
    # Options that were asked for may be made by two slips, and are written by their corners then.
    judged = verdicts(item, outlines, replays, pairs=pairs or item.made is not None, slips=slips)
    same_faults = soundness.repeated_options(judged, outline, tolerance)
    if same_faults:
        raise ItemError(same_faults)
    order = rotational_symmetry_order(outline, tolerance)
    because = soundness.unsound_because(judged)
    key = None if because else next(verdict.label for verdict in judged if verdict.same)
    found = soundness.warnings(item, placements, outline, judged, order)
    accepted = {entry.kind for entry in item.accepted}
    return Solution(
        item=item,
        placements=placements,
        outline=outline,
        verdicts=judged,
        key=key,
        sound=not because,
        unsound_because=because,
        warnings=tuple(warning for warning in found if warning.kind not in accepted),
        symmetry_order=order,
        accepted=tuple(warning for warning in found if warning.kind in accepted),
    )

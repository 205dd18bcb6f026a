"""Solving an item as a learner who slips takes it: what comes of it, or why nothing does."""

from __future__ import annotations

from ...errors import ItemError
from ..laying import laid_so_far
from .model import CannotBeMade, Slipped, Work

__all__ = ["replayed"]


def replayed(work: Work) -> Slipped:
    """Lay the pieces of a changed item.

    Raises : CannotBeMade where they do not lie as an item's must
    """
    placements, faults = laid_so_far(work.item, dict(work.slip_turns))
    if faults:
        raise CannotBeMade(faults[0].message) from ItemError(faults)
    outline = placements[-1].after if placements else work.item.base
    return Slipped(outline=outline.mirrored() if work.turned_over else outline, placements=placements)

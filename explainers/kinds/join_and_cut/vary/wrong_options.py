"""The wrong options of a sibling: the slips of the original wherever they can be made, others in the place of the rest.

Every two, the result included, are told apart at a glance at the size shown, by the same measure as made options.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

from ....choice.option_search import LEAST_GAP, apart
from ....choice.slip import CannotBeMade, SlipCase
from ....choice.soundness import NEARLY_RIGHT, TOO_FINE_OPTION
from ....geometry.outline import Outline
from ....geometry.rings import diameter, shortest_side
from ....geometry.tolerance import authoring_tolerance
from ..model import Item
from ..slips.model import SolvedItem
from ..slips.registry import make, slip_cases
from ..solving.placement import Placement
from .effort import Costs, Effort

__all__ = ["wrong_options"]

MOST_AREA_OFF = 0.25  # of the result's area: what differs by more is ruled out without thinking
MOST_CORNERS_OFF = 2


def wrong_options(
    rng: Random,
    wanted: Sequence[SlipCase | None],
    without: Sequence[str],
    item: Item,
    placements: tuple[Placement, ...],
    *,
    most_lost: int,
    effort: Effort,
) -> list[tuple[SlipCase, Outline]] | None:
    """One slip, with what it makes, in the place of each that is wanted; None where too few can be made.

    wanted    : None leaves the slip open
    without   : slips that are not wanted in the open places
    item      : base and pieces; its options are not looked at
    effort    : is spent on options; with none left, none is found
    most_lost : how many of those that are wanted may give way to others
    """
    outline = placements[-1].after
    bench = _Bench(SolvedItem(item=item, placements=placements, outline=outline), [outline], effort)
    chosen: list[tuple[SlipCase, Outline] | None] = []
    lost = 0
    for case in wanted:
        made = bench.made(case) if case is not None else None
        if made is not None and not bench.takes(made):
            made = None
        lost += case is not None and made is None
        if lost > most_lost:
            return None
        chosen.append((case, made) if case is not None and made is not None else None)
    spare = [case for case in slip_cases(item) if case not in wanted and case.slip not in without]
    rng.shuffle(spare)
    for place in range(len(chosen)):
        if chosen[place] is None:
            chosen[place] = bench.best(spare, [one[0] for one in chosen if one])
            if chosen[place] is None:
                return None
    return [one for one in chosen if one is not None]


@dataclass
class _Bench:
    """The outlines taken so far, the result first, with the gaps between them."""

    solved_item: SolvedItem
    taken: list[Outline]
    effort: Effort
    _gaps: list[float] = field(default_factory=list)
    _made: dict[SlipCase, Outline | None] = field(default_factory=dict)

    def made(self, case: SlipCase) -> Outline | None:
        """What the slip makes; None where it makes nothing that could be an option."""
        if case not in self._made:
            try:
                outline = make(case, self.solved_item).outline
                self._made[case] = outline.simplified(authoring_tolerance(self.solved_item.item.extent))
            except (CannotBeMade, KeyError):  # KeyError: a slip that only an older file knows
                self._made[case] = None
        return self._made[case]

    def takes(self, outline: Outline) -> bool:
        """Whether the outline is told from all that are taken, at the scale that the longest asks for; then it is."""
        gaps: list[float] = []
        everyone = (*self.taken, outline)
        largest = max(diameter(one.exterior) for one in everyone)
        least = LEAST_GAP * largest
        # All are drawn to one scale, so a large option makes the sides of the others finer.
        finest = shortest_side(ring for one in everyone for ring in one.rings)
        if finest < TOO_FINE_OPTION * largest or min(self._gaps, default=least) < least:
            return False
        if not self.effort.spend(Costs.OPTION):
            return False
        for other in self.taken:
            found, difference = apart(outline, other, least)
            if found < least or (other is self.taken[0] and difference < 1.5 * NEARLY_RIGHT * other.area):
                return False
            gaps.append(found)
        self.taken.append(outline)
        self._gaps += gaps
        return True

    def best(self, spare: list[SlipCase], used: list[SlipCase]) -> tuple[SlipCase, Outline] | None:
        """The first spare slip that can be taken, those first that look most like the result and are not used yet."""
        result = self.taken[0]

        def rank(case: SlipCase) -> tuple[int, int]:
            outline = self.made(case)
            if outline is None:
                return 9, 0
            area_off = abs(outline.area / result.area - 1.0) > MOST_AREA_OFF
            corners_off = abs(outline.corner_count - result.corner_count) > MOST_CORNERS_OFF
            holes_off = len(outline.holes) != len(result.holes)  # counted without a look at their shapes
            return area_off + corners_off + holes_off, sum(one.slip == case.slip for one in used)

        for case in sorted(spare, key=rank):
            outline = self.made(case)
            spare.remove(case)
            if outline is not None and self.takes(outline):
                return case, outline
        return None

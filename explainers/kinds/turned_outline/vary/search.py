"""New questions, found one after the other: sound, of the same build, none like another even when flipped."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from random import Random

from ....choice.making import with_made_options
from ....choice.new_outlines import base_ring, is_fair
from ....choice.new_titles import new_title
from ....choice.option_search import LEAST_GAP, Cases, apart
from ....choice.presentation import rng_for
from ....choice.question import MadeOptions
from ....choice.slip import FLIPPED, CannotBeMade, SlipCase
from ....choice.soundness import NEARLY_RIGHT, TOO_FINE_OPTION
from ....choice.variations import Level, Variation, Variations
from ....errors import ItemError, UnsoundItemError
from ....geometry.congruence import Match, congruence, is_chiral, rotational_symmetry_order
from ....geometry.nesting import Nesting, relation
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring
from ....geometry.rings import diameter, extent, shortest_side
from ....geometry.tolerance import authoring_tolerance
from ..model import TurnedOutline
from ..slips.diagnosis import OutlineSlips
from ..solution import TurnedOutlineSolution
from ..solver import solve
from .build import Build, build_of, wished
from .comments import changes, comment, nothing_to_change, too_few

__all__ = ["varied"]

MOST_TRIES = 6000  # outlines drawn, for each new question
MOST_MADE = 4  # of these, those for which options are made
MOST_SEED = 2**31 - 1
LARGEST_HOLE, SMALLEST_HOLE = 0.5, 0.2  # of the larger extent


class _Wanted(OutlineSlips):
    """The slips of an outline that are wanted: none that leaves a side too fine to be seen, only some flipped."""

    def __init__(self, outline: Outline, tolerance: float, *, flips: bool) -> None:
        super().__init__(outline, tolerance)
        self._flips = flips
        self._size = diameter(outline.exterior)

    def singles(self) -> Iterator[Cases]:
        """As of ``Slips``."""
        return filter(self._is_wanted, OutlineSlips.singles(self))

    def pairs(self) -> Iterator[Cases]:
        """As of ``Slips``."""
        return filter(self._is_wanted, OutlineSlips.pairs(self))

    def further(self) -> Iterator[tuple[Cases, Outline]]:
        """As of ``Slips``."""
        return ((cases, outline) for cases, outline in OutlineSlips.further(self) if self._is_seen(outline))

    def made(self, cases: Cases) -> Outline:
        """As of ``Slips``."""
        outline = OutlineSlips.made(self, cases)
        if not self._is_seen(outline):
            raise CannotBeMade("a side would be too fine to be seen")
        return outline

    def _is_wanted(self, cases: Cases) -> bool:
        return self._flips or all(case.slip != FLIPPED for case in cases)

    def _is_seen(self, outline: Outline) -> bool:
        return shortest_side(outline.rings) >= TOO_FINE_OPTION * max(self._size, diameter(outline.exterior))


def varied(original: TurnedOutlineSolution, *, count: int, seed: int, level: Level) -> Variations:
    """As many new questions as can be found; the same for the same original, seed and level.

    The first of a longer run are those of a shorter one.

    Raises : UnsoundItemError for an original that is not sound itself
    """
    if not original.sound:
        raise UnsoundItemError(f"{original.item.name}: unsound: {' '.join(original.unsound_because)}")
    build = build_of(original)
    goal = wished(build, level)
    if goal is None:
        return Variations(found=(), too_few=nothing_to_change(original.item.name, level), nothing_to_change=True)
    found: list[Variation] = []
    run = _Run(original, goal, level, seed, [original.outline])
    for number in range(1, count + 1):
        item = run.found(number)
        if item is None:
            few = too_few(original.item.name, goal, found=len(found), wanted=count, drawn=run.drawn, made=run.made)
            return Variations(found=tuple(found), too_few=few)
        told = changes(build, goal, level)
        lines = comment(original.item.name, number, seed=seed, level=level, build=goal, changes=told)
        found.append(Variation(question=item, comment=lines, changes=told))
    return Variations(found=tuple(found))


@dataclass
class _Run:
    """One search: what is wished for, and the outlines that are there already."""

    original: TurnedOutlineSolution
    goal: Build
    level: Level
    seed: int
    taken: list[Outline] = field(default_factory=list)
    drawn: int = 0  # outlines, for the question sought last
    made: int = 0  # of these, those for which options were made

    def found(self, number: int) -> TurnedOutline | None:
        """The next new question; None where the tries run out, which `drawn` and `made` then tell more of."""
        rng = rng_for(self.seed, self.original.item.name, f"new outline {self.level} {number}")
        self.drawn = self.made = 0
        for _ in range(MOST_TRIES):
            outline = _drawn(rng, self.goal, self.original.outline)
            self.drawn += outline is not None
            if outline is None or not self._is_new(outline):
                continue
            self.made += 1
            item = self._proved(outline, rng.randint(0, MOST_SEED), number)
            if item is not None:
                self.taken.append(outline)
                return item
            if self.made == MOST_MADE:
                break
        return None

    def _is_new(self, outline: Outline) -> bool:
        tolerance = authoring_tolerance(outline.larger_extent)
        if not is_fair(outline) or shortest_side(outline.rings) < TOO_FINE_OPTION * diameter(outline.exterior):
            return False
        if rotational_symmetry_order(outline, tolerance) > 1:
            return False
        # An outline that is its own mirror image would make a flipped option right.
        if self.goal.flips and not is_chiral(outline, tolerance):
            return False
        nears = ((other, authoring_tolerance(other.larger_extent)) for other in self.taken)
        if any(congruence(outline, other, near).kind is not Match.DIFFERENT for other, near in nears):
            return False
        return not self.goal.flips or _is_told(outline.mirrored(), outline)

    def _proved(self, outline: Outline, seed: int, number: int) -> TurnedOutline | None:
        """The question, where the solver finds it sound, without a warning and of the build that was wished for."""
        item = self._named(outline, number)
        tolerance = authoring_tolerance(item.extent)
        slips = _Wanted(outline.simplified(tolerance), tolerance, flips=self.goal.flips)
        made = MadeOptions(make=self.goal.wrong, seed=seed)
        always = ((SlipCase(slip=FLIPPED),),) if self.goal.flips else ()
        try:
            solution = solve(replace(with_made_options(item, made, slips, always), made=None), slips)
        except (ItemError, CannotBeMade):
            return None
        if not solution.sound or solution.warnings or build_of(solution) != self.goal:
            return None
        return solution.item

    def _named(self, outline: Outline, number: int) -> TurnedOutline:
        original = self.original.item
        level = "" if self.level is Level.SAME else f"-{self.level}"
        return TurnedOutline(
            name=f"{original.name}{level}-{self.seed}-{number}",
            title=new_title(original.name, seed=self.seed, level=self.level, number=number),
            outline=outline,
        )


def _is_told(made: Outline, outline: Outline) -> bool:
    """Whether an outline may be an option beside the right one."""
    least = LEAST_GAP * max(diameter(made.exterior), diameter(outline.exterior))
    gap, difference = apart(made, outline, least)
    return gap >= least and difference >= NEARLY_RIGHT * outline.area


def _drawn(rng: Random, goal: Build, original: Outline) -> Outline | None:
    """An outline with the corners that are wished for; None where a try came to nothing."""
    if goal.is_round:
        exterior: Ring | None = original.exterior
    else:
        least = 4 if goal.corners < 10 else 6
        sizes = rng.randint(least, least + 4), rng.randint(least - 1, least + 3)
        exterior = _typed(base_ring(rng, goal.corners, width=sizes[0], height=sizes[1]))
    if exterior is None:
        return None
    holes: list[Ring] = []
    for corners in goal.holes:
        hole = _hole(rng, corners, exterior)
        if hole is None or relation(exterior, hole, 0.0).kind is not Nesting.WITHIN:
            return None
        if any(relation(other, hole, 0.0).kind is not Nesting.APART for other in holes):
            return None
        holes.append(hole)
    return Outline.of(exterior, holes)


def _hole(rng: Random, corners: int, exterior: Ring) -> Ring | None:
    """A hole somewhere in the box of the exterior, in steps of half a unit where that is drawn on squares."""
    left, bottom, right, top = extent(exterior)
    size = max(right - left, top - bottom)
    wide, high = (1 if corners < 5 else 3, 4) if corners < 7 else (4, 6)
    ring = _typed(base_ring(rng, corners, width=rng.randint(wide, high), height=rng.randint(wide, high)))
    if ring is None:
        return None
    _, _, width, height = extent(ring)
    unit = rng.choice((0.5, 1.0))
    unit *= max(1.0, math.floor(2.0 * SMALLEST_HOLE * size / (unit * max(width, height))) / 2.0)
    if unit * max(width, height) > LARGEST_HOLE * size:
        return None
    x = left + 0.5 * rng.randint(1, max(1, math.floor(2.0 * (right - left - unit * width)) - 1))
    y = bottom + 0.5 * rng.randint(1, max(1, math.floor(2.0 * (top - bottom - unit * height)) - 1))
    return tuple((round(x + unit * px, 3), round(y + unit * py, 3)) for px, py in ring)


def _typed(ring: tuple[tuple[int, int], ...] | None) -> Ring | None:
    return ring and tuple((float(x), float(y)) for x, y in ring)

"""New questions, found one after the other: sound, of the same build, none like another even when flipped."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from random import Random

from ....choice.making import with_made_options
from ....choice.new_outlines import base_ring, is_fair
from ....choice.new_titles import new_title
from ....choice.presentation import rng_for
from ....choice.question import MadeOptions
from ....choice.slip import FLIPPED, SlipCase
from ....choice.variations import Level, Variation, Variations
from ....errors import ItemError, UnsoundItemError
from ....geometry.congruence import Match, congruence, is_chiral, rotational_symmetry_order
from ....geometry.nesting import Nesting, relation
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring
from ....geometry.rings import extent
from ....geometry.tolerance import authoring_tolerance
from ..model import TurnedOutline
from ..slips.diagnosis import OutlineSlips
from ..solution import TurnedOutlineSolution
from ..solver import solve
from .build import Build, build_of, wished
from .comments import changes, comment, too_few

__all__ = ["varied"]

MOST_TRIES = 3000  # outlines drawn, for each new question
MOST_MADE = 16  # of these, those for which options are made
MOST_SEED = 2**31 - 1
LARGEST_HOLE, SMALLEST_HOLE = 0.5, 0.2  # of the larger extent


class _Wanted(OutlineSlips):
    """The slips of an outline, without those that turn it over where none is wished for."""

    def __init__(self, outline: Outline, tolerance: float, *, flips: bool) -> None:
        super().__init__(outline, tolerance)
        self._flips = flips

    def singles(self) -> Iterator[tuple[SlipCase, ...]]:
        """As of ``Slips``."""
        return filter(self._is_wished, OutlineSlips.singles(self))

    def pairs(self) -> Iterator[tuple[SlipCase, ...]]:
        """As of ``Slips``."""
        return filter(self._is_wished, OutlineSlips.pairs(self))

    def _is_wished(self, cases: tuple[SlipCase, ...]) -> bool:
        return self._flips or all(case.slip != FLIPPED for case in cases)


def varied(original: TurnedOutlineSolution, *, count: int, seed: int, level: Level) -> Variations:
    """As many new questions as can be found; the same for the same original, seed and level.

    The first of a longer run are those of a shorter one.

    Raises : UnsoundItemError for an original that is not sound itself
    """
    if not original.sound:
        raise UnsoundItemError(f"{original.item.name}: unsound: {' '.join(original.unsound_because)}")
    build = build_of(original)
    goal = wished(build, level)
    found: list[Variation] = []
    if goal is not None:
        run = _Run(original, goal, level, seed, [original.outline])
        for number in range(1, count + 1):
            item = run.found(number)
            if item is None:
                break
            told = changes(build, goal, level)
            lines = comment(original.item.name, number, seed=seed, level=level, build=goal, changes=told)
            found.append(Variation(question=item, comment=lines, changes=told))
    few = too_few(original.item.name, level, found=len(found), wanted=count, nothing_to_change=goal is None)
    return Variations(found=tuple(found), too_few=few if len(found) < count else "", nothing_to_change=goal is None)


@dataclass
class _Run:
    """One search: what is wished for, and the outlines that are there already."""

    original: TurnedOutlineSolution
    goal: Build
    level: Level
    seed: int
    taken: list[Outline] = field(default_factory=list)

    def found(self, number: int) -> TurnedOutline | None:
        """The next new question; None where the tries run out."""
        rng = rng_for(self.seed, self.original.item.name, f"new outline {self.level} {number}")
        made = 0
        for _ in range(MOST_TRIES):
            outline = _drawn(rng, self.goal, self.original.outline)
            if outline is None or not self._is_new(outline):
                continue
            made += 1
            item = self._proved(outline, rng.randint(0, MOST_SEED), number)
            if item is not None:
                self.taken.append(outline)
                return item
            if made == MOST_MADE:
                break
        return None

    def _is_new(self, outline: Outline) -> bool:
        tolerance = authoring_tolerance(outline.larger_extent)
        if not is_fair(outline) or rotational_symmetry_order(outline, tolerance) > 1:
            return False
        # An outline that is its own mirror image would make a flipped option right.
        if self.goal.flips and not is_chiral(outline, tolerance):
            return False
        nears = ((other, authoring_tolerance(other.larger_extent)) for other in self.taken)
        return all(congruence(outline, other, near).kind is Match.DIFFERENT for other, near in nears)

    def _proved(self, outline: Outline, seed: int, number: int) -> TurnedOutline | None:
        """The question, where the solver finds it sound, without a warning and of the build that was wished for."""
        item = self._named(outline, number)
        tolerance = authoring_tolerance(item.extent)
        slips = _Wanted(outline.simplified(tolerance), tolerance, flips=self.goal.flips)
        made = MadeOptions(make=self.goal.wrong, seed=seed)
        try:
            solution = solve(replace(with_made_options(item, made, slips), made=None))
        except ItemError:
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

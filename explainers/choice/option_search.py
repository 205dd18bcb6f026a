"""The search for wrong options among what slips make: told apart at a glance, from several slips, near the result.

A slip alone first; then other ways in which one may happen, and two slips together, where single ones are not enough.
Where there are hardly more single slips than are asked for, most seeds take one such option too: else every seed would
give the same. Every subject of slips, such as a piece, has an option where it can have one.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import combinations

from ..document.yaml_text import decimals_for
from ..geometry.congruence import motions_onto
from ..geometry.fit import best_fit
from ..geometry.hausdorff import hausdorff_distance
from ..geometry.outline import Outline
from ..geometry.rings import diameter, shortest_side
from ..geometry.signature import Signature
from .presentation import rng_for
from .question import Option
from .slip import CannotBeMade, SlipCase, Slips, subjects_of
from .soundness import NEARLY_RIGHT

__all__ = ["FINE", "LEAST_GAP", "LEAST_SLIPS", "Candidate", "Cases", "OptionSearch", "apart", "said"]

Cases = tuple[SlipCase, ...]

# The largest distance between two best-aligned options, as a part of the longest line through any of them. All share
# one scale, at which the longest has room in its cell however it is turned. The smallest cell that options come to
# (three in a row of the tray; six in a row of the sheet are next) leaves 1.62 units of the stage: 194 px at 1080p,
# 30 mm on A4 laid crosswise. 24 px are then 0.124 of it, 3 mm 0.1.
LEAST_GAP = 0.125
LEAST_SLIPS = 3  # different ones, or as many as there are, or are options
MOST_AREA_OFF = 0.25  # of the result's area: what differs by more is ruled out without thinking
MOST_CORNERS_OFF = 2
FINE = 0.112  # of the longest line: sides shorter than this are hard to see in a row of options
MEASURED = 400  # gaps measured before a choice is given up
PAIRS_TRIED = (40, 160, 600)  # pairs of slips that are looked at, round by round, where single slips are not enough
FEW = 2  # times as many single slips as are asked for: with no more, seeds hardly differ
UNUSUAL = 0.7  # part of the seeds that take an option of another making then
UNUSUAL_TRIED = 8
RESULT = -1  # the result's index among the candidates


@dataclass(frozen=True, eq=False)
class Candidate:
    """A wrong option that could be shown."""

    index: int  # in the order of finding
    chance: float  # decides between candidates that are equally good
    cases: Cases
    outline: Outline
    reach: float  # the longest line through it: whatever its turn, it is no wider or higher
    flaws: int  # how much it stands out from the result
    is_usual: bool = True  # one slip, in the way that its name stands for; what is not is written by its corners

    @property
    def slips(self) -> frozenset[str]:
        """By name."""
        return frozenset(case.slip for case in self.cases)

    @property
    def subjects(self) -> frozenset[str]:
        """What the slips happen to."""
        return frozenset(case.subject for case in self.cases if case.subject is not None)

    @property
    def option(self) -> Option:
        """As a teacher would write it."""
        if self.is_usual:
            return Option(slip=self.cases[0].slip, slip_subject=self.cases[0].subject)
        decimals = decimals_for(self.outline.exterior)
        exterior, *holes = (
            tuple((round(x, decimals), round(y, decimals)) for x, y in ring) for ring in self.outline.rings
        )
        return Option(corners=exterior, holes=tuple(holes))


@dataclass
class OptionSearch:
    """The choice of wrong options for one item."""

    name: str  # the item's
    make: int  # how many, those that are kept included
    seed: int
    slips: Slips
    outline_given: bool = False  # as `Question.outline_given`
    kept: tuple[tuple[Cases, Outline], ...] = ()  # wrong options that stay; no cases where no slip is known
    barred: tuple[Outline, ...] = ()  # outlines that may not come again
    refused: list[tuple[Cases, str]] = field(default_factory=list)  # slips with why nothing came of them
    subjects: frozenset[str] = frozenset()  # what slips may happen to
    most: tuple[Candidate, ...] = ()  # the largest choice so far that keeps the rules
    pool: list[Candidate] = field(default_factory=list)
    _signatures: dict[int, tuple[Outline, Signature]] = field(default_factory=dict)
    _gaps: dict[tuple[int, int], float] = field(default_factory=dict)  # by index, smaller first
    _reach: float = 0.0  # of the result
    _left: int = 0  # gaps that may still be measured
    standing: tuple[Candidate, ...] = ()  # what is kept

    def __post_init__(self) -> None:
        self._reach = diameter(self.outline.exterior)
        self.subjects = subjects_of(self.slips)
        self.standing = tuple(
            Candidate(
                index=RESULT - 1 - at, chance=0.0, cases=cases, outline=shape, reach=diameter(shape.exterior), flaws=0
            )
            for at, (cases, shape) in enumerate(self.kept)
        )

    @property
    def outline(self) -> Outline:
        """The result."""
        return self.slips.outline

    def chosen(self) -> tuple[Candidate, ...] | None:
        """Candidates that may stand beside each other and beside what is kept; None where there are not enough."""
        rng = rng_for(self.seed, self.name, "slips")
        self.gather(rng, self.slips.singles())
        unusual = rng_for(self.seed, self.name, "unusual")
        few = len(self.pool) <= FEW * (self.make - len(self.kept))
        pairs = list(self.slips.pairs())
        if few and unusual.random() < UNUSUAL:
            unusual.shuffle(pairs)
            self._gather_further(unusual)
            self.gather(unusual, pairs[: PAIRS_TRIED[0]])
            found = self._with_one_unusual() or self._choice()
            if found is not None:
                return found
        else:
            found = self._choice()
            if found is not None:
                return found
            self._gather_further(unusual)
            found = self._choice()
            if found is not None:
                return found
            rng.shuffle(pairs)
        start = 0
        for end in PAIRS_TRIED:
            if start >= len(pairs):
                break
            self.gather(rng, pairs[start:end])
            found = self._choice()
            if found is not None:
                return found
            start = end
        return None

    def gather(self, rng: random.Random, cases: Iterable[Cases]) -> None:
        """Add to the pool what these slips make."""
        known = {each for each, _ in self.refused} | {one.cases for one in self.pool}
        for together in cases:
            if together in known:
                continue
            try:
                outline = self.slips.made(together).simplified(self.slips.tolerance)
            except CannotBeMade as error:
                self.refused.append((together, str(error)))
                continue
            self._add(rng, together, outline, is_usual=len(together) == 1)

    def _gather_further(self, rng: random.Random) -> None:
        """Add other ways in which single slips may happen."""
        for cases, outline in self.slips.further():
            self._add(rng, cases, outline.simplified(self.slips.tolerance), is_usual=False)

    def _add(self, rng: random.Random, cases: Cases, outline: Outline, *, is_usual: bool) -> None:
        if any(self._same(outline, other) for other in self.barred):
            return
        everyone = (*self.standing, *self.pool)
        twin = next((one for one in everyone if self._same(outline, one.outline)), None)
        if twin is not None:
            if len(cases) > 1 or is_usual:
                self.refused.append((cases, f"it gives the same outline as {said(twin.cases)}"))
            return
        candidate = Candidate(
            index=len(self.pool),
            chance=rng.random(),
            cases=cases,
            outline=outline,
            reach=diameter(outline.exterior),
            flaws=self._flaws(outline),
            is_usual=is_usual,
        )
        self.pool.append(candidate)

    def _same(self, outline: Outline, other: Outline) -> bool:
        # Most that are made differ in a figure, and every one is compared with all before it.
        if not self._signature(outline).may_be(self._signature(other)):
            return False
        return bool(motions_onto(outline, other, self._near(other)))

    def _near(self, outline: Outline) -> float:
        return self.slips.tolerance * math.sqrt(outline.area / self.outline.area)

    def _signature(self, outline: Outline) -> Signature:
        key = id(outline)
        if key not in self._signatures:
            near = self._near(outline)
            # With the outline itself, so that no other one gets its id.
            self._signatures[key] = (outline, Signature(outline.simplified(near), near))
        return self._signatures[key][1]

    def _flaws(self, outline: Outline) -> int:
        """In how many ways an outline stands out from the result without being looked at closely."""
        off = abs(outline.area / self.outline.area - 1.0)
        flaws = (off > MOST_AREA_OFF) + (off > 2 * MOST_AREA_OFF)
        flaws += abs(outline.corner_count - self.outline.corner_count) > MOST_CORNERS_OFF
        finest, own = _finest(outline), _finest(self.outline)
        return flaws + (finest < FINE and finest < 0.9 * own)

    def _with_one_unusual(self) -> tuple[Candidate, ...] | None:
        """A choice with an option of another making, and single slips beside it where these are enough."""
        flaws = max((one.flaws for one in self.pool if one.is_usual), default=0)
        unusual = [one for one in self.pool if not one.is_usual and one.flaws <= flaws and self.is_told(one)]
        unusual.sort(key=lambda one: one.chance)
        self._left = MEASURED
        for pool in ([one for one in self.pool if one.is_usual], self.pool):
            for one in unusual[:UNUSUAL_TRIED]:
                if self._may_join(one, self.standing):
                    rest = [other for other in pool if other is not one]
                    found = self._completed((*self.standing, one), rest, self._to_cover())
                    if found is not None:
                        return found
        return None

    def _choice(self) -> tuple[Candidate, ...] | None:
        """The first complete choice, going from the best candidates down; with as many subjects as can be."""
        self._left = MEASURED
        for covered in range(self._to_cover(), -1, -1):
            found = self._completed(self.standing, self.pool, covered)
            if found is not None:
                return found
            self._left = max(self._left, MEASURED // 2)
        return None

    @property
    def _slips_there(self) -> int:
        """How many different slips there are to choose from."""
        return len({slip for one in (*self.standing, *self.pool) for slip in one.slips})

    def _to_cover(self) -> int:
        """How many subjects can have an option."""
        able = frozenset[str]().union(*(one.subjects for one in self.standing))
        for one in sorted(self.pool, key=lambda one: (one.flaws, one.chance)):
            if one.is_usual and not one.subjects <= able and self.is_told(one):
                able |= one.subjects
        return min(len(able), self.make)

    def _completed(
        self, chosen: tuple[Candidate, ...], pool: Sequence[Candidate], covered: int
    ) -> tuple[Candidate, ...] | None:
        """The choice completed; None where it cannot be.

        covered : how many subjects must have an option
        """
        if len(chosen) > len(self.most):
            self.most = chosen
        missing = self.make - len(chosen)
        if not missing:
            return chosen[len(self.standing) :]
        used = [slip for one in chosen for slip in one.slips]
        subjects = [case.subject for one in chosen for case in one.cases]
        # For a slip that happens to the whole outline: no better, no worse.
        an_even_share = len(subjects) / max(1, len(self.subjects))
        new_ones_due = min(LEAST_SLIPS, self.make, self._slips_there) - len(set(used)) >= missing
        new_subjects_due = covered - len(set(subjects) - {None}) >= missing

        def rank(one: Candidate) -> tuple[float, ...]:
            again = sum(used.count(slip) for slip in one.slips)
            same = sum(subjects.count(case.subject) if case.subject else an_even_share for case in one.cases)
            return len(one.cases), not one.is_usual, one.flaws, again, same, one.chance

        ordered = sorted(pool, key=rank)
        for index, one in enumerate(ordered):
            if self._left <= 0 or len(ordered) - index < missing:
                return None
            if new_ones_due and one.slips <= set(used):
                continue
            if new_subjects_due and one.subjects <= set(subjects):
                continue
            if not self._may_join(one, chosen):
                continue
            found = self._completed((*chosen, one), ordered[index + 1 :], covered)
            if found is not None:
                return found
        return None

    def _may_join(self, one: Candidate, chosen: tuple[Candidate, ...]) -> bool:
        """Whether every two keep apart at the scale that the longest of them asks for."""
        everyone = (one, *chosen)
        least = LEAST_GAP * max(self._reach, *(other.reach for other in everyone))
        # What is kept is as near to the result, and to each other, as the teacher would have it.
        found = [other for other in everyone if other not in self.standing]
        if any(self._gap_to_result(other) < least for other in found):
            return False
        pairs = ((a, b) for a, b in combinations(everyone, 2) if a in found or b in found)
        return all(self._gap(first, second) >= least for first, second in pairs)

    def is_told(self, one: Candidate) -> bool:
        """Whether a candidate can be told from the result."""
        return self._gap_to_result(one) >= LEAST_GAP * max(self._reach, one.reach)

    def _gap_to_result(self, one: Candidate) -> float:
        """How far a candidate is from the result; 0 where so little area differs that it is nearly right."""
        found = self._gaps.get((RESULT, one.index))
        if found is None:
            least = LEAST_GAP * max(self._reach, one.reach)
            found, difference = apart(one.outline, self.outline, least)
            found = 0.0 if difference < NEARLY_RIGHT * self.outline.area else found
            self._gaps[RESULT, one.index] = found
            if found < least and one.is_usual:
                outline = "the outline" if self.outline_given else "the finished outline"
                self.refused.append((one.cases, f"what comes out is too near {outline} to be told from it"))
        return found

    def _gap(self, first: Candidate, second: Candidate) -> float:
        first, second = sorted((first, second), key=lambda one: one.index)
        key = first.index, second.index
        if key not in self._gaps:
            self._left -= 1
            least = LEAST_GAP * max(self._reach, first.reach, second.reach)
            self._gaps[key], _ = apart(first.outline, second.outline, least)
        return self._gaps[key]


def apart(outline: Outline, other: Outline, least: float) -> tuple[float, float]:
    """(the gap, the area where only one has material) of two outlines laid on each other as well as can be.

    The fit may find another position when the other one is moved: the nearer counts. Both outlines come of one item,
    so they may agree best just as they lie: that position counts too, found by the fit or not. Where it alone brings
    them nearer than `least`, nothing else is asked, and no area is known: inf.
    """
    as_they_lie = hausdorff_distance(outline, other)
    if as_they_lie < least:
        return as_they_lie, math.inf
    there, back = best_fit(outline, other, scales=(1.0,)), best_fit(other, outline, scales=(1.0,))
    gaps = (
        hausdorff_distance(outline.moved(there.motion), other),
        hausdorff_distance(other.moved(back.motion), outline),
        as_they_lie,
    )
    return min(gaps), there.difference


def said(cases: Cases) -> str:
    """Slips as a teacher would write them, in a sentence."""
    if not cases:
        return "an option that stays"
    return " with ".join(f"{case.slip} of {case.subject}" if case.subject else case.slip for case in cases)


def _finest(outline: Outline) -> float:
    """The shortest side as a part of the longest line."""
    return shortest_side(outline.rings) / diameter(outline.exterior)

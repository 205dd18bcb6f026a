"""Wrong options made from named slips, so that each has a cause that can be shown.

A slip alone first; two slips together only where single ones are not enough. What is chosen is told apart at a glance
at the size shown, comes from several slips, and looks about as large and as intricate as the result.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations
from typing import TypeVar

from ..document.yaml_text import decimals_for
from ..errors import Fault, ItemError
from ..geometry.congruence import motions_onto, rotational_symmetry_order
from ..geometry.fit import best_fit
from ..geometry.hausdorff import hausdorff_distance
from ..geometry.outline import Outline
from ..geometry.rings import diameter, shortest_side
from .presentation import key_place, rng_for, shown_turns
from .question import MadeOptions, Option, Question
from .slip import CannotBeMade, SlipCase, Slips, subjects_of
from .soundness import NEARLY_RIGHT

__all__ = ["FINE", "LEAST_GAP", "LEAST_SLIPS", "apart", "with_made_options"]

Q = TypeVar("Q", bound=Question)

# The largest distance between two best-aligned options, as a part of the longest line through any of them. All share
# one scale, at which the longest has room in its cell however it is turned. The smallest cell that options come to
# (three in a row of the tray; six in a row of the sheet are next) leaves 1.62 units of the stage: 194 px at 1080p,
# 30 mm on A4 laid crosswise. 24 px are then 0.124 of it, 3 mm 0.1.
LEAST_GAP = 0.125
LEAST_SLIPS = 3  # different ones, or as many as there are options
MOST_AREA_OFF = 0.25  # of the result's area: what differs by more is ruled out without thinking
MOST_CORNERS_OFF = 2
FINE = 0.112  # of the longest line: sides shorter than this are hard to see in a row of options
MEASURED = 400  # gaps measured before a choice is given up
PAIRS_TRIED = (40, 160, 600)  # pairs of slips that are looked at, round by round, where single slips are not enough
REASONS_TOLD = 4  # with as many slips each as
SLIPS_TOLD = 3
RESULT = -1  # the result's index among the candidates


@dataclass(frozen=True, eq=False)
class _Candidate:
    """A wrong option that could be shown."""

    index: int  # in the order of finding
    chance: float  # decides between candidates that are equally good
    cases: tuple[SlipCase, ...]
    outline: Outline
    reach: float  # the longest line through it: whatever its turn, it is no wider or higher
    flaws: int  # how much it stands out from the result

    @property
    def slips(self) -> frozenset[str]:
        return frozenset(case.slip for case in self.cases)

    @property
    def option(self) -> Option:
        """As a teacher would write it; what two slips make is written by its corners."""
        if len(self.cases) == 1:
            return Option(slip=self.cases[0].slip, slip_subject=self.cases[0].subject)
        decimals = decimals_for(self.outline.exterior)
        exterior, *holes = (
            tuple((round(x, decimals), round(y, decimals)) for x, y in ring) for ring in self.outline.rings
        )
        return Option(corners=exterior, holes=tuple(holes))


def with_made_options(item: Q, made: MadeOptions, slips: Slips) -> Q:
    """The item with options: as many wrong ones as asked for, and the result among them.

    slips  : of the item
    Raises : ItemError at ``options.make`` where there are not enough, saying which slips failed and why
    """
    search = _Search(item.name, made, slips, outline_given=item.outline_given)
    chosen = search.chosen()
    if chosen is None:
        raise ItemError([_too_few(search, made)])
    rng = rng_for(made.seed, item.name, "order of the wrong options")
    wrong = rng.sample(chosen, len(chosen))
    key = key_place(made.seed, item.name, len(wrong) + 1)
    shown: list[_Candidate | None] = [*wrong[:key], None, *wrong[key:]]
    orders = [rotational_symmetry_order(one.outline if one else slips.outline, slips.tolerance) for one in shown]
    turns = shown_turns(rng_for(made.seed, item.name, "turns"), orders, key)
    options = tuple(
        replace(one.option if one else Option(), turned=turn) for one, turn in zip(shown, turns, strict=True)
    )
    return replace(item, options=options, made=made)


@dataclass
class _Search:
    """The choice of wrong options for one item."""

    name: str  # the item's
    made: MadeOptions
    slips: Slips
    outline_given: bool = False  # as `Question.outline_given`
    refused: list[tuple[tuple[SlipCase, ...], str]] = field(default_factory=list)  # slips with why nothing came of them
    subjects: frozenset[str] = frozenset()  # what slips may happen to
    most: tuple[_Candidate, ...] = ()  # the largest choice so far that keeps the rules
    _gaps: dict[tuple[int, int], float] = field(default_factory=dict)  # by index, smaller first
    _reach: float = 0.0  # of the result
    _left: int = 0  # gaps that may still be measured
    _pool: list[_Candidate] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._reach = diameter(self.outline.exterior)
        self.subjects = subjects_of(self.slips)

    @property
    def outline(self) -> Outline:
        """The result."""
        return self.slips.outline

    def chosen(self) -> tuple[_Candidate, ...] | None:
        """Candidates that may stand beside each other; None where there are not enough."""
        rng = rng_for(self.made.seed, self.name, "slips")
        self._gather(rng, self.slips.singles())
        found = self._choice()
        if found is not None:
            return found
        pairs = list(self.slips.pairs())
        rng.shuffle(pairs)
        start = 0
        for end in PAIRS_TRIED:
            if start >= len(pairs):
                break
            self._gather(rng, pairs[start:end])
            found = self._choice()
            if found is not None:
                return found
            start = end
        return None

    def _gather(self, rng: random.Random, cases: Iterable[tuple[SlipCase, ...]]) -> None:
        """Add to the pool what these slips make."""
        for together in cases:
            try:
                outline = self.slips.made(together).simplified(self.slips.tolerance)
            except CannotBeMade as error:
                self.refused.append((together, str(error)))
                continue
            twin = next((one for one in self._pool if motions_onto(outline, one.outline, self._near(one))), None)
            if twin is not None:
                self.refused.append((together, f"it gives the same outline as {_said(twin.cases)}"))
                continue
            self._pool.append(
                _Candidate(
                    index=len(self._pool),
                    chance=rng.random(),
                    cases=together,
                    outline=outline,
                    reach=diameter(outline.exterior),
                    flaws=self._flaws(outline),
                )
            )

    def _near(self, one: _Candidate) -> float:
        return self.slips.tolerance * math.sqrt(one.outline.area / self.outline.area)

    def _flaws(self, outline: Outline) -> int:
        """In how many ways an outline stands out from the result without being looked at closely."""
        off = abs(outline.area / self.outline.area - 1.0)
        flaws = (off > MOST_AREA_OFF) + (off > 2 * MOST_AREA_OFF)
        flaws += abs(outline.corner_count - self.outline.corner_count) > MOST_CORNERS_OFF
        finest, own = _finest(outline), _finest(self.outline)
        return flaws + (finest < FINE and finest < 0.9 * own)

    def _choice(self) -> tuple[_Candidate, ...] | None:
        """The first complete choice, going from the best candidates down."""
        self._left = MEASURED
        return self._completed((), self._pool)

    def _completed(self, chosen: tuple[_Candidate, ...], pool: Sequence[_Candidate]) -> tuple[_Candidate, ...] | None:
        if len(chosen) > len(self.most):
            self.most = chosen
        missing = self.made.make - len(chosen)
        if not missing:
            return chosen
        used = [slip for one in chosen for slip in one.slips]
        subjects = [case.subject for one in chosen for case in one.cases]
        # For a slip that happens to the whole outline: no better, no worse.
        an_even_share = len(subjects) / max(1, len(self.subjects))
        new_ones_due = min(LEAST_SLIPS, self.made.make) - len(set(used)) >= missing

        def rank(one: _Candidate) -> tuple[float, ...]:
            again = sum(used.count(slip) for slip in one.slips)
            same = sum(subjects.count(case.subject) if case.subject else an_even_share for case in one.cases)
            return len(one.cases), one.flaws, again, same, one.chance

        ordered = sorted(pool, key=rank)
        for index, one in enumerate(ordered):
            if self._left <= 0 or len(ordered) - index < missing:
                return None
            if (new_ones_due and one.slips <= set(used)) or not self._may_join(one, chosen):
                continue
            found = self._completed((*chosen, one), ordered[index + 1 :])
            if found is not None:
                return found
        return None

    def _may_join(self, one: _Candidate, chosen: tuple[_Candidate, ...]) -> bool:
        """Whether every two keep apart at the scale that the longest of them asks for."""
        everyone = (one, *chosen)
        least = LEAST_GAP * max(self._reach, *(other.reach for other in everyone))
        if any(self._gap_to_result(other) < least for other in everyone):
            return False
        return all(self._gap(first, second) >= least for first, second in combinations(everyone, 2))

    def _gap_to_result(self, one: _Candidate) -> float:
        """How far a candidate is from the result; 0 where so little area differs that it is nearly right."""
        found = self._gaps.get((RESULT, one.index))
        if found is None:
            least = LEAST_GAP * max(self._reach, one.reach)
            found, difference = apart(one.outline, self.outline, least)
            found = 0.0 if difference < NEARLY_RIGHT * self.outline.area else found
            self._gaps[RESULT, one.index] = found
            if found < least:
                outline = "the outline" if self.outline_given else "the finished outline"
                self.refused.append((one.cases, f"what comes out is too near {outline} to be told from it"))
        return found

    def _gap(self, first: _Candidate, second: _Candidate) -> float:
        first, second = sorted((first, second), key=lambda one: one.index)
        key = first.index, second.index
        if key not in self._gaps:
            self._left -= 1
            least = LEAST_GAP * max(self._reach, first.reach, second.reach)
            self._gaps[key], _ = apart(first.outline, second.outline, least)
        return self._gaps[key]


def _too_few(search: _Search, made: MadeOptions) -> Fault:
    """What could be made, which slips failed, why."""
    by_reason: dict[str, list[str]] = {}
    for cases, why in search.refused:
        if len(cases) == 1:
            by_reason.setdefault(why, []).append(_said(cases))
    likeliest = sorted(by_reason.items(), key=lambda entry: -len(entry[1]))
    told = "; ".join(f"{_some(names)}: {why}" for why, names in likeliest[:REASONS_TOLD])
    count = len(search.most)
    changed = f"{search.slips.subject}s" if search.subjects else "outline"
    fewer = f"ask for {count} (make: {count}), " if count >= 2 else ""
    return Fault(
        field="options.make",
        message=f"slips give only {count} of the {made.make} wrong options asked for that can be told apart at a glance"
        + (f" ({told})" if told else ""),
        fix=f"{fewer}write the options out, drawing some by their corners, or change the {changed}",
    )


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


def _some(names: Sequence[str]) -> str:
    rest = len(names) - SLIPS_TOLD
    return ", ".join(names[:SLIPS_TOLD]) + (f" and {rest} more" if rest > 0 else "")


def _said(cases: tuple[SlipCase, ...]) -> str:
    return " with ".join(f"{case.slip} of {case.subject}" if case.subject else case.slip for case in cases)


def _finest(outline: Outline) -> float:
    """The shortest side as a part of the longest line."""
    return shortest_side(outline.rings) / diameter(outline.exterior)

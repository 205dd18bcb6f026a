"""Siblings of a question, found one after the other: sound, of the same build, none like another even when flipped."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise

from ....choice.new_titles import new_title
from ....choice.presentation import key_place, rng_for, shown_turns
from ....choice.question import Option
from ....choice.slip import SlipCase
from ....choice.variations import Level
from ....errors import ItemError, UnsoundItemError
from ....geometry.congruence import Match, congruence, is_chiral, rotational_symmetry_order
from ....geometry.outline import Outline
from ....geometry.tolerance import authoring_tolerance
from ..model import Item, PieceWarning
from ..solving.solution import JoinAndCutSolution
from ..solving.solver import solve
from .assembly import Assembled, assembled
from .build import Build, TurnKind, build_of
from .effort import Effort
from .request import VariationRequest, requested
from .wrong_options import wrong_options

__all__ = ["Limit", "Sibling", "Siblings", "Stage", "siblings"]

MOST_EFFORT = 20_000  # for each sibling
MOST_WEIGHED = 400  # of what comes of them, those for which options are made
PATIENCE = (0.35, 0.5)  # the parts of either after which one slip of the original may be lost, and any


class Stage(StrEnum):
    """How far the search for a sibling came before nothing went on."""

    BASE = "base"
    PIECE = "piece"
    WHOLE = "whole"  # the pieces lie, but what comes of them is too fine, symmetric, or like another
    OPTIONS = "options"
    PROOF = "proof"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """What stood in the way of one more sibling."""

    stage: Stage
    piece: int = 0  # of Stage.PIECE: which one found no place
    seen: int = 0  # how often the stage before it was passed


@dataclass(frozen=True, slots=True, kw_only=True)
class Sibling:
    """One new question."""

    number: int  # from 1
    solution: JoinAndCutSolution
    build: Build


@dataclass(frozen=True, slots=True, kw_only=True)
class Siblings:
    """What was found."""

    original: JoinAndCutSolution
    build: Build  # of the original
    level: Level
    seed: int
    wanted: int
    found: tuple[Sibling, ...]  # fewer than wanted where the tries ran out
    goal: VariationRequest | None  # None where no stated feature of the original can be made easier, or harder
    limit: Limit | None = None  # where fewer were found


def siblings(original: JoinAndCutSolution, *, count: int, seed: int, level: Level = Level.SAME) -> Siblings:
    """As many new questions as can be found; the same for the same original, seed and level.

    The first of a longer run are those of a shorter one.

    Raises : UnsoundItemError for an original that is not sound itself
    """
    if not original.sound:
        raise UnsoundItemError(f"{original.item.name}: unsound: {' '.join(original.unsound_because)}")
    build = build_of(original)
    goal = requested(build, level)
    found: list[Sibling] = []
    limit: Limit | None = None
    if goal is not None:
        run = _Run(original, goal, level, seed, [original.item.base], [original.outline])
        for number in range(1, count + 1):
            sibling = run.found(number)
            if isinstance(sibling, Limit):
                limit = sibling
                break
            found.append(sibling)
    return Siblings(
        original=original,
        build=build,
        level=level,
        seed=seed,
        wanted=count,
        found=tuple(found),
        goal=goal,
        limit=limit,
    )


@dataclass
class _Run:
    """One search: what is wanted, and the outlines that are there already."""

    original: JoinAndCutSolution
    goal: VariationRequest
    level: Level
    seed: int
    bases: list[Outline]
    results: list[Outline]

    def found(self, number: int) -> Sibling | Limit:
        """The next one, or why there is none.

        After a while slips of the original are given up, so that a rare build is not sought for long.
        """
        rng = rng_for(self.seed, self.original.item.name, f"sibling {self.level} {number}")
        effort = Effort(MOST_EFFORT, len(self.goal.build.pieces))
        wanted = self.goal.build.slips
        warned: list[Item] = []  # sound, but for a warning
        whole = weighed = proved = 0
        for one in assembled(rng, self.goal, effort):
            whole += 1
            if not self._is_new(one):
                continue
            weighed += 1
            item = self._named(one, number)
            most_lost = _may_be_lost(max(weighed / MOST_WEIGHED, effort.spent), len(wanted))
            made = wrong_options(
                rng, wanted, self.goal.without, item, one.placements, most_lost=most_lost, effort=effort
            )
            if made is not None:
                proved += 1
                item = replace(item, options=self._shown(item, one, made))
                sibling = self._proved(item, number, strict=True)
                if sibling is not None:
                    return self._taken(sibling)
                warned.append(item)
            if weighed == MOST_WEIGHED:
                break
        siblings = (self._proved(item, number, strict=False) for item in warned)
        sibling = next((one for one in siblings if one is not None), None)
        return self._taken(sibling) if sibling else _limit(effort, whole=whole, weighed=weighed, proved=proved)

    def _taken(self, sibling: Sibling) -> Sibling:
        self.bases.append(sibling.solution.item.base)
        self.results.append(sibling.solution.outline)
        return sibling

    def _is_new(self, one: Assembled) -> bool:
        tolerance = authoring_tolerance(one.base.larger_extent)
        if rotational_symmetry_order(one.outline, tolerance) > 1:
            return False
        # A result that is its own mirror image would make the flipped option right.
        flips = any(case is not None and case.slip == "flipped" for case in self.goal.build.slips)
        if flips and not is_chiral(one.outline, tolerance):
            return False
        return not any(_alike(one.outline, other) for other in self.results) and not any(
            _alike(one.base, other) for other in self.bases
        )

    def _named(self, one: Assembled, number: int) -> Item:
        original = self.original.item
        level = "" if self.level is Level.SAME else f"-{self.level}"
        return Item(
            name=f"{original.name}{level}-{self.seed}-{number}",
            title=new_title(original.name, seed=self.seed, level=self.level, number=number),
            base=one.base,
            pieces=tuple(placement.piece for placement in one.placements),
        )

    def _shown(self, item: Item, one: Assembled, made: list[tuple[SlipCase, Outline]]) -> tuple[Option, ...]:
        rng = rng_for(self.seed, item.name, "order of the wrong options")
        rng.shuffle(made)
        options = [Option(slip=case.slip, slip_subject=case.subject) for case, _ in made]
        outlines = [outline for _, outline in made]
        key = key_place(self.seed, item.name, len(made) + 1)
        options.insert(key, Option())
        outlines.insert(key, one.outline)
        tolerance = authoring_tolerance(item.extent)
        orders = [rotational_symmetry_order(outline, tolerance) for outline in outlines]
        turns = shown_turns(rng_for(self.seed, item.name, "turns"), orders, key)
        return tuple(replace(option, turned=turn) for option, turn in zip(options, turns, strict=True))

    def _proved(self, item: Item, number: int, strict: bool) -> Sibling | None:
        """The sibling, where the solver finds it sound, clean and of the build that was wished for.

        strict : no warning but that of a piece which needs no turn; else those of the original may come again
        """
        try:
            solution = solve(item)
        except ItemError:
            return None
        again = () if strict else (*self.original.warnings, *self.original.accepted)
        allowed = {warning.kind for warning in again}
        if any(piece.turn is TurnKind.NONE for piece in self.goal.build.pieces):
            allowed.add(PieceWarning.NO_TURN)
        if not solution.sound or any(warning.kind not in allowed for warning in solution.warnings):
            return None
        build = build_of(solution)
        wanted = self.goal.build
        if replace(build, slips=()) != replace(wanted, slips=()) or len(build.slips) != len(wanted.slips):
            return None
        return Sibling(number=number, solution=solution, build=build)


def _may_be_lost(spent: float, wanted: int) -> int:
    """How many of the slips that are wanted may give way once this part of the effort is spent."""
    if spent <= PATIENCE[0]:
        return 0
    return 1 if spent <= PATIENCE[1] else wanted


def _limit(effort: Effort, *, whole: int, weighed: int, proved: int) -> Limit:
    """The first stage that nothing got beyond, or else the last."""
    for piece, (before, after) in enumerate(pairwise(effort.stages)):
        if not before:
            return Limit(stage=Stage.BASE)
        if not after:
            return Limit(stage=Stage.PIECE, piece=piece, seen=before)
    if not whole or not weighed:
        return Limit(stage=Stage.WHOLE, seen=effort.stages[-1])
    return Limit(stage=Stage.PROOF, seen=proved) if proved else Limit(stage=Stage.OPTIONS, seen=weighed)


def _alike(outline: Outline, other: Outline, tolerance: float | None = None) -> bool:
    """Whether two outlines are the same by turning, shifting, scaling or flipping."""
    near = authoring_tolerance(other.larger_extent) if tolerance is None else tolerance
    return congruence(outline, other, near).kind is not Match.DIFFERENT

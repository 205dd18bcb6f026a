"""Siblings of a question, found one after the other: sound, of the same build, none like another even when flipped."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

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
from .assembly import Assembled, assemble
from .build import Build, TurnKind, build_of
from .request import VariationRequest, requested
from .wrong_options import wrong_options

__all__ = ["MOST_TRIES", "Sibling", "Siblings", "siblings"]

MOST_TRIES = 4000  # of base and pieces, for each sibling
PATIENCE = 0.5  # the part of them in which no slip of the original is given up, no warning taken
MOST_TITLE = 120  # characters, as the reader allows


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
    nothing_to_change: bool = False  # no stated feature of the original can be made easier, or harder


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
    if goal is not None:
        run = _Run(original, goal, level, seed, [original.item.base], [original.outline])
        for number in range(1, count + 1):
            sibling = next((one for one in run.tries(number) if one is not None), None)
            if sibling is None:
                break
            found.append(sibling)
    return Siblings(
        original=original,
        build=build,
        level=level,
        seed=seed,
        wanted=count,
        found=tuple(found),
        nothing_to_change=goal is None,
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

    def tries(self, number: int) -> Iterator[Sibling | None]:
        rng = rng_for(self.seed, self.original.item.name, f"sibling {self.level} {number}")
        for index in range(MOST_TRIES):
            assembled = assemble(rng, self.goal)
            if assembled is None or not self._is_new(assembled):
                yield None
                continue
            item = self._named(assembled, number)
            strict = index < PATIENCE * MOST_TRIES
            made = wrong_options(
                rng,
                self.goal.build.slips,
                self.goal.without,
                item,
                assembled.placements,
                strict=strict,
            )
            if made is None:
                yield None
                continue
            sibling = self._proved(replace(item, options=self._shown(item, assembled, made)), number, strict)
            if sibling is not None:
                self.bases.append(assembled.base)
                self.results.append(assembled.outline)
            yield sibling

    def _is_new(self, assembled: Assembled) -> bool:
        tolerance = authoring_tolerance(assembled.base.larger_extent)
        if rotational_symmetry_order(assembled.outline, tolerance) > 1:
            return False
        # A result that is its own mirror image would make the flipped option right.
        flips = any(case is not None and case.slip == "flipped" for case in self.goal.build.slips)
        if flips and not is_chiral(assembled.outline, tolerance):
            return False
        return not any(_alike(assembled.outline, other) for other in self.results) and not any(
            _alike(assembled.base, other) for other in self.bases
        )

    def _named(self, assembled: Assembled, number: int) -> Item:
        original = self.original.item
        level = "" if self.level is Level.SAME else f"-{self.level}"
        ending = f" {self.seed}-{number}"  # without the level, which learners need not read
        return Item(
            name=f"{original.name}{level}-{self.seed}-{number}",
            title=f"{original.title[: MOST_TITLE - len(ending)]}{ending}",
            base=assembled.base,
            pieces=tuple(placement.piece for placement in assembled.placements),
        )

    def _shown(self, item: Item, assembled: Assembled, made: list[tuple[SlipCase, Outline]]) -> tuple[Option, ...]:
        rng = rng_for(self.seed, item.name, "order of the wrong options")
        rng.shuffle(made)
        options = [Option(slip=case.slip, slip_subject=case.subject) for case, _ in made]
        outlines = [outline for _, outline in made]
        key = key_place(self.seed, item.name, len(made) + 1)
        options.insert(key, Option())
        outlines.insert(key, assembled.outline)
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


def _alike(outline: Outline, other: Outline, tolerance: float | None = None) -> bool:
    """Whether two outlines are the same by turning, shifting, scaling or flipping."""
    near = authoring_tolerance(other.larger_extent) if tolerance is None else tolerance
    return congruence(outline, other, near).kind is not Match.DIFFERENT

"""Which sieves are used for a question, in which order, and who is left: chosen for what they rule out together.

A sieve is worth what it rules out, against how hard it is to see. The right option and every flipped one pass all.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from ...geometry.outline import Outline
from ..model import Solution, Verdict
from ..walk import WalkFact, walk_fact
from .corner_kinds import CornerKind, kinds_round
from .counts import Counted, CountSieve, count_of
from .lengths import LengthSieve, Pair, ratio_of
from .neighbours import PAIRS, BetweenSieve, NeighbourSieve, between, neighbours
from .sieve import SieveFact, Sifted

__all__ = ["Sifting", "laid_on_outline", "sifting_of", "walk_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sifting:
    """The sieves in the order in which they are used, each with those that it rules out."""

    facts: tuple[SieveFact, ...]

    @property
    def labels(self) -> tuple[str, ...]:
        """Of all that are ruled out, in the order in which they are."""
        return tuple(label for fact in self.facts for label in fact.labels)

    def of(self, label: str) -> SieveFact | None:
        """The sieve that rules an option out, told of it alone; None where none does."""
        return next((fact.only((label,)) for fact in self.facts if label in fact.labels), None)


def sifting_of(solution: Solution) -> Sifting:
    """The sieves of a question; the same for the same question."""
    wrong = tuple((v.label, v.fit.laid) for v in solution.verdicts if not v.same and not v.mirrored)
    return _sifted(solution.outline, wrong, solution.tolerance)


def laid_on_outline(solution: Solution) -> tuple[Verdict, ...]:
    """The options that are laid on the outline: the right one, and those that neither a sieve nor a walk rules out."""
    gone = sifting_of(solution).labels
    return tuple(v for v in solution.verdicts if v.same or (v.label not in gone and walk_of(solution, v) is None))


def walk_of(solution: Solution, verdict: Verdict) -> WalkFact | None:
    """The walk round the outline and an option that is the same, or that flipped; None where none is clear."""
    if not (verdict.same or verdict.mirrored):
        return None
    shape = solution.outline if verdict.same else verdict.fit.laid
    return _walked(verdict.label, shape, solution.outline, solution.tolerance, verdict.same)


@lru_cache(maxsize=64)
def _walked(label: str, shape: Outline, outline: Outline, tolerance: float, same: bool) -> WalkFact | None:
    return walk_fact(label, shape, outline, tolerance, same=same)


@lru_cache(maxsize=64)
def _sifted(outline: Outline, wrong: tuple[tuple[str, Outline], ...], tolerance: float) -> Sifting:
    left = list(wrong)
    used: list[SieveFact] = []
    while left:
        stages = {fact.stage for fact in used}
        found = [fact for fact in _sieves(outline, left, tolerance) if fact.stage not in stages]
        if not found:
            break
        # Among equals the easier comes first; `found` stands in a fixed order.
        best = max(found, key=lambda fact: (_worth(fact), -fact.effort))
        used.append(best)
        left = [(label, shape) for label, shape in left if label not in best.labels]
    return Sifting(facts=tuple(used))


def _worth(fact: SieveFact) -> float:
    return len(fact.options) / (_LOOKING + fact.effort)


_LOOKING = 2.0  # any further look costs so much besides: two sieves for what one can do are too many


def _sieves(outline: Outline, left: Sequence[tuple[str, Outline]], tolerance: float) -> Iterator[SieveFact]:
    """Every sieve that rules somebody out, of those who are left."""
    for fact, figures in _looks(outline, [shape for _, shape in left], tolerance):
        gone = tuple(
            Sifted(label, shape, float(figure))
            for (label, shape), figure in zip(left, figures, strict=True)
            if figure is not None and fact.is_seen_to_differ(fact.there, figure)
        )
        if gone:
            yield replace(fact, options=gone)


def _looks(
    outline: Outline, shapes: Sequence[Outline], tolerance: float
) -> Iterator[tuple[SieveFact, Sequence[float | None]]]:
    """What may be looked at on this outline: a sieve for nobody yet, and what the same comes to for each shape."""

    def counts(counted: Counted, there: int) -> SieveFact:
        holed = any(shape.holes for shape in (outline, *shapes))
        return CountSieve(
            tolerance=tolerance, outline=outline, there=there, options=(), counted=counted, on_outer_edge=holed
        )

    for counted in Counted:
        there = count_of(counted, outline)
        theirs = [count_of(counted, shape) for shape in shapes]
        yield counts(counted, there.exact), [each.exact if each.is_apart(there) else None for each in theirs]
    kinds = kinds_round(outline)
    if kinds is None:
        return
    rounds = [kinds_round(shape) for shape in shapes]
    for kind in CornerKind:
        if (way := between(kinds, kind)) is not None:
            yield (
                BetweenSieve(tolerance=tolerance, outline=outline, there=way, options=(), kind=kind),
                [None if each is None else between(each, kind) for each in rounds],
            )
    for pair in PAIRS:
        known = frozenset(pair)
        yield (
            NeighbourSieve(
                tolerance=tolerance, outline=outline, there=neighbours(kinds)[known], options=(), kinds=pair
            ),
            [None if each is None else neighbours(each)[known] for each in rounds],
        )
    for two in Pair:
        if (ratio := ratio_of(two, outline)) is not None:
            yield (
                LengthSieve(tolerance=tolerance, outline=outline, there=ratio, options=(), pair=two),
                [ratio_of(two, shape) for shape in shapes],
            )

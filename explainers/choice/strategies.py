"""The strategies that help in any question with outlines as options: counting, comparing, walking, laying on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from ..geometry.tolerance import MEANT_DEG
from ..words.messages import message, say, say_count
from .differences.difference import DifferenceFact
from .differences.mirror import MirrorFact
from .fact import Fact
from .finished import OutlineFact, outline_fact
from .model import Solution, Verdict
from .same import SameFact
from .sieves.counts import Counted, CountSieve
from .sieves.lengths import LengthSieve
from .sieves.neighbours import BetweenSieve, NeighbourSieve
from .sieves.sieve import SieveFact
from .sieves.sifting import sifting_of, walk_of
from .strategy import Candidate, Evidence, Shows, StrategyFact, StrategySpec, Words, here, ruled_out
from .walk import WalkFact

__all__ = ["STRATEGIES", "GeneralStrategyFact", "Strategy", "general_candidates", "labels_sifted"]


class Strategy(StrEnum):
    """What helps in any question."""

    HOLES = "holes"
    CORNERS = "corners"
    INWARD = "inward"
    ANGLES = "angles"
    NEIGHBOURS = "neighbours"
    LENGTHS = "lengths"
    EASY_FIRST = "easy-first"
    LAY_ON = "lay-on"
    WALK = "walk"
    NEVER_FLIP = "never-flip"
    UNCHANGED = "unchanged"


@dataclass(frozen=True, slots=True, kw_only=True)
class GeneralStrategyFact(StrategyFact):
    """A strategy for any question."""

    strategy: Strategy

    @property
    def spec(self) -> StrategySpec:
        """Its row in ``STRATEGIES``."""
        return STRATEGIES[self.strategy]


def labels_sifted(evidence: Evidence) -> tuple[str, ...]:
    """The options that the sieves of the evidence rule out."""
    return tuple(label for fact in evidence if isinstance(fact, SieveFact) for label in fact.labels)


def general_candidates(solution: Solution) -> Iterator[Candidate]:
    """The strategies that a question shows.

    solution : sound
    """

    def candidate(strategy: Strategy, evidence: Evidence, *rules_out: str) -> Candidate:
        fact = GeneralStrategyFact(tolerance=solution.tolerance, strategy=strategy, evidence=evidence)
        return Candidate(fact, rules_out)

    sifting = sifting_of(solution)
    for fact in sifting.facts:
        if (strategy := _strategy_of(fact)) is not None:
            yield candidate(strategy, (fact,), *fact.labels)
    if len(sifting.facts) > 1:
        yield candidate(Strategy.EASY_FIRST, sifting.facts, *sifting.labels)
    for verdict in solution.verdicts:
        if verdict.mirrored:
            for flip, evidence in _of_flip(solution, verdict):
                yield candidate(flip, evidence, verdict.label)
        elif not verdict.same and verdict.label not in sifting.labels:
            located = [fact for fact in verdict.reasons if isinstance(fact, DifferenceFact)]
            if located:
                yield candidate(Strategy.LAY_ON, (located[0],), verdict.label)
    same = next(fact for v in solution.verdicts if v.same for fact in v.reasons if isinstance(fact, SameFact))
    unchanged = (same, outline_fact(solution.outline, solution.tolerance))
    if _keeps_corners(unchanged):
        yield candidate(Strategy.UNCHANGED, unchanged)


def _of_flip(solution: Solution, verdict: Verdict) -> Iterator[tuple[Strategy, Evidence]]:
    flip = next((fact for fact in verdict.reasons if isinstance(fact, MirrorFact)), None)
    if flip is None:
        return
    walk = walk_of(solution, verdict)
    if walk is not None:
        yield Strategy.WALK, (walk, flip)
    yield Strategy.NEVER_FLIP, (flip,)


def _strategy_of(fact: Fact) -> Strategy | None:
    """That of one sieve; None for another fact."""
    match fact:
        case CountSieve(counted=Counted.HOLES):
            return Strategy.HOLES
        case CountSieve(counted=Counted.CORNERS):
            return Strategy.CORNERS
        case CountSieve(counted=Counted.INWARD):
            return Strategy.INWARD
        case CountSieve():
            return Strategy.ANGLES
        case BetweenSieve() | NeighbourSieve():
            return Strategy.NEIGHBOURS
        case LengthSieve():
            return Strategy.LENGTHS
    return None


# What shows each, once every fact of it holds.


def _is_one(strategy: Strategy) -> Shows:
    return lambda evidence: len(evidence) == 1 and _strategy_of(evidence[0]) is strategy


def _are_several(evidence: Evidence) -> bool:
    """Several sieves of one outline, which rule out different options."""
    sieves = [fact for fact in evidence if isinstance(fact, SieveFact)]
    labels = labels_sifted(evidence)
    return (
        len(sieves) == len(evidence) > 1
        and len({fact.compared for fact in sieves}) == len(sieves)
        and len({fact.outline for fact in sieves}) == 1
        and len(set(labels)) == len(labels)
    )


def _tells_a_flip(evidence: Evidence) -> bool:
    match evidence:
        case (WalkFact() as walk, MirrorFact() as flip):
            return not walk.is_same and walk.label == flip.label and walk.outline == flip.outline
    return False


def _keeps_corners(evidence: Evidence) -> bool:
    match evidence:
        case (SameFact() as same, OutlineFact() as shape):
            option = same.option.moved(same.motion).simplified(same.tolerance)
            is_turned = abs(same.turn_deg) > MEANT_DEG
            return is_turned and same.outline == shape.outline and option.corner_count == shape.corners
    return False


# Words: in general first, then as seen here.


def _counting(general: str) -> Words:
    def words(evidence: Evidence) -> tuple[str, ...]:
        (fact,) = evidence
        assert isinstance(fact, SieveFact)
        return (say(general), here(fact.of_outline_in_full()), ruled_out(fact.labels))

    return words


def _looking(*general: str) -> Words:
    return lambda evidence: (*map(say, general), ruled_out(labels_sifted(evidence)))


def _neighbours(evidence: Evidence) -> tuple[str, ...]:
    (fact,) = evidence
    general = say("However you turn it, neighbours stay neighbours.")
    if isinstance(fact, NeighbourSieve):
        return (general, here(fact.of_outline()), ruled_out(fact.labels))
    return (say("Look which corners are neighbours."), general, ruled_out(labels_sifted(evidence)))


def _lengths(evidence: Evidence) -> tuple[str, ...]:
    (fact,) = evidence
    assert isinstance(fact, LengthSieve)
    return (say("To compare sides, you need no ruler."), *fact.invitation(is_first=False), ruled_out(fact.labels))


def _label(evidence: Evidence) -> str:
    return evidence[0].stated().label


def _kept_corners(evidence: Evidence) -> tuple[str, ...]:
    shape = evidence[1]
    assert isinstance(shape, OutlineFact)
    return (
        say("A turn changes no corner and no side."),
        here(
            say_count(
                "Here option {label} kept its {count} corner.",
                "Here option {label} kept all {count} corners.",
                shape.corners,
                label=_label(evidence),
            )
        ),
    )


# The scores are tuned by tests/bench/remembered.py, so that each is told in some questions and none in too many.
STRATEGIES: dict[Strategy, StrategySpec] = {
    Strategy.HOLES: StrategySpec(
        score=14.5,
        headline=message("Look for holes"),
        shows=_is_one(Strategy.HOLES),
        words=_counting(message("Look for holes: you see them at once.")),
    ),
    Strategy.CORNERS: StrategySpec(
        score=12.0,
        headline=message("Count the corners"),
        shows=_is_one(Strategy.CORNERS),
        words=_counting(message("Count the corners: no turn can change how many there are.")),
    ),
    Strategy.INWARD: StrategySpec(
        score=20.5,
        headline=message("Corners that point inwards"),
        shows=_is_one(Strategy.INWARD),
        words=_counting(message("Look for corners that point inwards: they are soon found.")),
    ),
    Strategy.ANGLES: StrategySpec(
        score=12.0,
        headline=message("Count corners of one kind"),
        shows=_is_one(Strategy.ANGLES),
        words=_counting(message("Count corners of one kind, such as right angles or square notches.")),
    ),
    Strategy.NEIGHBOURS: StrategySpec(
        score=20.5,
        headline=message("Neighbours stay neighbours"),
        shows=_is_one(Strategy.NEIGHBOURS),
        words=_neighbours,
    ),
    Strategy.LENGTHS: StrategySpec(
        score=18.0,
        headline=message("Compare sides, without a ruler"),
        shows=_is_one(Strategy.LENGTHS),
        words=_lengths,
    ),
    Strategy.EASY_FIRST: StrategySpec(
        score=11.5,
        headline=message("Look first, try last"),
        shows=_are_several,
        words=_looking(message("First rule out what you can see."), message("Then there is little left to try.")),
    ),
    Strategy.LAY_ON: StrategySpec(
        score=19.0,
        headline=message("Lay on only what is left"),
        shows=lambda evidence: len(evidence) == 1 and isinstance(evidence[0], DifferenceFact),
        words=lambda evidence: (
            say("Lay on only what is left, and look for a place that does not fit."),
            ruled_out(_label(evidence)),
        ),
    ),
    Strategy.WALK: StrategySpec(
        score=18.5,
        headline=message("Walk round the same way"),
        shows=_tells_a_flip,
        words=lambda evidence: (
            say("Walk round both outlines in the same direction."),
            say("A turn keeps the order, but a flip turns it round."),
            here(say("Here that showed that {label} is flipped.", label=_label(evidence))),
        ),
    ),
    Strategy.NEVER_FLIP: StrategySpec(
        score=18.5,
        headline=message("A turn never flips"),
        shows=lambda evidence: len(evidence) == 1 and isinstance(evidence[0], MirrorFact),
        words=lambda evidence: (
            say("You may turn an outline, but never flip it."),
            here(say("Here option {label} is flipped, so no turn lays it on.", label=_label(evidence))),
        ),
    ),
    Strategy.UNCHANGED: StrategySpec(
        score=21.8,
        headline=message("What a turn does not change"),
        shows=_keeps_corners,
        words=_kept_corners,
    ),
}

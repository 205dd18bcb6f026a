"""The strategy for a turned outline: begin at a corner that is known again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from ....choice.strategy import Candidate, Evidence, StrategyFact, StrategySpec
from ....words.messages import message, say
from ..solution import TurnedOutlineSolution
from .landmark import Landmark, LandmarkFact, landmark_fact

__all__ = ["OUTLINE_STRATEGIES", "OutlineStrategy", "OutlineStrategyFact", "outline_candidates"]


class OutlineStrategy(StrEnum):
    """What helps with an outline that is shown."""

    START = "start"


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineStrategyFact(StrategyFact):
    """A strategy for an outline that is shown."""

    strategy: OutlineStrategy

    @property
    def spec(self) -> StrategySpec:
        """Its row in ``OUTLINE_STRATEGIES``."""
        return OUTLINE_STRATEGIES[self.strategy]


def outline_candidates(solution: TurnedOutlineSolution) -> Iterator[Candidate]:
    """The strategies that a question shows."""
    evidence = (landmark_fact(solution.outline, solution.tolerance),)
    if _stands_out(evidence):
        yield Candidate(
            OutlineStrategyFact(tolerance=solution.tolerance, strategy=OutlineStrategy.START, evidence=evidence)
        )


def _stands_out(evidence: Evidence) -> bool:
    match evidence:
        case (LandmarkFact() as landmark,):
            return landmark.kind is not Landmark.ANY
    return False


def _start(evidence: Evidence) -> tuple[str, ...]:
    (landmark,) = evidence
    assert isinstance(landmark, LandmarkFact)
    return (say("Start at a corner that you know again, however it is turned."), landmark.of_corner()[-1])


# The score is tuned by tests/bench/remembered.py, as those of the others.
OUTLINE_STRATEGIES: dict[OutlineStrategy, StrategySpec] = {
    OutlineStrategy.START: StrategySpec(
        score=23.0, headline=message("Start at a corner you know"), shows=_stands_out, words=_start
    ),
}

"""A strategy to remember: what helped in this question, said so that it helps in the next one.

Each kind of strategy has a row in a table: which facts show it, how much it is worth being told, its words. The general
ones stand in ``strategies``; a kind of question adds its own.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from ..geometry.rigid_motion import Point
from ..words.messages import once, say
from ..words.names import list_in_words
from . import fingerprint
from .fact import Fact, Stated, verified

__all__ = ["Candidate", "Evidence", "Shows", "StrategyFact", "StrategySpec", "Words", "chosen", "here", "ruled_out"]

Evidence = tuple[Fact, ...]
Shows = Callable[[Evidence], bool]
Words = Callable[[Evidence], tuple[str, ...]]

PER_OPTION = 3.0  # a wrong option that the strategy rules out adds so much to its score


@dataclass(frozen=True, slots=True, kw_only=True)
class StrategySpec:
    """One kind of strategy.

    score : how much it is worth being told, beside the others; so that over many questions each has its turn
    shows : whether facts, each of which holds, show it
    """

    score: float
    headline: str  # a message
    shows: Shows
    words: Words  # in general first, then as seen here


@dataclass(frozen=True, slots=True, kw_only=True)
class StrategyFact(Fact, ABC):
    """A strategy, with the facts of this question that show it."""

    strategy: StrEnum
    evidence: Evidence

    @property
    @abstractmethod
    def spec(self) -> StrategySpec:
        """Its row in its table."""

    def holds(self) -> bool:
        """All the evidence holds, and it shows this strategy."""
        return all(fact.holds() for fact in self.evidence) and self.spec.shows(self.evidence)

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """Which it is, and what shows it."""
        return ("strategy", self.strategy.value, tuple(fact.fingerprint_parts(origin) for fact in self.evidence))

    def stated(self) -> Stated:
        """Its evidence states everything."""
        labels = {label for fact in self.evidence if (label := fact.stated().label)}
        label = labels.pop() if len(labels) == 1 else ""
        return Stated(label=label, evidence=self.evidence, may_be_flip=True, may_be_other_action=True)

    def headline(self) -> str:
        """The strategy in a few words, for a heading or a slide's title."""
        return say(self.spec.headline)

    def narration(self) -> tuple[str, ...]:
        """The strategy in sentences.

        Raises : FactError where the fact does not hold
        """
        verified(self, (self.headline(),))  # first, because the sentences lean on the evidence being there
        return self.spec.words(self.evidence)

    def as_line(self) -> str:
        """As a plain line."""
        return f"to remember: {self.headline()}"


@dataclass(frozen=True, slots=True)
class Candidate:
    """A strategy that a question shows, and the wrong options against which it helps."""

    fact: StrategyFact
    rules_out: Collection[str] = ()

    @property
    def worth(self) -> float:
        """How much it is worth being told here."""
        return self.fact.spec.score + PER_OPTION * len(self.rules_out)


def chosen(candidates: Iterable[Candidate], used: Sequence[str]) -> StrategyFact:
    """The strategy to tell: one that has been told least often, of these the one that is worth most.

    used   : the strategies that earlier questions of the lesson have told
    Raises : ValueError where there is none
    """
    # Among equals the one that rules out more, then the one that comes first.
    best = max(
        candidates,
        key=lambda each: (-used.count(each.fact.strategy.value), each.worth, len(each.rules_out)),
        default=None,
    )
    if best is None:
        raise ValueError("a question without options shows no strategy")
    return best.fact


def here(sentence: str) -> str:
    """A sentence that shows the strategy at this question: once a lesson, then the picture shows it alone."""
    return once(sentence, "a strategy as seen here")


def ruled_out(labels: Collection[str]) -> str:
    """What the strategy came to in this question."""
    return here(say("Here that ruled out {labels}.", labels=list_in_words(sorted(labels))))

"""Slips: what a learner does wrong, and the fact that a wrong option is what comes out of it.

Every kind of question has slips of its own, by name. One is the same for all: the finished outline turned over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..geometry.outline import Outline
from .fact import Fact

__all__ = ["FLIPPED", "SlipCase", "SlipFact"]

FLIPPED = "flipped"  # the slip that happens to the finished outline, not to a part of the question


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipCase:
    """A slip, and what it happens to."""

    slip: str
    subject: str | None = None  # such as the name of a piece; None where the slip happens to the whole outline


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipFact(Fact):
    """An option shows what comes out when a learner makes this slip, or these two; a kind adds how it comes about."""

    label: str
    cases: tuple[SlipCase, ...]  # one, or two that happen together
    option: Outline  # in its own coordinates
    outline: Outline  # the result
    replayed: Outline  # what comes out, in the coordinates of the result

    def words(self) -> tuple[str, ...]:
        """What gives the option: one sentence for a slip, one for each of a pair.

        Raises : FactError where the slip does not give the option
        """
        raise NotImplementedError

    def shared_words(self, facts: Sequence[SlipFact]) -> str:
        """One sentence for options that come of the same slip, this one among them.

        Raises : FactError where one of them does not hold, or their slips differ
        """
        raise NotImplementedError

    def did(self) -> str:
        """What whoever chose the option probably did.

        Raises : FactError where the slip does not give the option
        """
        raise NotImplementedError

    def in_brief(self) -> str:
        """The slip, or the pair of them, as a phrase.

        Raises : FactError where it does not give the option
        """
        raise NotImplementedError

    def practise(self, case: SlipCase) -> str:
        """What to practise, for whoever keeps making this slip: one sentence for a teacher's marking sheet."""
        raise NotImplementedError

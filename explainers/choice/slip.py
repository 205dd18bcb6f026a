"""Slips: what a learner does wrong, and the fact that a wrong option is what comes out of it.

Every kind of question has slips of its own, by name. One is the same for all: the finished outline turned over.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from ..geometry.outline import Outline
from .fact import Fact

__all__ = ["FLIPPED", "CannotBeMade", "MakesTheResult", "SlipCase", "SlipFact", "Slips", "subjects_of"]

FLIPPED = "flipped"  # the slip that happens to the finished outline, not to a part of the question


class CannotBeMade(Exception):
    """A slip gives no outline here; the message says why, for a teacher. It never leaves what solves."""


class MakesTheResult(CannotBeMade):
    """A slip changes nothing here: what comes out is the finished outline."""


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

    def in_short(self) -> tuple[str, ...]:
        """What is wrong in the option, in a few words: one sentence for a slip, one for each of a pair.

        Raises : FactError where the slip does not give the option
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


class Slips(Protocol):
    """What slips make of one question, each found once and only when asked for; `FLIPPED` is among them always."""

    @property
    def outline(self) -> Outline:
        """The outline that options are held against, which is what comes out without a slip."""

    @property
    def tolerance(self) -> float:
        """The authoring tolerance of the question."""

    @property
    def subject(self) -> str:
        """What slips happen to, as a noun that an s makes several, such as "piece"; "": to the whole outline alone."""

    def singles(self) -> Iterable[tuple[SlipCase, ...]]:
        """Every single slip that may happen, the simplest first; whether it gives an outline is not asked."""

    def pairs(self) -> Iterable[tuple[SlipCase, ...]]:
        """Every two slips that may happen together, the simplest first."""

    def further(self) -> Iterable[tuple[tuple[SlipCase, ...], Outline]]:
        """What comes out where a single slip happens in another way than the one that ``made`` gives, the best first.

        Each can be told from the finished outline. A kind whose slips happen in one way has none.
        """

    def knows(self, case: SlipCase) -> bool:
        """Whether there is such a slip, and what it is said to happen to."""

    def made(self, cases: tuple[SlipCase, ...]) -> Outline:
        """What comes out when these slips happen.

        Raises : CannotBeMade where nothing legal comes out, MakesTheResult where that outline does
        """

    def fact_of(self, label: str, cases: tuple[SlipCase, ...], option: Outline) -> SlipFact:
        """The fact that these slips make the option.

        Raises : CannotBeMade
        """

    def diagnosed(self, label: str, option: Outline, *, pairs: bool) -> SlipFact | None:
        """The slip that makes a wrong option's outline; of several, the simplest, and a single one before any pair.

        option  : in its own coordinates, needless corners dropped
        pairs   : whether pairs of slips are sought where no single one makes it
        Returns : None where none of them does
        """

    def diagnosed_pair(self, label: str, option: Outline) -> SlipFact | None:
        """The simplest pair of slips that makes a wrong option's outline which no single one makes."""


def subjects_of(slips: Slips) -> frozenset[str]:
    """What slips may happen to, such as the names of pieces; empty where they happen to the whole outline."""
    return frozenset(case.subject for cases in slips.singles() for case in cases if case.subject is not None)

"""A fact: one true statement, with the geometry that proves it.

Every kind carries the *places* it speaks of (corners, sides, regions), the *figures* it states, and enough of the
outlines for ``holds()`` to recompute the statement from scratch, by a way of its own where there is one, without
trusting whoever built the fact. Move the place, and ``holds()`` is false. One module has all there is to one kind: the
statement, its proof, what its fingerprint is made from, and its words.

All places stand in the base's coordinates unless a field says otherwise. Lengths are in the teacher's own units
("squares" on the sheet's grid). ``tolerance`` is the authoring tolerance of the item, in the same units.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar

from ..errors import FactError
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point
from .fingerprint import FingerprintParts, fingerprint_of

__all__ = ["ActionClaims", "Fact", "Stated", "verified"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ActionClaims:
    """What is done with a part of a question, such as joining a piece, by the words that claim it."""

    claim: re.Pattern[str]
    counterclaim: re.Pattern[str]  # claims that something else is done in its place


@dataclass(frozen=True, slots=True, kw_only=True)
class Stated:
    """What a fact states, as far as somebody's own words about it can be held against it."""

    turn_deg: float | None = None  # of a piece or an option
    other_turns_deg: tuple[float, ...] = ()  # which may be told as well
    corner_deg: float | None = None
    outlines: tuple[Outline, ...] = ()
    corner_count: int | None = None  # of a piece
    corner_counts: tuple[int, ...] = ()  # others that may be told, such as how many there are of several things in all
    pieces: tuple[str, ...] = ()
    is_moved: bool = False  # whether the piece is turned, slid, joined or cut away
    mark: str = ""
    action: ActionClaims | None = None  # what is done with the piece
    may_be_other_action: bool = False  # whether words may tell of something else that is done as well
    label: str = ""  # of an option
    is_right: bool = False  # whether that option is the right one
    may_be_flip: bool = False  # whether something may be called flipped
    evidence: tuple[Fact, ...] = ()  # facts that show it: what they state may be told as well


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One statement; ``holds`` recomputes it."""

    # Whether it is a part of what is asked, and not of what comes of it: a kind says so of its own facts.
    is_asked: ClassVar[bool] = False

    tolerance: float

    def holds(self) -> bool:
        """Whether the statement is true of the geometry that the fact carries."""
        raise NotImplementedError

    def fingerprint_parts(self, origin: Point) -> FingerprintParts:
        """The figures and places that words may speak of, as numbers of grains: see ``fingerprint``.

        origin : the question's lower left; places are taken from there
        """
        raise TypeError(f"no fingerprint is known for a {type(self).__name__}")

    def fingerprint(self, origin: Point) -> str:
        """It changes with the figures and places that words may speak of, and with nothing else."""
        return fingerprint_of(self.fingerprint_parts(origin))

    def stated(self) -> Stated:
        """What words about the fact are held against."""
        return Stated()

    def as_line(self) -> str:
        """The fact as a short plain line without a full stop, for a teacher who compares what was true with what is."""
        raise TypeError(f"no line is known for a {type(self).__name__}")


def verified(fact: Fact, sentences: Iterable[str]) -> tuple[str, ...]:
    """The sentences, once their fact has been recomputed from its own geometry: the gate that all words pass.

    Raises : FactError where the fact does not hold: a build stops rather than say what is not so
    """
    words = tuple(sentences)
    if not fact.holds():
        raise FactError(
            f"a {type(fact).__name__} does not hold, so this cannot be said: {' '.join(words)!r}; "
            "this is a fault of the program, not of the item: please report it with the item's file"
        )
    return words

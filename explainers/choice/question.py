"""What every question with outlines as options has: its name, its options, the warnings that are let stand.

A kind of question adds what its own items are made of. Coordinates are in the teacher's own units, y up; angles in
degrees, anticlockwise positive.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import ClassVar

from ..geometry.rigid_motion import Point, Ring, Side

__all__ = ["OPTION_LABELS", "Accepted", "ClosingSide", "MadeOptions", "Option", "Question", "WarningKind"]

OPTION_LABELS = "ABCDEF"


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One of the outlines to choose from: drawn by hand, or the true outline changed by a named slip."""

    corners: Ring | None = None  # None: made from the result
    holes: tuple[Ring, ...] = ()
    slip: str | None = None  # with corners None: the slip; None is the true outline itself
    slip_subject: str | None = None  # the piece that the slip happens to, where the slip needs one
    turned: float = 0.0
    scale: float = 1.0
    name: str | None = None  # used in step ids in place of a short code of the outline; learners never see it


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeOptions:
    """A request for options to be made: this many wrong ones and the result."""

    make: int
    seed: int


class WarningKind(StrEnum):
    """What any sound item may be warned of; also the names under which a teacher accepts a warning.

    A kind of question has names of its own besides, told before these.
    """

    SYMMETRIC_OUTLINE = "symmetric-outline"  # the result looks the same in several turned positions
    NEARLY_RIGHT = "nearly-right"  # a wrong option that hardly differs from the result
    FINE_SIDES = "fine-sides"  # sides too short to be seen in the drawing of the question
    FINE_OPTIONS = "fine-options"  # the same among the options
    CLOSED_WALK = "closed-walk"  # the side put in to close a walk makes the side of a step longer than the step says


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepted:
    """A kind of warning that the teacher has looked at and lets stand."""

    kind: str  # the name of a warning: a `WarningKind`, or one of its kind of question
    reason: str  # the teacher's own words, never empty


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosingSide:
    """The side by which a walk round an outline comes back to its start: no step says how long it is."""

    path: str  # the field of the walk
    side: Side  # from the end of the last step to the start, in the outline's own coordinates
    asked: bool  # by the word that closes a walk; else it was put in
    runs_on: tuple[int, float, float] | None = None  # (step, its length, the side's) where it makes that side longer

    @property
    def length(self) -> float:
        """In the outline's own units."""
        return math.dist(*self.side)

    @property
    def is_doubtful(self) -> bool:
        """Whether nobody asked for it and a step may be too long or too short by it."""
        return self.runs_on is not None and not self.asked


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question, whatever its kind."""

    kind: ClassVar[str]  # the name of its kind, as written after `kind:`
    # Whether the outline that options are held against is shown from the start. Else it is what comes of the question,
    # and is called the finished outline: whoever speaks of it has words for both.
    outline_given: ClassVar[bool] = False

    name: str
    title: str
    options: tuple[Option, ...] = ()
    made: MadeOptions | None = None  # given in place of options; kept beside them once they are made
    accepted: tuple[Accepted, ...] = ()  # warnings that are silenced, at most one entry a kind
    closing: tuple[ClosingSide, ...] = field(default=(), compare=False)  # of its walks; it is the same question without

    @property
    def extent(self) -> float:
        """The larger extent of what it starts from, in its own units: the authoring tolerance is a part of it."""
        raise NotImplementedError

    @property
    def lower_left(self) -> Point:
        """The lower left of what it starts from: fingerprints of facts count places from there."""
        raise NotImplementedError

"""New questions of the same build as one that there is: what is asked for, and what was found.

How a question is varied is its kind's own matter.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .question import Question

__all__ = ["Level", "Variation", "Variations"]


class Level(StrEnum):
    """How hard a new question is beside the original."""

    SAME = "same"
    EASIER = "easier"
    HARDER = "harder"


@dataclass(frozen=True, slots=True, kw_only=True)
class Variation:
    """One new question, sound, with what a teacher is told of it."""

    question: Question
    comment: tuple[str, ...]  # the lines at the head of its file
    changes: tuple[str, ...]  # each feature in which it is easier or harder than the original


@dataclass(frozen=True, slots=True, kw_only=True)
class Variations:
    """What was found."""

    found: tuple[Variation, ...]
    too_few: str = ""  # why there are fewer than were asked for
    nothing_to_change: bool = False  # no feature of the original can be made easier, or harder

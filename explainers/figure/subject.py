"""What an entry of a figure, or a step of a lesson, is about: a thing of the question, and which one of its kind.

Carried as data, so that nobody has to read it out of an id or the name of a group.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["EVERY_OPTION", "THE_BASE", "THE_OUTLINE", "Subject", "Thing", "option_subject", "piece_subject"]


class Thing(StrEnum):
    """A kind of thing that a question is made of."""

    BASE = "base"
    PIECE = "piece"
    OUTLINE = "outline"  # the finished outline
    OPTION = "option"


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """One thing.

    name : which of its kind; "" where there is only one, or where all of them are meant
    """

    thing: Thing
    name: str = ""

    @property
    def group(self) -> str:
        """The group in which everything that is drawn of it moves as one, such as "piece-1", "option-b" or "base"."""
        return f"{self.thing.value}-{self.name.lower()}" if self.name else self.thing.value


THE_BASE = Subject(thing=Thing.BASE)
THE_OUTLINE = Subject(thing=Thing.OUTLINE)
EVERY_OPTION = Subject(thing=Thing.OPTION)


def piece_subject(index: int) -> Subject:
    """A piece in a figure, counted from 0: by its number, since its name may say too much to a learner."""
    return Subject(thing=Thing.PIECE, name=str(index + 1))


def option_subject(label: str) -> Subject:
    """An option in a figure: by its letter, which a learner sees."""
    return Subject(thing=Thing.OPTION, name=label)

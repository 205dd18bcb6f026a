"""What an entry of a figure, or a step of a lesson, is about: a thing of the question, and which one of its kind.

Carried as data, so that nobody has to read it out of an id or the name of a group.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["EVERY_OPTION", "THE_OUTLINE", "Subject", "Thing", "option_subject"]


class Thing(StrEnum):
    """What any question is made of; a kind of question has names of its own for whatever else it is made of."""

    OUTLINE = "outline"  # the finished outline
    OPTION = "option"


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """One thing.

    name : which of its kind; "" where there is only one, or where all of them are meant
    """

    thing: str  # a ``Thing``, or a name that only some kinds of question use, such as "piece"
    name: str = ""

    @property
    def group(self) -> str:
        """The group in which everything that is drawn of it moves as one, such as "piece-1", "option-b" or "base"."""
        return f"{self.thing}-{self.name.lower()}" if self.name else str(self.thing)


THE_OUTLINE = Subject(thing=Thing.OUTLINE)
EVERY_OPTION = Subject(thing=Thing.OPTION)


def option_subject(label: str) -> Subject:
    """An option in a figure: by its letter, which a learner sees."""
    return Subject(thing=Thing.OPTION, name=label)

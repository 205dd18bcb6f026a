"""Where a lesson may stop within a question and ask, as its file names the places after ``ask:``."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from ..choice.question import Question
from ..document.notation import listed
from ..errors import Fault

__all__ = ["Stop", "Stops"]


@dataclass(frozen=True, slots=True)
class Stop:
    """One place to stop."""

    place: str
    part: str | None = None  # the name of the part of the question that it is in; None: it is one of the whole

    @classmethod
    def of(cls, written: str) -> Stop:
        """The place as a file names it: alone, or after the name of a part and a full stop."""
        part, dot, place = written.partition(".")
        return cls(place, part) if dot else cls(written)

    def __str__(self) -> str:
        return self.place if self.part is None else f"{self.part}.{self.place}"


def _no_parts(question: Any) -> Sequence[str]:
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stops:
    """The places that one kind of question has."""

    names: tuple[str, ...]
    in_a_part: tuple[str, ...] = ()  # after the name of a part of the question and a full stop
    part: str = ""  # what such a part is, such as "piece"
    parts_of: Callable[[Any], Sequence[str]] = _no_parts  # their names in a question of this kind
    example: str  # what to write, for a teacher

    @property
    def pattern(self) -> str:
        """The regular expression of the places within a part; "" where there are none."""
        return rf"[a-z0-9-]+\.({'|'.join(self.in_a_part)})" if self.in_a_part else ""

    def include(self, stop: Stop) -> bool:
        """Whether questions of this kind may have this place."""
        if stop.part is None:
            return stop.place in self.names
        return stop.place in self.in_a_part and re.fullmatch(r"[a-z0-9-]+", stop.part) is not None

    def faults(self, question: Question, stops: Iterable[Stop], field: str) -> list[Fault]:
        """What is wrong with stops that a lesson asks for: places that a question of this kind does not have.

        field : where they stand in the lesson's file
        """
        return [fault for stop in stops if (fault := self._fault(question, stop, field))]

    def _fault(self, question: Question, stop: Stop, field: str) -> Fault | None:
        parts = self.parts_of(question)
        if not self.include(stop):
            why, fix = f"{question.name} is a question of another kind", f"write {self.example}"
        elif stop.part is not None and stop.part not in parts:
            why = f"the item {question.name} has no {self.part} called {stop.part}"
            fix = f"name one of its {self.part}s: {listed(parts)}"
        else:
            return None
        return Fault(field=field, message=f"{stop} is no place to stop: {why}", fix=fix)

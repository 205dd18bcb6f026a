"""Where a lesson may stop within a question and ask, as its file names the places after ``ask:``."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from ..document.notation import listed

__all__ = ["Stops"]


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

    def include(self, stop: str) -> bool:
        """Whether questions of this kind may have a place of this name."""
        return stop in self.names or bool(self.pattern and re.fullmatch(self.pattern, stop))

    def refusal(self, stop: str, question: Any, name: str) -> tuple[str, str] | None:
        """Why a question of this kind has no such place, and what to write; None where it has it.

        name : of the question
        """
        part, dot, _ = stop.partition(".")
        if not self.include(stop):
            return f"the item {name} is of another kind of question", f"write {self.example}"
        if not dot or part in (parts := self.parts_of(question)):
            return None
        return f"the item {name} has no {self.part} called {part}", f"name one of its {self.part}s: {listed(parts)}"

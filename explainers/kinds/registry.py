"""The kinds of question that are installed: found by entry points, each loaded when it is asked for."""

from __future__ import annotations

from functools import cache
from importlib.metadata import EntryPoint, entry_points
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..choice.model import Solution
    from ..choice.question import Question
    from .kind import Kind

__all__ = ["DEFAULT_KIND", "kind_named", "kind_names", "kind_of", "solve"]

DEFAULT_KIND = "join-and-cut"  # of an item that names none
_GROUP = "explainers.kinds"


@cache
def _installed() -> dict[str, EntryPoint]:
    found: dict[str, EntryPoint] = {}
    for entry in entry_points(group=_GROUP):
        if entry.name in found and found[entry.name].value != entry.value:
            raise ValueError(f"two packages bring a kind of question called {entry.name}")
        found[entry.name] = entry
    return found


def kind_names() -> tuple[str, ...]:
    """The names of all kinds, in alphabetical order, without loading any."""
    return tuple(sorted(_installed()))


@cache
def kind_named(name: str) -> Kind:
    """The kind of this name.

    Raises : KeyError where there is none
    """
    kind: Kind = _installed()[name].load()
    if kind.name != name:
        raise ValueError(f"the kind of question called {name} calls itself {kind.name}")
    return kind


def kind_of(question: Question) -> Kind:
    """The kind that a question is of."""
    return kind_named(question.kind)


def solve(question: Question, *, pairs: bool = False) -> Solution:
    """Everything that is true of a question, as ``Kind.solve``.

    pairs : whether pairs of slips are sought too for options drawn by hand that no single slip makes
    """
    kind = kind_of(question)
    solution = kind.solve(question)
    return kind.with_pairs(solution) if pairs else solution

"""Each item that a command was given, solved or refused, one after the other.

A bad file never stops the ones after it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import Fault, ItemError, faults_of
from ..intake.reader import item_files
from ..item.folder import nothing_in

if TYPE_CHECKING:
    from ..choice.model import Answer, Solution
    from ..intake.workspace import Workspace

__all__ = ["Outcome", "Repeated", "State", "answered_each", "solved_each", "with_repeats"]


class State(Enum):
    """How a file stands, for a reader; in the order of its exit codes."""

    SOUND = "sound"
    UNSOUND = "not sound"  # it solves, but has not exactly one right option
    REFUSED = "refused"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One file: its solution, or only its answer where no more was asked for, or every fault found in it."""

    path: Path
    name: str  # the item's; of a refused one as far as it can be read, else the file's stem
    answer: Answer | None = None
    solution: Solution | None = None
    faults: tuple[Fault, ...] = ()

    @property
    def state(self) -> State:
        """How it stands."""
        if self.answer is None:
            return State.REFUSED
        return State.SOUND if self.answer.sound else State.UNSOUND


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeated:
    """An earlier file that asks what a later one asks again."""

    path: Path
    name: str
    flipped: bool  # only after turning it over


def solved_each(paths: Iterable[Path], workspace: Workspace) -> Iterator[Outcome]:
    """The items named, and those of every folder named, in order, each solved as it is asked for."""

    def outcome(path: Path) -> Outcome:
        solution = workspace.solution(path)
        return Outcome(path=path, name=solution.item.name, answer=solution, solution=solution)

    return _each(paths, workspace, outcome)


def answered_each(paths: Iterable[Path], workspace: Workspace) -> Iterator[Outcome]:
    """Each file answered, one after the other, without the reasons: that takes a fraction of the time."""

    def outcome(path: Path) -> Outcome:
        answer = workspace.answer(path)
        return Outcome(path=path, name=answer.item.name, answer=answer)

    return _each(paths, workspace, outcome)


def with_repeats(outcomes: Iterable[Outcome]) -> Iterator[tuple[Outcome, Repeated | None]]:
    """Each outcome as it comes, with the earlier one whose question is the same."""
    from ..choice.same_question import Asked

    asked = Asked()
    solved: list[tuple[Path, str]] = []
    for outcome in outcomes:
        if outcome.solution is None:
            yield outcome, None
            continue
        repeat = asked.again(outcome.solution)
        solved.append((outcome.path, outcome.name))
        if repeat is None:
            yield outcome, None
        else:
            path, name = solved[repeat.earlier]
            yield outcome, Repeated(path=path, name=name, flipped=repeat.likeness.flipped)


def _each(paths: Iterable[Path], workspace: Workspace, outcome_of: Callable[[Path], Outcome]) -> Iterator[Outcome]:
    for named in paths:
        try:
            files = item_files([named], workspace.opened)
            if not files:
                raise ItemError([nothing_in(named, "item")])
        except Exception as error:
            yield Outcome(path=named, name=named.stem, faults=faults_of(error, named))
            continue
        for path in files:
            try:
                outcome = outcome_of(path)
            except Exception as error:
                outcome = Outcome(path=path, name=_name_of(path, workspace), faults=faults_of(error, path))
            yield outcome


def _name_of(path: Path, workspace: Workspace) -> str:
    """The name that a refused item's file gives it, where at least that much can be read."""
    try:
        return workspace.item(path).name
    except Exception:  # the one that is told already
        return path.stem

"""Each file that a command was given, solved or refused, one after the other.

A bad file never stops the ones after it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..batch import nothing_in
from ..errors import Fault, ItemError
from .door import faults_of
from .exit_codes import REFUSED, SOUND, UNSOUND

if TYPE_CHECKING:
    from ..solution.model import Answer, Solution

__all__ = ["Outcome", "answered_each", "faults_as_json", "is_many", "solved_each"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One file: its solution, or only its answer where no more was asked for, or every fault found in it."""

    path: Path
    answer: Answer | None = None
    solution: Solution | None = None
    faults: tuple[Fault, ...] = ()

    @property
    def code(self) -> int:
        """The exit code that this file alone would give."""
        if self.answer is None:
            return REFUSED
        return SOUND if self.answer.sound else UNSOUND

    def refusal(self) -> dict[str, Any]:
        """The object that `--json` prints for a refused item."""
        name = _name_written(self.path) or self.path.stem
        return {"item": name, "errors": faults_as_json(self.faults, self.path)}


def faults_as_json(faults: Iterable[Fault], path: Path) -> list[dict[str, Any]]:
    """Faults as plain values.

    path : the file that those speak of which name none
    """
    return [
        {
            "file": fault.file or str(path),
            "line": fault.line,
            "field": fault.field,
            "message": fault.message,
            "fix": fault.fix,
        }
        for fault in faults
    ]


def is_many(paths: Iterable[Path]) -> bool:
    """Whether what was named is a folder, a series or several files: JSON Lines then, not one object."""
    from ..item.series_folder import is_series_file

    named = list(paths)
    return len(named) != 1 or named[0].is_dir() or is_series_file(named[0])


def solved_each(paths: Iterable[Path]) -> Iterator[Outcome]:
    """The items named, and those of every folder named, in order, each solved as it is asked for."""
    from ..intake import take_in
    from ..item.reader import item_files

    def outcome(path: Path) -> Outcome:
        solution = take_in(path)
        return Outcome(path=path, answer=solution, solution=solution)

    yield from _each(paths, item_files, outcome)


def answered_each(paths: Iterable[Path]) -> Iterator[Outcome]:
    """The same with answers only, which takes a fraction of the time."""
    from ..intake import take_answer
    from ..item.reader import item_files

    yield from _each(paths, item_files, lambda path: Outcome(path=path, answer=take_answer(path)))


def _each(
    paths: Iterable[Path],
    files_of: Callable[[list[Path]], Iterable[Path]],
    outcome_of: Callable[[Path], Outcome],
) -> Iterator[Outcome]:
    for named in paths:
        try:
            files = list(files_of([named]))
            if not files:
                raise ItemError([nothing_in(named, "item")])
        except Exception as error:
            yield Outcome(path=named, faults=faults_of(error, named))
            continue
        for path in files:
            try:
                outcome = outcome_of(path)
            except Exception as error:
                outcome = Outcome(path=path, faults=faults_of(error, path))
            yield outcome


def _name_written(path: Path) -> str | None:
    """The name that a refused item's file gives it, where at least that much can be read."""
    from ..document.fields import Faults, name_of
    from ..document.source_map import compose_file

    try:
        root = compose_file(path).root
    except OSError:
        return None
    entry = root.entries.get("item") if root else None
    return name_of(entry.value, "item", Faults(), example="") if entry else None

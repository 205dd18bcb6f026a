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
    from ..solution.model import Solution

__all__ = ["Outcome", "is_many", "solved_each"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One file: its solution, or every fault found in it."""

    path: Path
    solution: Solution | None = None
    faults: tuple[Fault, ...] = ()

    @property
    def code(self) -> int:
        """The exit code that this file alone would give."""
        if self.solution is None:
            return REFUSED
        return SOUND if self.solution.sound else UNSOUND

    def refusal(self) -> dict[str, Any]:
        """The object that `--json` prints for a refused item."""
        return {
            "item": _name_written(self.path) or self.path.stem,
            "errors": [
                {
                    "file": fault.file or str(self.path),
                    "line": fault.line,
                    "field": fault.field,
                    "message": fault.message,
                    "fix": fault.fix,
                }
                for fault in self.faults
            ],
        }


def is_many(paths: Iterable[Path]) -> bool:
    """Whether what was named is a folder or several files: JSON Lines then, not one object."""
    named = list(paths)
    return len(named) != 1 or named[0].is_dir()


def solved_each(paths: Iterable[Path], *, slips: bool = True) -> Iterator[Outcome]:
    """The items named, and those of every folder named, in order, each solved as it is asked for.

    slips : whether the slips behind options drawn by hand are sought
    """
    from functools import partial

    from ..intake import take_in
    from ..item.reader import item_files

    yield from _each(paths, item_files, partial(take_in, slips=slips))


def _each(
    paths: Iterable[Path],
    files_of: Callable[[list[Path]], Iterable[Path]],
    take_in: Callable[[Path], Solution],
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
                solution = take_in(path)
            except Exception as error:
                yield Outcome(path=path, faults=faults_of(error, path))
            else:
                yield Outcome(path=path, solution=solution)


def _name_written(path: Path) -> str | None:
    """The name that a refused item's file gives it, where at least that much can be read."""
    from ..item.fields import Faults, name_of
    from ..item.source_map import compose_file

    try:
        root = compose_file(path).root
    except OSError:
        return None
    entry = root.entries.get("item") if root else None
    return name_of(entry.value, "item", Faults(), example="") if entry else None

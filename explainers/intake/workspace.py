"""From a file's name to a solution: reading then solving, the faults of both in one error.

A ``Workspace`` is what one run has read and solved. Each command makes one and hands it down, so that a file is opened
once and an item solved once, whoever asks for it; a page that follows a file makes a new one for every round.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from ..document.file_text import OpenedFiles, place_of
from ..document.source_map import in_line_order
from ..errors import Fault, ItemError, LessonError
from ..kinds.registry import kind_of, solve
from .reader import LessonReading, Reading, kind_of_file, scan_item, scan_lesson

if TYPE_CHECKING:
    from ..choice.model import Answer, Solution
    from ..choice.question import Question
    from ..item.folder import FileKind
    from ..item.model import Lesson

Solved = TypeVar("Solved")

__all__ = ["Workspace", "load_lesson", "load_solution", "solved"]

_MOST_ITEMS = 100  # solutions held besides those that are kept on purpose; a lesson shows 50 at most


@dataclass(slots=True, kw_only=True)
class _Seen:
    """One item of a run."""

    reading: Reading
    solution: Solution | None = None
    with_pairs: Solution | None = None
    error: ItemError | None = None  # in place of a solution


class Workspace:
    """The files of one run, each opened once, and their items, each solved once.

    opened : opens a file, for whatever reads one besides

    Of items the last 100 are held, and those that ``keep`` names: a folder of thousands is gone through without all
    of their solutions being held at a time. The text of a file is held longer, see ``OpenedFiles``.
    """

    def __init__(self) -> None:
        self.opened = OpenedFiles()
        self._recent: dict[str, _Seen] = {}  # the one asked for last comes last
        self._kept: dict[str, _Seen | None] = {}
        self._lessons: dict[str, LessonReading] = {}

    def keep(self, paths: Iterable[Path]) -> None:
        """Hold the solutions of these items for the whole run, since they will be asked for again."""
        for place in map(place_of, paths):
            self._kept.setdefault(place, self._recent.pop(place, None))

    def kind(self, path: Path) -> FileKind | None:
        """What a file is, as ``kind_of_file``."""
        return kind_of_file(path, self.opened)

    def item(self, path: Path) -> Reading:
        """An item's file, as ``scan_item``."""
        return self._seen(path).reading

    def lesson(self, path: Path) -> LessonReading:
        """A lesson's file, as ``scan_lesson``."""
        if str(path) not in self._lessons:
            self._lessons[str(path)] = scan_lesson(path, self.opened)
        return self._lessons[str(path)]

    def solution(self, path: Path, *, pairs: bool = False) -> Solution:
        """The item of a file, solved; as ``load_solution``."""
        seen = self._seen(path)
        if seen.error is not None:
            raise seen.error.with_traceback(None)
        if seen.solution is None:
            try:
                seen.solution = solved(seen.reading)
            except ItemError as error:
                seen.error = error
                raise
        if not pairs:
            return seen.solution
        if seen.with_pairs is None:
            seen.with_pairs = kind_of(seen.solution.item).with_pairs(seen.solution)
        return seen.with_pairs

    def answer(self, path: Path) -> Answer:
        """The answer of an item: its solution without the reasons, which take most of the time."""
        seen = self._seen(path)
        return seen.solution or _with_lines(seen.reading, lambda item: kind_of(item).answer(item))

    def solved_lesson(self, path: Path) -> tuple[Lesson, tuple[Solution, ...]]:
        """A lesson with its items solved, as ``load_lesson``."""
        reading = self.lesson(path)
        faults: list[Fault] = list(reading.faults)
        solutions: list[Solution] = []
        shown: dict[str, int] = {}
        for index, part in enumerate(reading.lesson.parts if reading.lesson else ()):
            try:
                solution = self.solution(part.show, pairs=True)
            except ItemError as error:
                faults += error.faults
                continue
            solutions.append(solution)
            first = shown.setdefault(solution.item.name, index)
            if first != index:
                same_name = Fault(
                    field=f"parts[{index}].show",
                    message=f"part number {first + 1} shows another item called {solution.item.name}",
                    fix="give one of the two items another name; their steps could not be told apart",
                )
                faults += reading.source.placed([same_name])
            faults += reading.source.placed(
                kind_of(solution.item).stops.faults(solution.item, part.asks, f"parts[{index}].ask")
            )
        if faults or reading.lesson is None:
            raise LessonError(in_line_order(faults))
        return reading.lesson, tuple(solutions)

    def _seen(self, path: Path) -> _Seen:
        """What is held of an item, read if need be."""
        path = Path(path)
        place = place_of(path)
        seen = self._kept.get(place) or self._recent.pop(place, None)
        if seen is None:
            seen = _Seen(reading=scan_item(path, self.opened))
        elif seen.reading.source.file != str(path):
            # The same file by another name, which its faults have to bear; without any, the item is the same.
            reading = scan_item(path, self.opened)
            same = not reading.faults and seen.error is None
            seen = _Seen(
                reading=reading,
                solution=seen.solution if same else None,
                with_pairs=seen.with_pairs if same else None,
            )
        if place in self._kept:
            self._kept[place] = seen
        else:
            self._recent[place] = seen
            if len(self._recent) > _MOST_ITEMS:
                del self._recent[next(iter(self._recent))]
        return seen


def load_solution(path: Path, *, pairs: bool = False) -> Solution:
    """The item of a file, solved. An unsound item is handed on with ``sound`` false.

    pairs : whether pairs of slips are sought too for options drawn by hand: what a lesson tells, and takes longer
    Raises: ItemError with every fault that reading and solving find, each with file and line
    """
    return Workspace().solution(path, pairs=pairs)


def load_lesson(path: Path) -> tuple[Lesson, tuple[Solution, ...]]:
    """A lesson with its items solved, in the order of its parts.

    Raises: LessonError with every fault of the lesson and of the items that it shows
    """
    return Workspace().solved_lesson(path)


def solved(reading: Reading) -> Solution:
    """What was read of an item's file, solved; for whoever also needs to know on which line a field stands.

    Raises: as ``load_solution``
    """
    return _with_lines(reading, solve)


def _with_lines(reading: Reading, solving: Callable[[Question], Solved]) -> Solved:
    """What was read, solved, with every fault given its line."""
    if reading.item is None or reading.faults:
        further = reading.source.placed(_faults_of_solving(reading))
        raise ItemError(in_line_order((*reading.faults, *further)))
    try:
        return solving(reading.item)
    except ItemError as error:
        raise ItemError(reading.source.placed(error.faults)) from error


def _faults_of_solving(reading: Reading) -> list[Fault]:
    """What the solver finds wrong in that part of an item which could be read."""
    if reading.begun is None:
        return []
    is_named = all(fault.field != "item" for fault in reading.faults)
    kind = kind_of(reading.begun)
    return kind.refusals(reading.begun, is_whole=reading.item is not None, is_named=is_named)

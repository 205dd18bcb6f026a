"""Each lesson that `explainers check` was given by its file: the items that it shows, what is wrong with itself."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..errors import Fault
from .exit_codes import REFUSED, SOUND
from .outcomes import faults_as_json

__all__ = ["LessonOutcome", "lesson_json", "lessons_opened", "seconds_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonOutcome:
    """A lesson, and what is wrong with it apart from its items."""

    path: Path
    faults: tuple[Fault, ...] = ()

    @property
    def code(self) -> int:
        """The exit code that this lesson alone would give, its items apart."""
        return REFUSED if self.faults else SOUND


def lessons_opened(paths: Iterable[Path]) -> tuple[list[Path], list[LessonOutcome]]:
    """The same files and folders with the items that a lesson shows in the lesson's place, each once; the lessons."""
    from ..item.reader import kind_of_file, scan_lesson

    opened: list[Path] = []
    lessons = []
    for path in paths:
        if not path.is_file() or kind_of_file(path) != "lesson":
            opened.append(path)
            continue
        lesson = scan_lesson(path).lesson
        shown = [part.show for part in lesson.parts] if lesson else []
        opened += [item for item in shown if item not in opened]
        lessons.append(LessonOutcome(path=path, faults=_own_faults(path, shown)))
    return opened, lessons


def seconds_of(outcome: LessonOutcome) -> float:
    """How long a lesson takes at its own pace; 0 where it cannot be made, which is told elsewhere."""
    from ..batch import timeline_of
    from ..errors import ExplainersError

    if outcome.faults:
        return 0.0
    try:
        return timeline_of(outcome.path).seconds
    except ExplainersError:
        return 0.0


def lesson_json(outcome: LessonOutcome) -> dict[str, Any]:
    """The object that `--json` prints for a lesson that is refused."""
    return {"lesson": outcome.path.stem, "errors": faults_as_json(outcome.faults, outcome.path)}


def _own_faults(path: Path, shown: Iterable[Path]) -> tuple[Fault, ...]:
    """What is wrong with a lesson, without the faults of its items, which are told where those are checked."""
    from ..errors import LessonError
    from ..intake import take_in_lesson

    try:
        take_in_lesson(path)
    except LessonError as error:
        items = {str(item) for item in shown}
        return tuple(fault for fault in error.faults if fault.file not in items)
    return ()

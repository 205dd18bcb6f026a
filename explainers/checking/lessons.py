"""Each lesson that is checked: the items that it shows, what is wrong with itself, its length, its own words."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from ..document.file_text import place_of
from ..errors import ExplainersError, Fault, LessonError
from ..intake.reader import lesson_or_item_files

if TYPE_CHECKING:
    from ..intake.workspace import Workspace
    from ..own_words import Review
    from ..storyboard.timeline import Timeline

__all__ = [
    "LONG_MIN",
    "LessonOutcome",
    "lessons_opened",
    "lessons_with_words",
    "review_of",
    "seconds_of",
    "timeline_planned",
]

LONG_MIN = 10  # minutes, for pupils of about ten years: common practice, no source
_NEARLY_LONG_S = 0.9 * 60.0 * LONG_MIN


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonOutcome:
    """A lesson, and what is wrong with it apart from its items."""

    path: Path
    faults: tuple[Fault, ...] = ()


def lessons_opened(paths: Iterable[Path], workspace: Workspace) -> tuple[list[Path], list[LessonOutcome]]:
    """(files and folders, each lesson among them replaced by the items that it shows, each once; the lessons)."""
    opened: list[Path] = []
    lessons = []
    for path in paths:
        if not path.is_file() or workspace.kind(path) != "lesson":
            opened.append(path)
            continue
        shown = _shown(path, workspace)
        workspace.keep(shown)
        opened += [item for item in shown if item not in opened]
        lessons.append(LessonOutcome(path=path, faults=_own_faults(path, shown, workspace)))
    return opened, lessons


def lessons_with_words(paths: Iterable[Path], workspace: Workspace) -> list[Path]:
    """Every lesson among these files and folders that has words of its teacher's, once; its items are held."""
    seen = set()
    files: list[Path] = []
    found = []
    for named in paths:
        try:
            files += lesson_or_item_files([named], workspace.opened)
        except ExplainersError:  # a series that is refused, told of by itself
            continue
    for path in files:
        place = place_of(path)
        # Unlike Path.is_file this raises for nothing: not our fault to tell.
        if place in seen or not os.path.isfile(place) or workspace.kind(path) != "lesson":
            continue
        seen.add(place)
        lesson = workspace.lesson(path).lesson
        if lesson is not None and lesson.words:
            workspace.keep(part.show for part in lesson.parts)
            found.append(path)
    return found


def timeline_planned(outcome: LessonOutcome, workspace: Workspace) -> Timeline | None:
    """A lesson at its own pace; None where it cannot be made, which is told elsewhere."""
    from ..batch import timeline_of

    if outcome.faults:
        return None
    try:
        return timeline_of(outcome.path, workspace=workspace)
    except ExplainersError:
        return None


def seconds_of(outcome: LessonOutcome, workspace: Workspace) -> float:
    """How long a lesson takes at its own pace; 0 where it cannot be made, which is told elsewhere.

    Planned with its pictures only where it may be long, or has a voice: the lengths without them are the same, and
    whether everything has room is for whoever makes it.
    """
    from ..figure.theme_choice import chosen_theme
    from ..fitting.memory import fit_folder
    from ..lesson.planner import plan_unseen
    from ..storyboard.paces import pace_called
    from ..storyboard.pacing import pace

    if outcome.faults:
        return 0.0
    if not any(fit_folder(outcome.path, scratch=scratch).exists() for scratch in (False, True)):
        try:
            lesson, solutions = workspace.solved_lesson(outcome.path)
            unseen = plan_unseen(lesson, solutions, chosen_theme(lesson.theme, workspace.opened))
            seconds = pace(unseen, pace_called(lesson.pace)).seconds
        except ExplainersError:
            return 0.0
        if seconds < _NEARLY_LONG_S:
            return seconds
    timeline = timeline_planned(outcome, workspace)
    return timeline.seconds if timeline is not None else 0.0


def review_of(path: Path, workspace: Workspace, timeline: Timeline | None = None) -> Review | None:
    """How the words of a lesson stand; None where it cannot be made, which is told elsewhere.

    timeline : of the lesson, where it has been planned already
    """
    from ..own_words import review_words

    steps = timeline.storyboard.steps if timeline is not None else None
    try:
        lesson, solutions = workspace.solved_lesson(path)
        return review_words(path, workspace.lesson(path).source, lesson, solutions, steps)
    except (ExplainersError, OSError):
        return None


def _shown(path: Path, workspace: Workspace) -> list[Path]:
    lesson = workspace.lesson(path).lesson
    return [part.show for part in lesson.parts] if lesson else []


def _own_faults(path: Path, shown: Sequence[Path], workspace: Workspace) -> tuple[Fault, ...]:
    """What is wrong with a lesson, without the faults of its items, which are told where those are checked."""
    try:
        workspace.solved_lesson(path)
    except LessonError as error:
        items = {str(item) for item in shown}
        return tuple(fault for fault in error.faults if fault.file not in items)
    return ()

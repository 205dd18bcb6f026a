"""Each series that is checked, by its file or a folder: its lessons, its items, what is noticed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from ..document.file_text import place_of
from ..errors import Fault
from ..intake.reader import item_files, scan_series
from ..item.model import Manner
from ..item.series_folder import is_folder, lessons_meant, series_meant

if TYPE_CHECKING:
    from ..choice.series_survey import Survey
    from ..intake.workspace import Workspace
    from ..item.model import Lesson, Series

__all__ = ["SeriesOutcome", "items_meant", "series_notes", "surveyed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesOutcome:
    """A series with those of its lessons that can be read, or what is wrong with it."""

    path: Path
    series: Series | None = None
    lessons: tuple[tuple[Path, Lesson], ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def items(self) -> tuple[Path, ...]:
        """The files of the items shown, each once, in the order of the lessons."""
        shown = {part.show.resolve(): part.show for _, lesson in self.lessons for part in lesson.parts}
        return tuple(shown.values())


def items_meant(paths: Iterable[Path], workspace: Workspace) -> tuple[list[Path], list[SeriesOutcome]]:
    """What to check in place of the files and folders named: items and folders, and the series among them.

    A series stands for the items that its lessons show; a folder with a series, for the items in it, then for those.
    """
    named = list(paths)
    folders = [path for path in named if is_folder(path)]
    found = [_read(path, folders, workspace) for path in series_meant(named, workspace.opened)]
    by_file = {outcome.path.resolve(): outcome for outcome in found}
    items: list[Path] = []
    places: set[str] = set()
    for path in named:
        series = [by_file[file.resolve()] for file in series_meant([path], workspace.opened)]
        items += [path] if not series else item_files([path], workspace.opened) if path.is_dir() else []
        places.update(map(place_of, items))
        for item in (item for outcome in series for item in outcome.items):
            if place_of(item) not in places:
                items.append(item)
                places.add(place_of(item))
    for outcome in found:
        workspace.keep(outcome.items)
    return items, found


def surveyed(outcome: SeriesOutcome, workspace: Workspace) -> Survey:
    """The series looked at as a whole; items that are refused are left out, since they are told elsewhere."""
    from ..choice.series_survey import SurveyedItem, survey

    shown = []
    for _, lesson in outcome.lessons:
        for part in lesson.parts:
            try:
                solution = workspace.solution(part.show)
            except Exception:  # told where the item is checked by itself
                continue
            shown.append(
                SurveyedItem(
                    lesson=lesson.name,
                    solution=solution,
                    parts_seen=part.manner is not Manner.QUICK_CHECK,
                    asks_only=part.manner in (Manner.QUESTION, Manner.HINTS),
                    solves_only=part.manner is Manner.SOLUTION,
                )
            )
    return survey(shown)


def series_notes(outcome: SeriesOutcome, survey: Survey) -> Iterator[str]:
    """What is noticed of a series that can be read: sentences for a reader."""
    from ..kinds.registry import kind_of
    from ..sentences.series import not_listed, not_naming, survey_notes

    assert outcome.series is not None
    for _, lesson in outcome.lessons:
        if lesson.series is None or lesson.series.path.resolve() != outcome.path.resolve():
            yield not_naming(lesson.name)
        elif outcome.series.lessons and lesson.number is None:
            yield not_listed(lesson.name)
    slips: dict[str, str] = {}
    for shown in survey.shown:
        slips |= kind_of(shown.solution.item).slips_in_brief()
    yield from survey_notes(survey, slips)


def _read(path: Path, folders: Iterable[Path], workspace: Workspace) -> SeriesOutcome:
    reading = scan_series(path, workspace.opened)
    if reading.series is None:
        return SeriesOutcome(path=path, faults=reading.faults)
    lessons = []
    faults: list[Fault] = []
    for file in lessons_meant(reading.series, folders, workspace.opened):
        lesson = workspace.lesson(file)
        faults += lesson.faults
        if lesson.lesson is not None:
            lessons.append((file, lesson.lesson))
    return SeriesOutcome(path=path, series=reading.series, lessons=tuple(lessons), faults=tuple(faults))

"""Each series that `explainers check` was given, by its file or a folder: its lessons, its items, what is noticed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..errors import Fault
from .exit_codes import REFUSED, SOUND
from .outcomes import Outcome, faults_as_json
from .streams import say

if TYPE_CHECKING:
    from ..item.model import Lesson, Series
    from ..solution.series_survey import Survey

__all__ = ["SeriesOutcome", "items_meant", "series_json", "show_series", "surveyed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesOutcome:
    """A series with those of its lessons that can be read, or what is wrong with it."""

    path: Path
    series: Series | None = None
    lessons: tuple[tuple[Path, Lesson], ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def code(self) -> int:
        """The exit code that this series alone would give, its items apart."""
        return REFUSED if self.faults else SOUND

    @property
    def items(self) -> tuple[Path, ...]:
        """The files of the items shown, each once, in the order of the lessons."""
        shown = {part.show.resolve(): part.show for _, lesson in self.lessons for part in lesson.parts}
        return tuple(shown.values())


def series_outcomes(paths: Iterable[Path]) -> list[SeriesOutcome]:
    """Every series meant by these files and folders, read with its lessons."""
    from ..item.series_folder import is_folder, series_meant

    named = list(paths)
    folders = [path for path in named if is_folder(path)]
    return [_read(path, folders) for path in series_meant(named)]


def items_meant(paths: Iterable[Path]) -> tuple[list[Path], list[SeriesOutcome]]:
    """What to check in place of the files and folders named: items and folders, and the series among them.

    A series stands for the items that its lessons show; a folder with a series, for the items in it, then for those.
    """
    from ..item.reader import item_files
    from ..item.series_folder import series_meant

    named = list(paths)
    found = series_outcomes(named)
    by_file = {outcome.path.resolve(): outcome for outcome in found}
    items: list[Path] = []
    for path in named:
        series = [by_file[file.resolve()] for file in series_meant([path])]
        items += [path] if not series else item_files([path]) if path.is_dir() else []
        for item in (item for outcome in series for item in outcome.items):
            if item.resolve() not in [other.resolve() for other in items]:
                items.append(item)
    return items, found


def surveyed(outcome: SeriesOutcome, checked: Iterable[Outcome]) -> Survey:
    """The series looked at as a whole; items that are refused are left out, since they are told elsewhere.

    checked : what has been solved already
    """
    from ..intake import take_in
    from ..solution.series_survey import Shown, survey

    solutions = {one.path.resolve(): one.solution for one in checked}
    shown = []
    for _, lesson in outcome.lessons:
        for part in lesson.parts:
            place = part.show.resolve()
            if place not in solutions:
                try:
                    solutions[place] = take_in(part.show)
                except Exception:  # told where the item is checked by itself
                    solutions[place] = None
            solution = solutions[place]
            if solution is not None:
                shown.append(Shown(lesson=lesson.name, manner=part.manner, solution=solution))
    return survey(shown)


def _read(path: Path, folders: list[Path]) -> SeriesOutcome:
    from ..item.reader import scan_lesson, scan_series
    from ..item.series_folder import lessons_meant

    reading = scan_series(path)
    if reading.series is None:
        return SeriesOutcome(path=path, faults=reading.faults)
    lessons = []
    faults: list[Fault] = []
    for file in lessons_meant(reading.series, folders):
        lesson = scan_lesson(file)
        faults += lesson.faults
        if lesson.lesson is not None:
            lessons.append((file, lesson.lesson))
    return SeriesOutcome(path=path, series=reading.series, lessons=tuple(lessons), faults=tuple(faults))


def _notes(outcome: SeriesOutcome, survey: Survey) -> Iterator[str]:
    from ..wording.series import not_listed, not_naming, survey_notes

    assert outcome.series is not None
    for _, lesson in outcome.lessons:
        if lesson.series is None or lesson.series.path.resolve() != outcome.path.resolve():
            yield not_naming(lesson.name)
        elif outcome.series.lessons and lesson.number is None:
            yield not_listed(lesson.name)
    yield from survey_notes(survey)


def show_series(outcome: SeriesOutcome, survey: Survey) -> None:
    """A series for a reader."""
    from ..wording.series import series_headline

    if outcome.series is None:
        return
    say("")
    say(series_headline(outcome.series, len(outcome.lessons), len(outcome.items)))
    for note in _notes(outcome, survey):
        say(f"    {note}")


def series_json(outcome: SeriesOutcome, survey: Survey) -> Mapping[str, Any]:
    """A series for a program; or its faults."""
    if outcome.series is None:
        return {"series": outcome.path.stem, "errors": faults_as_json(outcome.faults, outcome.path)}
    return {
        "series": outcome.series.name,
        "file": str(outcome.path),
        "lessons": [
            {
                "lesson": lesson.name,
                "number": outcome.series.number_of(file),
                "file": str(file),
                "items": [{"file": str(part.show), "as": part.manner.value} for part in lesson.parts],
            }
            for file, lesson in outcome.lessons
        ],
        "asked_twice": [
            {
                "item": twice.shown.solution.item.name,
                "lesson": twice.shown.lesson,
                "earlier_item": twice.earlier.solution.item.name,
                "earlier_lesson": twice.earlier.lesson,
                "flipped": twice.flipped,
            }
            for twice in survey.asked_twice
        ],
        "turns_never": [kind.value for kind in survey.turns_never],
        "slips_never": list(survey.slips_never),
        "difficulty": {
            "in_order": not survey.easier,
            "estimate": True,
            "items": [
                {"item": shown.solution.item.name, "lesson": shown.lesson, "seconds": round(seconds, 3)}
                for shown, seconds in survey.work_s
            ],
            "falls_at": [
                {"item": fall.shown.solution.item.name, "lesson": fall.shown.lesson} for fall in survey.easier
            ],
        },
        "notes": list(_notes(outcome, survey)),
        "errors": faults_as_json(outcome.faults, outcome.path),
    }

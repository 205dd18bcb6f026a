"""Which series are meant by the files and folders given to a command, and which lessons belong to a series.

A folder means the series files in it and the series that its lessons name. The lessons of a series are those that it
lists; where it lists none, those that name it, in its own folder and in the folders given.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from pathlib import Path

from ..document.composing import compose_file, top_level_keys
from ..document.file_text import TextOf, text_of_file
from ..errors import Fault, LessonError
from .folder import files_in_folders, kind_of_file
from .model import Series
from .series_reader import scan_series

__all__ = ["is_folder", "is_many", "is_series_file", "lesson_or_item_files", "lessons_meant", "series_meant"]


def lesson_or_item_files(paths: Iterable[Path], opened: TextOf = text_of_file) -> list[Path]:
    """The files of the lessons and items meant; a series that is named means its lessons.

    opened  : what opens a file, here and below
    Raises: LessonError with every fault of such a series' file, or where it has no lesson
    """
    files: list[Path] = []
    for path in files_in_folders(paths, opened):
        files += _lessons_of(path, opened) if is_series_file(path, opened) else [path]
    return files


def _lessons_of(path: Path, opened: TextOf) -> list[Path]:
    reading = scan_series(path, opened)
    if reading.series is None:
        raise LessonError(reading.faults)
    lessons = lessons_meant(reading.series, [], opened)
    if not lessons:
        message = "this series lists no lesson, and no lesson beside it names it"
        fix = "list the files of its lessons, such as lessons: [first-blocks.yaml]"
        raise LessonError(reading.source.placed([Fault(field="", message=message, fix=fix)]))
    return lessons


def series_meant(paths: Iterable[Path], opened: TextOf = text_of_file) -> list[Path]:
    """The files of the series meant, each once, in order."""
    found: dict[Path, Path] = {}
    for path in paths:
        inside = _series_in(path, opened) if is_folder(path) else filter(partial(is_series_file, opened=opened), [path])
        for series in inside:
            found.setdefault(series.resolve(), series)
    return list(found.values())


def lessons_meant(series: Series, folders: Iterable[Path], opened: TextOf = text_of_file) -> list[Path]:
    """The files of the lessons of a series in order: those listed, then those that name it and are not listed."""
    found = {path.resolve(): path for path in series.lessons}
    for folder in (series.path.parent, *folders):
        for path in _lessons_naming_a_series(folder, opened):
            named = _named_series(path, opened)
            if named is not None and named.resolve() == series.path.resolve():
                found.setdefault(path.resolve(), path)
    return list(found.values())


def is_folder(path: Path) -> bool:
    """Whether a path is that of a folder; one that cannot be looked at is not."""
    try:
        return path.is_dir()
    except OSError:
        return False


def _series_in(folder: Path, opened: TextOf) -> Iterator[Path]:
    yield from (path for path in _yaml_files(folder) if is_series_file(path, opened))
    for path in _lessons_naming_a_series(folder, opened):
        named = _named_series(path, opened)
        if named is not None and named.is_file():
            yield named


def is_series_file(path: Path, opened: TextOf = text_of_file) -> bool:
    """Whether a path is that of a series' file; one that cannot be looked at is not."""
    try:
        return path.is_file() and kind_of_file(path, opened) == "series"
    except OSError:
        return False


def is_many(paths: Iterable[Path], opened: TextOf = text_of_file) -> bool:
    """Whether what was named is a folder, a series or several files, and not one lesson or item."""
    named = list(paths)
    return len(named) != 1 or named[0].is_dir() or is_series_file(named[0], opened)


def _lessons_naming_a_series(folder: Path, opened: TextOf) -> Iterator[Path]:
    for path in _yaml_files(folder):
        try:
            keys = set(top_level_keys(path, opened))
        except ValueError:
            continue  # what cannot be read is told by whoever reads it
        if {"lesson", "series"} <= keys:
            yield path


def _named_series(lesson: Path, opened: TextOf) -> Path | None:
    """The file that a lesson names as its series, whether or not it is there."""
    root = compose_file(lesson, opened).root
    entry = root.entries.get("series") if root else None
    text = getattr(entry.value, "text", "") if entry else ""
    return lesson.parent / text if text else None


def _yaml_files(folder: Path) -> list[Path]:
    return [path for path in sorted(folder.glob("*.yaml")) if not path.name.startswith(".") and path.is_file()]

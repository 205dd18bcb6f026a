"""Files read into items and lessons, with every fault of a file found in one run.

The way in for the other rooms. ``scan_item`` never raises for what a file holds; ``read_item`` and ``read_lesson``
raise once, with all the faults.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from ..choice.question import Question
from ..document.composing import compose_file
from ..document.fields import Faults
from ..document.file_text import TextOf, text_of_file
from ..document.source_map import SourceMap
from ..errors import Fault, ItemError, LessonError
from ..item.faults import mistaken_file
from ..item.folder import FileKind, item_files, kind_of_file
from ..item.model import Lesson, Series
from ..item.series_folder import lesson_or_item_files
from ..item.series_reader import SeriesReading, scan_series
from .item_reader import item_of
from .lesson_reader import lesson_of

__all__ = [
    "FileKind",
    "LessonReading",
    "Reading",
    "SeriesReading",
    "item_files",
    "kind_of_file",
    "lesson_or_item_files",
    "read_item",
    "read_lesson",
    "read_series",
    "scan_item",
    "scan_lesson",
    "scan_series",
]


@dataclass(frozen=True, slots=True)
class Reading:
    """An item's file as far as it could be read."""

    item: Question | None  # there whenever it can be solved, even with faults elsewhere
    faults: tuple[Fault, ...]  # placed, in line order
    source: SourceMap
    name: str  # the item's name, or the file's stem where none could be read
    begun: Question | None = None  # as much of it from the start as reads well; None where that leaves nothing


@dataclass(frozen=True, slots=True)
class LessonReading:
    """A lesson's file as far as it could be read."""

    lesson: Lesson | None  # there only where the file has no fault
    faults: tuple[Fault, ...]  # placed, in line order
    source: SourceMap


def scan_item(path: Path, opened: TextOf = text_of_file) -> Reading:
    """The item of a file with all that is wrong in it; never raises for what the file holds.

    opened  : what opens a file, here and below
    """
    path = Path(path)
    composed = compose_file(path, opened)
    if composed.root is None:
        return Reading(None, composed.faults, composed.source, path.stem)
    if "item" not in composed.root.entries and (kind := kind_of_file(path, opened)) in ("lesson", "series"):
        return Reading(None, composed.source.placed([mistaken_file(kind, "item")]), composed.source, path.stem)
    faults = Faults(path, opened)
    draft = item_of(composed.root, faults)
    everything = composed.with_further(faults.found)
    return Reading(draft.item, everything, composed.source, draft.name, draft.begun)


def read_item(path: Path) -> Question:
    """The item of a file.

    Raises: ItemError with every fault of the file
    """
    reading = scan_item(path)
    if reading.faults or reading.item is None:
        raise ItemError(reading.faults)
    return reading.item


def scan_lesson(path: Path, opened: TextOf = text_of_file) -> LessonReading:
    """The lesson of a file with all that is wrong in it; never raises for what the file holds."""
    path = Path(path)
    composed = compose_file(path, opened)
    if composed.root is None:
        return LessonReading(None, composed.faults, composed.source)
    if "lesson" not in composed.root.entries and (kind := kind_of_file(path, opened)) in ("item", "series"):
        return LessonReading(None, composed.source.placed([mistaken_file(kind, "lesson")]), composed.source)
    faults = Faults(path, opened)
    lesson = lesson_of(composed.root, faults)
    everything = composed.with_further(faults.found)
    return LessonReading(None if everything else lesson, everything, composed.source)


def read_lesson(path: Path) -> Lesson:
    """The lesson of a file, its items' files joined to its folder but not yet read.

    Raises: LessonError with every fault of the file
    """
    reading = scan_lesson(path)
    if reading.faults or reading.lesson is None:
        raise LessonError(reading.faults)
    return reading.lesson


def read_series(path: Path) -> Series:
    """The series of a file; the lessons that it lists are there, but not yet read.

    Raises: LessonError with every fault of the file
    """
    reading = scan_series(path)
    if reading.faults or reading.series is None:
        raise LessonError(reading.faults)
    return reading.series

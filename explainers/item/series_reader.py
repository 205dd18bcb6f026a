"""A series from its file: what its lessons have in common, and their order."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from ..document.composing import compose_file
from ..document.fields import Faults, duplicates
from ..document.file_text import TextOf, text_of_file
from ..document.format import Field, Format, Record, Rule
from ..document.nodes import MapNode, Node
from ..document.schema_values import text
from ..document.source_map import SourceMap
from ..document.values import Value, list_value
from ..errors import Fault
from .faults import mistaken_file
from .folder import kind_of_file
from .model import Series
from .shared_reader import (
    MAX_FILE_NAME,
    MAX_TITLE,
    SET_IN,
    SHARED_FIELDS,
    file_of,
    line_field,
    name_field,
    shared_of,
    title_of,
)

__all__ = ["SERIES", "SeriesReading", "scan_series", "series_of"]

MAX_LESSONS = 500


@dataclass(frozen=True, slots=True)
class SeriesReading:
    """A series' file as far as it could be read."""

    series: Series | None  # there only where the file has no fault
    faults: tuple[Fault, ...]  # placed, in line order
    source: SourceMap


def scan_series(path: Path, opened: TextOf = text_of_file) -> SeriesReading:
    """The series of a file with all that is wrong in it; never raises for what the file holds.

    opened  : what opens a file
    """
    path = Path(path)
    composed = compose_file(path, opened)
    if composed.root is None:
        return SeriesReading(None, composed.faults, composed.source)
    kind = kind_of_file(path, opened)
    if kind in ("item", "lesson") and (kind in composed.root.entries or "series" not in composed.root.entries):
        return SeriesReading(None, composed.source.placed([mistaken_file(kind, "series")]), composed.source)
    faults = Faults(path, opened)
    series = series_of(composed.root, faults)
    everything = composed.with_further(faults.found)
    return SeriesReading(None if everything else series, everything, composed.source)


def series_of(root: MapNode, faults: Faults) -> Series | None:
    """The series of a file, or None where anything about it is wrong."""
    before = len(faults.found)
    record = SERIES.read(root, "", faults)
    if record is None:
        return None
    name = record["name"] or faults.file.stem
    series = Series(
        name=name,
        path=faults.file,
        title=title_of(record, name),
        lessons=tuple(path for path in record["lessons"] or () if path),
        **shared_of(record),
    )
    return series if len(faults.found) == before else None


_LESSONS_FIX = "list the files of the lessons in order, such as lessons: [first-blocks.yaml, rings.yaml]"


def _lesson_file(node: Node, at: str, faults: Faults) -> Path | None:
    """The file of a lesson. What is in it is for whoever makes it."""
    path = file_of(node, at, faults, beside="the series", fix=_LESSONS_FIX)
    kind = kind_of_file(path, faults.opened) if path else None
    if path and kind in ("series", "item"):
        faults.found.append(mistaken_file(kind, "lesson", field=at, named=path.name))
        return None
    return path


def _listed_once(record: Record) -> None:
    table, lessons = record.table, record["lessons"] or ()
    for first, again in duplicates([str(path.resolve()) if path else None for path in lessons]):
        message = f"{lessons[again].name} is lesson number {first + 1} already"
        table.faults.add(f"{table.at('lessons')}[{again}]", message, "list each lesson once")


SERIES = Format(
    owner="a series",
    missing_from="the file",
    fix="begin with series:",
    rows=(
        name_field("series", "the name of the series: lower-case letters, digits, hyphens", example="quilt-blocks"),
        line_field("title", MAX_TITLE, "the title of the series (default: from the name)"),
        Field(
            "lessons",
            list_value(
                Value(read=_lesson_file, schema=text(MAX_FILE_NAME)), 1, MAX_LESSONS, noun="lessons", fix=_LESSONS_FIX
            ),
            "the files of the lessons in order",
        ),
        *SHARED_FIELDS,
    ),
    rules=(Rule("each lesson is listed once", check=_listed_once),),
    set_in=("series", *SET_IN),
)

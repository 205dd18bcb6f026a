"""A series from its file: what its lessons have in common, and their order."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from ..errors import Fault
from .fields import Faults, Table, list_of, name_of, table_of
from .file_text import TextOf, text_of_file
from .folder import kind_of_file
from .mistaken_file import mistaken_file
from .model import Series
from .nodes import MapNode
from .shared_reader import MAX_TITLE, SHARED_KEYS, file_of, line_of_text, shared_of
from .source_map import SourceMap, compose_file

__all__ = ["SERIES_KEYS", "SeriesReading", "scan_series", "series_of"]

SERIES_KEYS = ("series", "title", "lessons", *SHARED_KEYS)

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
    faults = Faults()
    series = series_of(composed.root, path, faults, opened)
    everything = composed.with_further(faults.found)
    return SeriesReading(None if everything else series, everything, composed.source)


def series_of(root: MapNode, path: Path, faults: Faults, opened: TextOf = text_of_file) -> Series | None:
    """The series, or None where anything about it is wrong.

    path    : the series' file; the files that it names are looked for in the same folder
    opened  : what opens those
    """
    before = len(faults.found)
    table = table_of(root, "", faults, keys=SERIES_KEYS, owner="a series", fix="begin with series:")
    if table is None:
        return None
    stem = path.stem
    node = table.due("series", "the file", f"name the series, such as series: {stem}")
    name = name_of(node, "series", faults, example="quilt-blocks") if node else None
    plain = (name or stem).replace("-", " ")
    series = Series(
        name=name or stem,
        path=path,
        title=line_of_text(table, "title", MAX_TITLE) or plain[:1].upper() + plain[1:],
        lessons=_lessons(table, path.parent, opened),
        **shared_of(table, path.parent),
    )
    return series if len(faults.found) == before else None


def _lessons(table: Table, folder: Path, opened: TextOf) -> tuple[Path, ...]:
    """The files of the lessons in order. What is in them is for whoever makes them."""
    faults, at = table.faults, table.at("lessons")
    node = table.get("lessons")
    fix = "list the files of the lessons in order, such as lessons: [first-blocks.yaml, rings.yaml]"
    nodes = node and list_of(node, at, faults, least=1, most=MAX_LESSONS, noun="lessons", fix=fix)
    lessons: list[Path] = []
    first: dict[Path, int] = {}
    for index, entry in enumerate(nodes or ()):
        place = f"{at}[{index}]"
        path = file_of(entry, place, folder, faults, beside="the series", fix=fix)
        if path is None:
            continue
        kind = kind_of_file(path, opened)
        if kind in ("series", "item"):
            faults.found.append(mistaken_file(kind, "lesson", field=place, named=path.name))
            continue
        earlier = first.setdefault(path.resolve(), index)
        if earlier != index:
            faults.add(place, f"{path.name} is lesson number {earlier + 1} already", "list each lesson once")
            continue
        lessons.append(path)
    return tuple(lessons)

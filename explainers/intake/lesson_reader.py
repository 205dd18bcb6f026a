"""A lesson from a composed file: its parts, its words, and what it takes from its series."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path

from ..document import schema_values as schema
from ..document.composing import top_level_keys
from ..document.fields import Faults, duplicates, list_of, shown_text_of, text_of
from ..document.file_text import TextOf
from ..document.format import Field, Format, Record, Rule
from ..document.nodes import ListNode, MapNode, Node
from ..document.schema_values import Schema, whole_match
from ..document.values import Value, list_value, member, number
from ..document.yaml_events import MAX_KEY
from ..item.faults import mistaken_file
from ..item.folder import kind_of_file
from ..item.model import Help, Lesson, LessonPart, Manner, Series, SlipsTold
from ..item.series_reader import scan_series
from ..item.shared_reader import (
    MAX_FILE_NAME,
    MAX_TITLE,
    MAX_WORDS,
    SET_IN,
    SHARED_FIELDS,
    SHARED_NAMES,
    file_of,
    line_field,
    name_field,
    shared_of,
    title_of,
)
from ..item.stops import Stop
from ..kinds.registry import kind_named, kind_names

__all__ = ["LESSON", "PART", "STEP_ID", "lesson_of"]

MAX_PARTS = 50
MAX_STEPS = 5_000
MAX_ASKS = 20
LEAST_PAUSE_S, MOST_PAUSE_S = 0.1, 600.0
LEAST_LESSON_S, MOST_LESSON_S = 20.0, 7200.0

STEP_ID = re.compile(r"[a-z0-9-]+(\.[a-z0-9-]+)+")

_STOPS = tuple(kind_named(kind).stops for kind in kind_names())


def lesson_of(root: MapNode, faults: Faults) -> Lesson | None:
    """The lesson of a file, or None where anything about it is wrong."""
    before = len(faults.found)
    record = LESSON.read(root, "", faults)
    if record is None:
        return None
    name, series = record["name"] or faults.file.stem, record["series"]
    given = {key: getattr(series, key) for key in (*SHARED_NAMES, "voice_command")} if series else {}
    lesson = Lesson(
        name=name,
        title=title_of(record, name),
        parts=tuple(_part(part) for part in record["parts"] or () if part and part["show"]),
        series=series,
        number=series.number_of(faults.file) if series else None,
        slips=record["slips"] or SlipsTold.UNTOLD,
        at_most_s=record["at-most"],
        words=record["words"] or (),
        **{**given, **shared_of(record)},
    )
    return lesson if len(faults.found) == before else None


def _part(record: Record) -> LessonPart:
    return LessonPart(
        show=record["show"],
        manner=_manner(record),
        pause_s=record["pause"],
        asks=record["ask"] or (),
        help=record["help"],
    )


def _manner(record: Record) -> Manner:
    found: Manner | None = record["as"]
    return found or Manner.WORKED_EXAMPLE


def _shown_once(record: Record) -> None:
    """An item shown twice would give two steps the same id."""
    table, shown = record.table, [part and part["show"] for part in record["parts"] or ()]
    for first, again in duplicates([str(path.resolve()) if path else None for path in shown]):
        message = f"{shown[again].name} is already shown by part number {first + 1}"
        fix = "show each item once; its steps could not be told apart"
        table.faults.add(f"{table.at('parts')}[{again}].show", message, fix)


def _shown_from_here(record: Record) -> None:
    """A lesson from elsewhere shows nothing of this machine that whoever builds it has not named a folder of."""
    table, series = record.table, record["series"]
    folders = [table.faults.file.parent, *(record["items_from"] or ())]
    folders += [series.path.parent, *series.items_from] if series else []
    known = [folder.resolve() for folder in folders]
    for index, part in enumerate(record["parts"] or ()):
        path = part and part["show"]
        if path and not any(path.resolve().is_relative_to(folder) for folder in known):
            message = f"{path.name} lies neither in the lesson's folder nor in its series'"
            fix = f"copy it there, or add items-from: {_written(path, table.faults.file.parent)} to the lesson"
            table.faults.add(f"{table.at('parts')}[{index}].show", message, fix)


def _written(path: Path, start: Path) -> str:
    try:
        return Path(os.path.relpath(path.parent, start)).as_posix()
    except ValueError:  # on another drive
        return path.parent.as_posix()


def _shown_file(node: Node, at: str, faults: Faults) -> Path | None:
    path = file_of(
        node, at, faults, beside="the lesson", fix="write the name of an item's file, such as corner-block.yaml"
    )
    kind = kind_of_file(path, faults.opened) if path else None
    if path and kind in ("lesson", "series"):
        faults.found.append(mistaken_file(kind, "item", field=at, named=path.name))
        return None
    return path


def _may_pause(record: Record) -> None:
    table, manner = record.table, _manner(record)
    if "pause" in table and not manner.asks_to_try:
        thing = "a solution" if manner is Manner.SOLUTION else "a worked example"
        fix = f"take the pause out, or write as: {Manner.YOUR_TURN}"
        table.faults.add(table.at("pause"), f"{thing} has no pause for trying", fix)


def _may_ask(record: Record) -> None:
    table, manner = record.table, _manner(record)
    if "ask" in table and not manner.works_through:
        thing = "a quick check" if manner is Manner.QUICK_CHECK else "a question without its solution"
        table.faults.add(table.at("ask"), f"{thing} lays no pieces, so there is nothing to stop before", "take ask out")


def _as_one_that(may: Callable[[Manner], bool]) -> Schema:
    return {"as": schema.choice(manner.value for manner in Manner if may(manner))}


def _asks(node: Node, at: str, faults: Faults) -> tuple[Stop, ...]:
    """Where to stop and ask, as written; whether the item has these places is not known here."""
    fix = f"write {'; or '.join(stops.example for stops in _STOPS)}"
    nodes = (node,) if not isinstance(node, ListNode) else node.items
    if isinstance(node, ListNode) and list_of(node, at, faults, least=1, most=MAX_ASKS, noun="stops", fix=fix) is None:
        return ()
    asks: list[Stop] = []
    for index, entry in enumerate(nodes):
        place = f"{at}[{index}]" if isinstance(node, ListNode) else at
        written = text_of(entry, place, faults, most=MAX_TITLE, fix=fix)
        if written is None:
            continue
        ask = Stop.of(written)
        if not any(stops.include(ask) for stops in _STOPS):
            faults.add(place, f'"{ask}" is no place to stop and ask', fix)
        elif ask in asks:
            faults.add(place, f"{ask} is in the list already", "list each stop once")
        else:
            asks.append(ask)
    return tuple(asks)


def _series(node: Node, at: str, faults: Faults) -> Series | None:
    """The series of the file that is named; its own faults are noted with its own name and lines."""
    fix = "write the name of the series file, or leave the key out"
    path = file_of(node, at, faults, beside="the lesson", fix=fix)
    if path is None:
        return None
    if not _says_series(path, faults.opened):
        fix = "name a file that begins with series:, or leave the key out"
        faults.add(at, f"{path.name} is not a series file", fix)
        return None
    reading = scan_series(path, faults.opened)
    faults.found.extend(reading.faults)
    return reading.series


def _says_series(path: Path, opened: TextOf) -> bool:
    try:
        keys = list(top_level_keys(path, opened))
    except ValueError:
        return True  # it cannot be read so far: scanning it says why
    return "series" in keys and "lesson" not in keys and "item" not in keys


def _words(node: Node, at: str, faults: Faults) -> tuple[tuple[str, str], ...]:
    if not isinstance(node, MapNode):
        faults.add(
            at,
            "step ids with sentences are due here",
            'write each as corner-block.flag.turn: "Now give the flag half a turn.", or leave the key out',
        )
        return ()
    words: list[tuple[str, str]] = []
    for step, entry in node.entries.items():
        place = f"{at}.{step}"
        if not STEP_ID.fullmatch(step):
            faults.add(
                place,
                "this key is not the id of a step",
                "write the id with full stops between its parts, such as corner-block.flag.turn",
            )
            continue
        said = shown_text_of(entry.value, place, faults, most=MAX_WORDS, fix="write the sentence, or take the id out")
        if said is not None:
            words.append((step, said))
    if len(words) > MAX_STEPS:
        faults.add(at, f"{len(words)} sentences stand here; at most {MAX_STEPS} are allowed", "split the lesson")
    return tuple(words)


_ASK = schema.either(
    schema.choice(dict.fromkeys(name for stops in _STOPS for name in stops.names)),
    *({"type": "string", "pattern": whole_match(stops.pattern)} for stops in _STOPS if stops.pattern),
)
_STEP_WORDS: Schema = {
    "type": "object",
    "propertyNames": {"pattern": whole_match(STEP_ID), "maxLength": MAX_KEY},
    "additionalProperties": schema.text(MAX_WORDS),
    "maxProperties": MAX_STEPS,
}
_FILE = schema.text(MAX_FILE_NAME)
_PARTS_FIX = "list the items to show, such as - {show: corner-block.yaml, as: worked-example}"

PART = Format(
    owner="the part",
    fix=_PARTS_FIX,
    rows=(
        Field(
            "show",
            Value(read=_shown_file, schema=_FILE),
            "the file of an item, from the lesson's folder",
            due="add show: with the name of an item's file, such as show: corner-block.yaml",
        ),
        Field("as", member(Manner), "how it is shown (default worked-example)"),
        Field("pause", number(LEAST_PAUSE_S, MOST_PAUSE_S), "seconds for learners to try first; else as suggested"),
        Field(
            "ask",
            Value(read=_asks, schema=schema.either(_ASK, {**schema.list_of(_ASK, 1, MAX_ASKS), "uniqueItems": True})),
            f"where to stop and ask: {'; or '.join(stops.example for stops in _STOPS)}",
        ),
        Field("help", member(Help), "how much is said (default: less and less over the lesson)"),
    ),
    rules=(
        Rule(
            "a pause is for trying first",
            check=_may_pause,
            schema={
                "dependentSchemas": {
                    "pause": {"required": ["as"], "properties": _as_one_that(lambda manner: manner.asks_to_try)}
                }
            },
        ),
        Rule(
            "a stop is before a piece that is laid",
            check=_may_ask,
            schema={"dependentSchemas": {"ask": {"properties": _as_one_that(lambda manner: manner.works_through)}}},
        ),
    ),
)

LESSON = Format(
    owner="a lesson",
    missing_from="the file",
    fix="begin with lesson:",
    rows=(
        name_field("lesson", "the name of the lesson: lower-case letters, digits, hyphens", example="first-blocks"),
        line_field("title", MAX_TITLE, "what learners read first (default: from the name)"),
        Field(
            "series",
            Value(read=_series, schema=_FILE),
            "the series' file, from the lesson's folder: the lesson takes from it what it leaves out",
        ),
        Field(
            "parts",
            list_value(PART.value(lambda part: part), 1, MAX_PARTS, noun="parts", fix=_PARTS_FIX),
            "the items in order, each with how it is shown",
            due=_PARTS_FIX,
        ),
        Field(
            "at-most",
            number(LEAST_LESSON_S, MOST_LESSON_S),
            "seconds that the lesson may take: it is told as fully as fits (default: as long as it takes)",
        ),
        Field("slips", member(SlipsTold), "whether it is told how each wrong option comes about (default untold)"),
        Field(
            "words",
            Value(read=_words, schema=_STEP_WORDS),
            "your own sentence for a step, by its id on the cue sheet, such as corner-block.flag.turn",
        ),
        *SHARED_FIELDS,
    ),
    rules=(
        Rule("each item is shown once", check=_shown_once),
        Rule("an item lies with the lesson, or in a folder that is named", check=_shown_from_here),
    ),
    set_in=("lesson", *SET_IN),
)

"""A lesson from a composed file: its parts, its words, and what it takes from its series."""

from __future__ import annotations

import re
from pathlib import Path

from .fields import Faults, Table, choice_of, list_of, name_of, number_of, shown_text_of, table_of, text_of
from .file_text import TextOf, text_of_file
from .folder import kind_of_file
from .mistaken_file import mistaken_file
from .model import EVERY_PIECE, Lesson, Manner, Part, Series
from .nodes import ListNode, MapNode
from .series_reader import scan_series
from .shared_reader import LANGUAGES, MAX_TITLE, MAX_WORDS, SHARED_KEYS, file_of, line_of_text, shared_of
from .source_map import top_level_keys

__all__ = [
    "ASKS_IN_GENERAL",
    "ASKS_OF_A_PIECE",
    "ASK_OF_A_PIECE",
    "LANGUAGES",
    "LESSON_KEYS",
    "MANNERS",
    "PART_KEYS",
    "STEP_ID",
    "lesson_of",
]

LESSON_KEYS = ("lesson", "title", "series", "parts", "words", *SHARED_KEYS)
PART_KEYS = ("show", "as", "pause", "ask")
MANNERS = tuple(manner.value for manner in Manner)
ASKS_OF_A_PIECE = ("turn", "meet")  # after the piece's name and a full stop
ASKS_IN_GENERAL = (EVERY_PIECE, "outline", "options")

MAX_PARTS = 50
MAX_STEPS = 5_000
MAX_ASKS = 20
LEAST_PAUSE_S, MOST_PAUSE_S = 0.1, 600.0

STEP_ID = re.compile(r"[a-z0-9-]+(\.[a-z0-9-]+)+")
ASK_OF_A_PIECE = re.compile(rf"[a-z0-9-]+\.({'|'.join(ASKS_OF_A_PIECE)})")


def lesson_of(root: MapNode, path: Path, faults: Faults, opened: TextOf = text_of_file) -> Lesson | None:
    """The lesson, or None where anything about it is wrong.

    path    : the lesson's file; what it shows is looked for in the same folder
    opened  : what opens the files that it names
    """
    before = len(faults.found)
    table = table_of(root, "", faults, keys=LESSON_KEYS, owner="a lesson", fix="begin with lesson:")
    if table is None:
        return None
    stem = path.stem
    node = table.due("lesson", "the file", f"name the lesson, such as lesson: {stem}")
    name = name_of(node, "lesson", faults, example="first-blocks") if node else None
    plain = (name or stem).replace("-", " ")
    title = line_of_text(table, "title", MAX_TITLE) or plain[:1].upper() + plain[1:]
    parts = _parts(table, path.parent, opened)
    series = _series(table, path.parent, opened)
    given = {key: getattr(series, key) for key in (*SHARED_KEYS, "voice_command")} if series else {}
    lesson = Lesson(
        name=name or stem,
        title=title,
        parts=parts,
        series=series,
        number=series.number_of(path) if series else None,
        words=_words(table),
        **{**given, **shared_of(table, path.parent)},
    )
    return lesson if len(faults.found) == before else None


def _parts(table: Table, folder: Path, opened: TextOf) -> tuple[Part, ...]:
    faults = table.faults
    fix = "list the items to show, such as - {show: corner-block.yaml, as: worked-example}"
    node = table.due("parts", "the file", fix)
    items = node and list_of(node, "parts", faults, least=1, most=MAX_PARTS, noun="parts", fix=fix)
    parts: list[Part] = []
    shown: dict[Path, int] = {}
    for index, item in enumerate(items or ()):
        at = f"parts[{index}]"
        entry = table_of(item, at, faults, keys=PART_KEYS, owner="the part", fix=fix)
        show = _shown_file(entry, folder, opened) if entry else None
        if entry is None or show is None:
            continue
        first = shown.setdefault(show.resolve(), index)
        if first != index:
            faults.add(
                f"{at}.show",
                f"{show.name} is already shown by part number {first + 1}",
                "show each item once; its steps could not be told apart",
            )
        manner = _manner(entry)
        parts.append(Part(show=show, manner=manner, pause_s=_pause(entry, manner), asks=_asks(entry, manner)))
    return tuple(parts)


def _shown_file(table: Table, folder: Path, opened: TextOf) -> Path | None:
    faults, at = table.faults, table.at("show")
    node = table.due("show", "the part", "add show: with the name of an item's file, such as show: corner-block.yaml")
    if node is None:
        return None
    fix = "write the name of an item's file, such as corner-block.yaml"
    path = file_of(node, at, folder, faults, beside="the lesson", fix=fix)
    if path is None:
        return None
    kind = kind_of_file(path, opened)
    if kind in ("lesson", "series"):
        faults.found.append(mistaken_file(kind, "item", field=at, named=path.name))
        return None
    return path


def _manner(table: Table) -> Manner:
    node = table.get("as")
    word = choice_of(node, table.at("as"), table.faults, MANNERS) if node else None
    return Manner(word or Manner.WORKED_EXAMPLE)


def _pause(table: Table, manner: Manner) -> float | None:
    node = table.get("pause")
    if node is None:
        return None
    pause_s = number_of(node, table.at("pause"), table.faults, least=LEAST_PAUSE_S, most=MOST_PAUSE_S)
    if not manner.asks_to_try:
        thing = "a solution" if manner is Manner.SOLUTION else "a worked example"
        fix = f"take the pause out, or write as: {Manner.YOUR_TURN}"
        table.faults.add(table.at("pause"), f"{thing} has no pause for trying", fix)
    return pause_s


def _asks(table: Table, manner: Manner) -> tuple[str, ...]:
    """Where to stop and ask, as written; whether the item has such pieces is not known here."""
    node, at, faults = table.get("ask"), table.at("ask"), table.faults
    if node is None:
        return ()
    fix = f"write {EVERY_PIECE}, or a list such as [flag.turn, flag.meet, outline, options]"
    nodes = (node,) if not isinstance(node, ListNode) else node.items
    if isinstance(node, ListNode) and list_of(node, at, faults, least=1, most=MAX_ASKS, noun="stops", fix=fix) is None:
        return ()
    asks: list[str] = []
    for index, entry in enumerate(nodes):
        place = f"{at}[{index}]" if isinstance(node, ListNode) else at
        ask = text_of(entry, place, faults, most=MAX_TITLE, fix=fix)
        if ask is None:
            continue
        if ask not in ASKS_IN_GENERAL and not ASK_OF_A_PIECE.fullmatch(ask):
            faults.add(place, f'"{ask}" is no place to stop and ask', fix)
        elif ask in asks:
            faults.add(place, f"{ask} is in the list already", "list each stop once")
        else:
            asks.append(ask)
    if not manner.works_through:
        thing = "a quick check" if manner is Manner.QUICK_CHECK else "a question without its solution"
        faults.add(at, f"{thing} lays no pieces, so there is nothing to stop before", "take ask out")
    return tuple(asks)


def _series(table: Table, folder: Path, opened: TextOf) -> Series | None:
    """The series of the file that is named; its own faults are noted with its own name and lines."""
    node = table.get("series")
    if node is None:
        return None
    fix = "write the name of the series file, or leave the key out"
    path = file_of(node, "series", folder, table.faults, beside="the lesson", fix=fix)
    if path is None:
        return None
    if not _says_series(path, opened):
        fix = "name a file that begins with series:, or leave the key out"
        table.faults.add("series", f"{path.name} is not a series file", fix)
        return None
    reading = scan_series(path, opened)
    table.faults.found.extend(reading.faults)
    return reading.series


def _says_series(path: Path, opened: TextOf) -> bool:
    try:
        keys = list(top_level_keys(path, opened))
    except ValueError:
        return True  # it cannot be read so far: scanning it says why
    return "series" in keys and "lesson" not in keys and "item" not in keys


def _words(table: Table) -> tuple[tuple[str, str], ...]:
    node = table.get("words")
    if node is None:
        return ()
    faults = table.faults
    if not isinstance(node, MapNode):
        faults.add(
            "words",
            "step ids with sentences are due here",
            'write each as corner-block.flag.turn: "Now give the flag half a turn.", or leave the key out',
        )
        return ()
    words: list[tuple[str, str]] = []
    for step, entry in node.entries.items():
        at = f"words.{step}"
        if not STEP_ID.fullmatch(step):
            faults.add(
                at,
                "this key is not the id of a step",
                "write the id with full stops between its parts, such as corner-block.flag.turn",
            )
            continue
        said = shown_text_of(entry.value, at, faults, most=MAX_WORDS, fix="write the sentence, or take the id out")
        if said is not None:
            words.append((step, said))
    if len(words) > MAX_STEPS:
        faults.add("words", f"{len(words)} sentences stand here; at most {MAX_STEPS} are allowed", "split the lesson")
    return tuple(words)

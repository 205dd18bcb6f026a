"""A lesson from a composed file: its parts, its words and the language they are in."""

from __future__ import annotations

import re
from pathlib import Path

from .fields import Faults, Table, choice_of, list_of, name_of, number_of, table_of, text_of
from .folder import kind_of_file
from .model import Lesson, Manner, Part
from .nodes import MapNode, Node
from .source_map import compose_file

__all__ = ["LANGUAGES", "LESSON_KEYS", "lesson_of"]

LESSON_KEYS = ("lesson", "title", "language", "series", "parts", "opening", "closing", "words")
PART_KEYS = ("show", "as", "pause")
LANGUAGES = ("en-GB", "en-US")

MAX_PARTS = 50
MAX_TITLE = 120
MAX_WORDS = 1_000  # characters in one sentence of the teacher's own: more than a minute of speech
MAX_STEPS = 5_000
LEAST_PAUSE_S, MOST_PAUSE_S = 0.1, 600.0

_STEP_ID = re.compile(r"[a-z0-9-]+(\.[a-z0-9-]+)+")


def lesson_of(root: MapNode, path: Path, faults: Faults) -> Lesson | None:
    """The lesson, or None where anything about it is wrong.

    path : the lesson's file; what it shows is looked for in the same folder
    """
    before = len(faults.found)
    table = table_of(root, "", faults, keys=LESSON_KEYS, owner="a lesson", fix="begin with lesson:")
    if table is None:
        return None
    stem = path.stem
    node = table.due("lesson", "the file", f"name the lesson, such as lesson: {stem}")
    name = name_of(node, "lesson", faults, example="first-blocks") if node else None
    plain = (name or stem).replace("-", " ")
    title = _text(table, "title", MAX_TITLE) or plain[:1].upper() + plain[1:]
    language = _language(table)
    parts = _parts(table, path.parent)
    lesson = Lesson(
        name=name or stem,
        title=title,
        parts=parts,
        language=language,
        series=_series(table, path.parent),
        opening=_text(table, "opening", MAX_WORDS),
        closing=_text(table, "closing", MAX_WORDS),
        words=_words(table),
    )
    return lesson if len(faults.found) == before else None


def _text(table: Table, key: str, most: int) -> str | None:
    node = table.get(key)
    fix = f"write {key}: with a text after it, or leave the key out"
    return text_of(node, table.at(key), table.faults, most=most, fix=fix) if node else None


def _language(table: Table) -> str:
    node = table.get("language")
    if node is None:
        return LANGUAGES[0]
    return choice_of(node, "language", table.faults, LANGUAGES) or LANGUAGES[0]


def _parts(table: Table, folder: Path) -> tuple[Part, ...]:
    faults = table.faults
    fix = "list the items to show, such as - {show: corner-block.yaml, as: worked-example}"
    node = table.due("parts", "the file", fix)
    items = node and list_of(node, "parts", faults, least=1, most=MAX_PARTS, noun="parts", fix=fix)
    parts: list[Part] = []
    shown: dict[Path, int] = {}
    for index, item in enumerate(items or ()):
        at = f"parts[{index}]"
        entry = table_of(item, at, faults, keys=PART_KEYS, owner="the part", fix=fix)
        show = _shown_file(entry, folder) if entry else None
        if entry is None or show is None:
            continue
        first = shown.setdefault(show.resolve(), index)
        if first != index:
            faults.add(
                f"{at}.show",
                f"{show.name} is already shown by part number {first + 1}",
                "show each item once; its steps could not be told apart",
            )
        manner, pause_s = _manner(entry)
        parts.append(Part(show=show, manner=manner, pause_s=pause_s))
    return tuple(parts)


def _shown_file(table: Table, folder: Path) -> Path | None:
    faults, at = table.faults, table.at("show")
    node = table.due("show", "the part", "add show: with the name of an item's file, such as show: corner-block.yaml")
    if node is None:
        return None
    path = _file(node, at, folder, faults, fix="write the name of an item's file, such as corner-block.yaml")
    if path is None:
        return None
    kind = kind_of_file(path)
    if kind in ("lesson", "series"):
        faults.add(at, f"{path.name} is a {kind}, not an item", "name the file of an item")
        return None
    return path


def _file(node: Node, at: str, folder: Path, faults: Faults, *, fix: str) -> Path | None:
    """A file that must be there, named from the lesson's folder."""
    text = text_of(node, at, faults, most=500, fix=fix)
    if text is None:
        return None
    path = folder / text
    try:
        there = path.is_file()
    except (OSError, ValueError):
        there = False
    if not there:
        fix = "check its name; it is looked for from the lesson's folder"
        faults.add(at, f"there is no file {text} beside the lesson", fix)
        return None
    return path


def _manner(table: Table) -> tuple[Manner, float | None]:
    faults = table.faults
    node = table.get("as")
    word = choice_of(node, table.at("as"), faults, [manner.value for manner in Manner]) if node else None
    node = table.get("pause")
    if node is None:
        return Manner(word or Manner.WORKED_EXAMPLE), None
    pause_s = number_of(node, table.at("pause"), faults, least=LEAST_PAUSE_S, most=MOST_PAUSE_S)
    if word == Manner.WORKED_EXAMPLE or "as" not in table:
        faults.add(
            table.at("pause"),
            "a worked example has no pause for trying",
            "take the pause out, or write as: your-turn",
        )
    return Manner(word or Manner.WORKED_EXAMPLE), pause_s


def _series(table: Table, folder: Path) -> Path | None:
    node = table.get("series")
    if node is None:
        return None
    path = _file(node, "series", folder, table.faults, fix="write the name of the series file, or leave the key out")
    if path is None:
        return None
    composed = compose_file(path)
    if composed.root is None or composed.faults or "series" not in composed.root.entries:
        table.faults.add(
            "series", f"{path.name} is not a series file", "name a file that begins with series:, or leave the key out"
        )
        return None
    return path


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
        if not _STEP_ID.fullmatch(step) or len(step) > 200:
            faults.add(
                at,
                "this key is not the id of a step",
                "write the id with full stops between its parts, such as corner-block.flag.turn",
            )
            continue
        said = text_of(entry.value, at, faults, most=MAX_WORDS, fix="write the sentence, or take the id out")
        if said is not None:
            words.append((step, said))
    if len(words) > MAX_STEPS:
        faults.add("words", f"{len(words)} sentences stand here; at most {MAX_STEPS} are allowed", "split the lesson")
    return tuple(words)

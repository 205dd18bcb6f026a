"""What a series gives to its lessons and a lesson may give for itself: theme, words, title card, credit, licence."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from ..document import schema_values as schema
from ..document.fields import Faults, text_of
from ..document.format import Field, Record
from ..document.nodes import MapNode, Node, ScalarNode
from ..document.notation import listed, nearest
from ..document.schema_values import Schema
from ..document.values import Value, choice, list_value, name, plain_text, shown_text
from ..plain_file import opened_plain
from ..style import PACE_NAMES, THEME_NAMES

__all__ = [
    "DRAFTS",
    "LANGUAGES",
    "SET_IN",
    "SHARED_FIELDS",
    "SHARED_NAMES",
    "file_of",
    "line_field",
    "name_field",
    "shared_of",
    "title_of",
]

LANGUAGES = ("en-GB", "en-US", "de")  # those of the catalogues of words
DRAFTS = {"de": "draft, not yet read by a speaker"}
LANGUAGES_OFFERED = tuple(f"{tag} ({DRAFTS[tag]})" if tag in DRAFTS else tag for tag in LANGUAGES)

MAX_TITLE = 120
MAX_WORDS = 1_000  # characters in one text that is spoken: more than a minute of speech
MAX_CREDIT = 200
MAX_CARD_LINES = 3
MAX_CARD_LINE = 80
MAX_VOICE_KEYS = 20
MAX_COMMAND = 50
MAX_FILE_NAME = 500
MAX_FOLDERS = 20

# As fmt sets a lesson or a series: what it is and looks like, then what it shows, as it is told.
_LOOKS = ("language", "series", "items-from", "theme", "template", "voice", "card", "credit", "licence", "opening")
SET_IN = ("title", *_LOOKS, "lessons", "parts", "closing", "words")

_SLIDE_FILE = b"PK"  # a .pptx is a zip file, and begins as one


def name_field(key: str, doc: str, *, example: str) -> Field:
    """The key that tells what a file is, with its name."""
    return Field(key, name(example), doc, attribute="name", due=f"name the {key}, such as {key}: {{stem}}")


def line_field(key: str, most: int, doc: str) -> Field:
    """A text that may be left out."""
    return Field(key, shown_text(most, fix=f"write {key}: with a text after it, or leave the key out"), doc)


def title_of(record: Record, name: str) -> str:
    """The title as typed, else made from the name."""
    plain = name.replace("-", " ")
    return record["title"] or plain[:1].upper() + plain[1:]


def file_of(node: Node, at: str, faults: Faults, *, beside: str, fix: str) -> Path | None:
    """A file that must be there, named from the folder of the one that names it.

    beside : what names it, such as "the lesson"
    """
    text = text_of(node, at, faults, most=MAX_FILE_NAME, fix=fix)
    if text is None:
        return None
    path = faults.file.parent / text
    if not _is_file(path):
        owner = f"{beside}'" if beside.endswith("s") else f"{beside}'s"
        fix = f"check its name; it is looked for from {owner} folder"
        faults.add(at, f"there is no file {text} beside {beside}", fix)
        return None
    return path


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _theme(node: Node, at: str, faults: Faults) -> str | Path | None:
    names = listed(THEME_NAMES)
    text = text_of(node, at, faults, most=MAX_FILE_NAME, fix=f"write {names}, or the name of a theme file")
    if text is None or text in THEME_NAMES:
        return text
    path = faults.file.parent / text
    if _is_file(path):
        return path
    near = nearest(text, THEME_NAMES)
    fix = f"write {near}" if near else f"write {names}, or the name of a theme file, looked for in this file's folder"
    faults.add(at, f'"{text}" is neither one of our themes nor a file that is there', fix)
    return None


_CARD_FIX = "write a line of text, or a list of lines, such as card: [Patchwork Club, Autumn term]"
_CARD_LINE = shown_text(MAX_CARD_LINE, fix=_CARD_FIX)
_CARD_LINES = list_value(_CARD_LINE, 1, MAX_CARD_LINES, noun="lines", fix=_CARD_FIX)


def _card(node: Node, at: str, faults: Faults) -> tuple[str, ...] | None:
    lines = (_CARD_LINE.read(node, at, faults),) if isinstance(node, ScalarNode) else _CARD_LINES.read(node, at, faults)
    return tuple(line for line in lines or () if line is not None) or None


def _template(node: Node, at: str, faults: Faults) -> Path | None:
    fix = "write the name of a .pptx file, such as our-slides.pptx, or leave the key out"
    path = file_of(node, at, faults, beside="this file", fix=fix)
    if path is None:
        return None
    try:
        with opened_plain(path) as file:
            start = file.read(len(_SLIDE_FILE))
    except OSError as error:
        faults.add(at, f"{path.name} cannot be read ({error.strerror})", "check that the file may be read")
        return None
    if path.suffix.lower() != ".pptx" or start != _SLIDE_FILE:
        faults.add(at, f"{path.name} is not a slide file", "save the template as .pptx and name that file")
        return None
    return path


_FOLDERS_FIX = "write the name of a folder, such as items-from: ../blocks, or leave the key out"


def _folder(node: Node, at: str, faults: Faults) -> Path | None:
    text = text_of(node, at, faults, most=MAX_FILE_NAME, fix=_FOLDERS_FIX)
    if text is None:
        return None
    path = faults.file.parent / text
    try:
        is_there = path.is_dir()
    except (OSError, ValueError):
        is_there = False
    if not is_there:
        faults.add(at, f"there is no folder {text}", "check its name; it is looked for from this file's folder")
        return None
    return path


_FOLDER = Value(read=_folder, schema=schema.text(MAX_FILE_NAME))
_FOLDERS = list_value(_FOLDER, 1, MAX_FOLDERS, noun="folders", fix=_FOLDERS_FIX)


def _folders(node: Node, at: str, faults: Faults) -> tuple[Path, ...] | None:
    found = (_folder(node, at, faults),) if isinstance(node, ScalarNode) else _FOLDERS.read(node, at, faults)
    return tuple(path for path in found or () if path is not None) or None


_COMMAND_FIX = "write the program and its arguments as a list, such as command: [my-voice, --wav]"
# Each word by itself, since no shell takes them apart.
_COMMAND = list_value(plain_text(MAX_FILE_NAME, fix=_COMMAND_FIX), 1, MAX_COMMAND, noun="words", fix=_COMMAND_FIX)


def _voice(node: Node, at: str, faults: Faults) -> dict[str, tuple[Any, ...]] | None:
    """What is known of the voice, and the program that speaks, () without one.

    A voice of one's own takes the place of the series' whole voice.
    """
    fix = "write keys with values below voice:, such as speaker: Ada, or leave the key out"
    if not isinstance(node, MapNode) or not node.entries:
        faults.add(at, "keys with values are due here", fix)
        return None
    values = {key: entry.value for key, entry in node.entries.items()}
    command = values.pop("command", None)
    known: list[tuple[str, str]] = []
    if len(node.entries) > MAX_VOICE_KEYS:
        faults.add(at, f"{len(node.entries)} keys stand here; at most {MAX_VOICE_KEYS} are allowed", "take some out")
    else:
        for key, value in values.items():
            text = text_of(value, f"{at}.{key}", faults, most=MAX_CREDIT, fix=fix)
            if text is not None:
                known.append((key, text))
    words = _COMMAND.read(command, f"{at}.command", faults) if command else None
    return {"voice": tuple(known), "voice_command": words or ()}


_VOICE: Schema = {
    "type": "object",
    "properties": {
        "command": schema.told(
            _COMMAND.schema, "a program that speaks a scratch voice, and its arguments, as a list: words in, WAV out"
        )
    },
    "additionalProperties": schema.text(MAX_CREDIT),
    "minProperties": 1,
    "maxProperties": MAX_VOICE_KEYS,
}

SHARED_FIELDS = (
    Field(
        "language",
        choice(LANGUAGES, offered=LANGUAGES_OFFERED),
        f"of all words: {', '.join(LANGUAGES_OFFERED)}; default en-GB",
    ),
    Field(
        "items-from",
        Value(read=_folders, schema=schema.either(_FOLDER.schema, _FOLDERS.schema)),
        "further folders whose items may be shown, beside the lesson's own and its series'",
        attribute="items_from",
    ),
    Field("pace", choice(PACE_NAMES), "how fast it is told, and how long its captions are (default school)"),
    Field(
        "theme",
        Value(read=_theme, schema=schema.text(MAX_FILE_NAME)),
        "how everything looks: light, dark, print, or the name of a theme file",
    ),
    line_field("opening", MAX_WORDS, "what is said first"),
    line_field("closing", MAX_WORDS, "what is said last"),
    Field(
        "card",
        Value(read=_card, schema=schema.either(_CARD_LINE.schema, _CARD_LINES.schema)),
        "further lines of the title card",
    ),
    Field(
        "template",
        Value(read=_template, schema=schema.text(MAX_FILE_NAME)),
        "a .pptx file whose masters dress the deck",
    ),
    Field(
        "voice",
        Value(read=_voice, schema=_VOICE),
        "what is known of the voice, such as speaker: Ada; command: the program of a scratch voice, as a list",
    ),
    line_field("credit", MAX_CREDIT, "who made it"),
    line_field("licence", MAX_CREDIT, "under what licence it may be used"),
)
SHARED_NAMES = tuple(field.name for field in SHARED_FIELDS)


def shared_of(record: Record) -> dict[str, Any]:
    """The shared fields that are written and read well, by name in the model; what is not written is left out."""
    found = {key: record[key] for key in SHARED_NAMES if record[key] is not None}
    return {**found, **found.get("voice", {})}

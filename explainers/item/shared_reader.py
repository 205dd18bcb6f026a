"""What a series gives to its lessons and a lesson may give for itself: theme, words, title card, credit, licence."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from ..document.fields import Faults, Table, choice_of, list_of, shown_text_of, text_of
from ..document.nodes import MapNode, Node, ScalarNode
from ..document.notation import listed, nearest
from .model import PACE_NAMES, THEME_NAMES

__all__ = ["DRAFTS", "LANGUAGES", "LANGUAGES_OFFERED", "SHARED_KEYS", "file_of", "line_of_text", "shared_of"]

SHARED_KEYS = ("language", "pace", "theme", "opening", "closing", "card", "template", "voice", "credit", "licence")
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

_SLIDE_FILE = b"PK"  # a .pptx is a zip file, and begins as one


def shared_of(table: Table, folder: Path) -> dict[str, Any]:
    """The shared fields that are written and read well, by name; what is not written is left out.

    folder : where files are looked for
    """
    found: dict[str, Any] = {
        "language": _language(table),
        "pace": _pace(table),
        "theme": _theme(table, folder),
        "opening": line_of_text(table, "opening", MAX_WORDS),
        "closing": line_of_text(table, "closing", MAX_WORDS),
        "card": _card(table),
        "template": _template(table, folder),
        "voice": _voice(table),
        "credit": line_of_text(table, "credit", MAX_CREDIT),
        "licence": line_of_text(table, "licence", MAX_CREDIT),
    }
    found["voice_command"] = _voice_command(table)
    if found["voice"] is not None and found["voice_command"] is None:
        found["voice_command"] = ()  # a voice of one's own takes the place of the series' whole voice
    return {key: value for key, value in found.items() if value is not None}


def line_of_text(table: Table, key: str, most: int) -> str | None:
    """The text after a key that may be left out."""
    node = table.get(key)
    fix = f"write {key}: with a text after it, or leave the key out"
    return shown_text_of(node, table.at(key), table.faults, most=most, fix=fix) if node else None


def file_of(node: Node, at: str, folder: Path, faults: Faults, *, beside: str, fix: str) -> Path | None:
    """A file that must be there, named from the folder of the one that names it.

    beside : what names it, such as "the lesson"
    """
    text = text_of(node, at, faults, most=MAX_FILE_NAME, fix=fix)
    if text is None:
        return None
    path = folder / text
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


def _language(table: Table) -> str | None:
    node = table.get("language")
    return choice_of(node, table.at("language"), table.faults, LANGUAGES, offered=LANGUAGES_OFFERED) if node else None


def _pace(table: Table) -> str | None:
    node = table.get("pace")
    return choice_of(node, table.at("pace"), table.faults, PACE_NAMES) if node else None


def _theme(table: Table, folder: Path) -> str | Path | None:
    node = table.get("theme")
    if node is None:
        return None
    at, names = table.at("theme"), listed(THEME_NAMES)
    text = text_of(node, at, table.faults, most=MAX_FILE_NAME, fix=f"write {names}, or the name of a theme file")
    if text is None or text in THEME_NAMES:
        return text
    path = folder / text
    if _is_file(path):
        return path
    near = nearest(text, THEME_NAMES)
    fix = f"write {near}" if near else f"write {names}, or the name of a theme file, looked for in this file's folder"
    table.faults.add(at, f'"{text}" is neither one of our themes nor a file that is there', fix)
    return None


def _card(table: Table) -> tuple[str, ...] | None:
    node, at = table.get("card"), table.at("card")
    if node is None:
        return None
    fix = "write a line of text, or a list of lines, such as card: [Patchwork Club, Autumn term]"
    if isinstance(node, ScalarNode):
        line = shown_text_of(node, at, table.faults, most=MAX_CARD_LINE, fix=fix)
        return None if line is None else (line,)
    nodes = list_of(node, at, table.faults, least=1, most=MAX_CARD_LINES, noun="lines", fix=fix)
    lines = [
        shown_text_of(line, f"{at}[{index}]", table.faults, most=MAX_CARD_LINE, fix=fix)
        for index, line in enumerate(nodes or ())
    ]
    return tuple(line for line in lines if line is not None) or None


def _template(table: Table, folder: Path) -> Path | None:
    node, at = table.get("template"), table.at("template")
    if node is None:
        return None
    fix = "write the name of a .pptx file, such as our-slides.pptx, or leave the key out"
    path = file_of(node, at, folder, table.faults, beside="this file", fix=fix)
    if path is None:
        return None
    try:
        with path.open("rb") as file:
            start = file.read(len(_SLIDE_FILE))
    except OSError as error:
        table.faults.add(at, f"{path.name} cannot be read ({error.strerror})", "check that the file may be read")
        return None
    if path.suffix.lower() != ".pptx" or start != _SLIDE_FILE:
        table.faults.add(at, f"{path.name} is not a slide file", "save the template as .pptx and name that file")
        return None
    return path


def _voice(table: Table) -> tuple[tuple[str, str], ...] | None:
    node, at, faults = table.get("voice"), table.at("voice"), table.faults
    if node is None:
        return None
    fix = "write keys with values below voice:, such as speaker: Ada, or leave the key out"
    if not isinstance(node, MapNode) or not node.entries:
        faults.add(at, "keys with values are due here", fix)
        return None
    if len(node.entries) > MAX_VOICE_KEYS:
        faults.add(at, f"{len(node.entries)} keys stand here; at most {MAX_VOICE_KEYS} are allowed", "take some out")
        return None
    voice = []
    for key, entry in node.entries.items():
        if key == "command":
            continue
        text = text_of(entry.value, f"{at}.{key}", faults, most=MAX_CREDIT, fix=fix)
        if text is not None:
            voice.append((key, text))
    return tuple(voice)


def _voice_command(table: Table) -> tuple[str, ...] | None:
    """The program that speaks, and its arguments, each by itself, since no shell takes them apart."""
    node = table.get("voice")
    if not isinstance(node, MapNode) or "command" not in node.entries:
        return None
    at, faults = f"{table.at('voice')}.command", table.faults
    fix = "write the program and its arguments as a list, such as command: [my-voice, --wav]"
    nodes = list_of(node.entries["command"].value, at, faults, least=1, most=MAX_COMMAND, noun="words", fix=fix)
    words = [
        text_of(word, f"{at}[{index}]", faults, most=MAX_FILE_NAME, fix=fix) for index, word in enumerate(nodes or ())
    ]
    return tuple(word for word in words if word is not None) or None

"""The format of a theme's file: which keys it has, what stands after each, what each means.

Keys and kinds of entries are those of ``style``; what a theme's entries are worth stands in ``figure.theme``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from ..document import schema_values as schema
from ..document.fields import Faults, name_of, text_of
from ..document.format import Field, Format, Record
from ..document.nodes import MapNode, Node, ScalarNode
from ..document.notation import shown
from ..document.values import Value, choice, list_value, name, number, plain_text, shown_text
from ..document.yaml_text import Written, text_yaml
from ..style import (
    DIFFERENCE_SHOWN,
    ENTRIES,
    LEAST_LENGTH,
    MAX_DONE,
    MAX_TYPEFACE,
    MAX_WORD,
    MOST_LENGTH,
    PATTERNS,
    THEME_NAMES,
    EntryKind,
    Verb,
    done_of,
    is_colour,
)

__all__ = ["GROUPS", "THEME", "ThemeFile", "theme_said"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThemeFile:
    """What a theme's file says."""

    name: str
    like: str  # one of THEME_NAMES
    entries: Mapping[str, Any]  # by name in a theme; those that are written


_BARE_HEX = re.compile(r"[0-9A-Fa-f]{6}")
_SHORT_HEX = re.compile(r"#?([0-9A-Fa-f])([0-9A-Fa-f])([0-9A-Fa-f])")
_COLOUR_FIX = 'write a hash and six hexadecimal digits in quotation marks, such as "#1F2A37"'


def _colour(node: Node, at: str, faults: Faults) -> str | None:
    if isinstance(node, ScalarNode) and node.is_null:
        # A bare # begins a comment, so that what was typed after it is gone.
        faults.add(
            at,
            "nothing is written here where a colour is due; a # without quotation marks begins a comment",
            'put the colour in quotation marks, such as "#1F2A37"',
        )
        return None
    text = text_of(node, at, faults, most=MAX_TYPEFACE, fix=_COLOUR_FIX)
    if text is None:
        return None
    if is_colour(text):
        return text.upper()
    fix = _COLOUR_FIX
    if _BARE_HEX.fullmatch(text):
        fix = f'write "#{text.upper()}"'
    elif short := _SHORT_HEX.fullmatch(text):
        fix = f'write "#{"".join(2 * digit for digit in short.groups()).upper()}"'
    faults.add(at, f'"{text}" is not a colour', fix)
    return None


def _measure(least: float, most: float) -> Value[float]:
    """A number with no more digits than an eye can tell, written as a teacher would type it."""
    return replace(number(least, most), write=shown)


_LENGTH = _measure(LEAST_LENGTH, MOST_LENGTH)
_TWO_LENGTHS = list_value(
    _LENGTH, 2, 2, noun="lengths", fix="write two lengths, the dash and the gap, such as [0.17, 0.11]"
)


def _pair(node: Node, at: str, faults: Faults) -> tuple[float | None, ...] | None:
    lengths = _TWO_LENGTHS.read(node, at, faults)
    return None if lengths is None or None in lengths else lengths


_WORD = shown_text(MAX_WORD, fix="write one short verb, such as sew")
_FORMS = Format(
    owner="a verb",
    fix="write both forms, such as {verb: glue on, done: glued on}",
    rows=(
        Field("verb", _WORD, "as in a request, and on labels", due="write the verb, such as verb: glue on"),
        Field(
            "done",
            shown_text(MAX_DONE, fix="write it as after is, such as glued on"),
            'as after "is"',
            due="write it as after is, such as done: glued on",
        ),
    ),
)


def _verb(node: Node, at: str, faults: Faults) -> Verb | str | None:
    """Both forms, or the verb alone where the other one follows from it."""
    if isinstance(node, MapNode):
        forms = _FORMS.read(node, at, faults)
        return Verb(plain=forms["verb"], done=forms["done"]) if forms is not None and forms.fine else None
    plain = _WORD.read(node, at, faults)
    if plain is not None and done_of(plain) is None:
        faults.add(
            at,
            f'what has been done is said with another form of "{plain}", which does not follow from it',
            f"write both forms, such as {{verb: {plain}, done: ...}}, where done is what stands after is: glued on",
        )
        return None
    return plain


def _written_verb(verb: Verb | str) -> Written:
    if isinstance(verb, str):
        return text_yaml(verb)
    return {"verb": text_yaml(verb.plain), "done": text_yaml(verb.done)}


_VALUES: dict[EntryKind, Value[Any]] = {
    "colour": Value(
        read=_colour,
        schema={"type": "string", "pattern": schema.whole_match(r"\s*#[0-9A-Fa-f]{6}\s*")},
        write=text_yaml,
    ),
    "length": _LENGTH,
    "angle": _measure(-360.0, 360.0),
    "pair": replace(_TWO_LENGTHS, read=_pair),
    "pattern": choice(PATTERNS),
    "difference": choice(DIFFERENCE_SHOWN),
    "verb": Value(
        read=_verb,
        schema=schema.either(_WORD.schema, _FORMS.schema),
        order=_FORMS.order,
        write=_written_verb,
    ),
}
_EXAMPLES: dict[EntryKind, str] = {
    "colour": '"#FAF6EC"',
    "length": "0.04",
    "pair": "[0.17, 0.11]",
    "pattern": PATTERNS[0],
    "verb": "sew",
}

_SAID_OF_GROUP = {
    "colours": "every colour in quotation marks, since # begins a comment",
    "patterns": f"join and cut: {', '.join(PATTERNS)}; difference: {', '.join(DIFFERENCE_SHOWN)}",
    "weights": "how thick lines are; 1 is a sixteenth of the picture's width, and so for all that follows",
    "lengths": "dashes, stitches, ticks",
    "sizes": "of type",
    "words": "what becomes of pieces, as labels and sentences say it: a verb",
}
_SAID = {
    "paper": "the ground of every picture",
    "ink": "outlines, marks, words",
    "quiet": "words that step back",
    "table": "where the base lies",
    "tray": "where pieces and options lie",
    "panel_stroke": "round table and tray",
    "base": "the cloth of the base",
    "join.fill": "the cloth of a piece to join",
    "join.pattern": "what is drawn on it",
    "cut.fill": "the cloth of a piece to cut away",
    "cut.pattern": "what is drawn on it",
    "outline": "the cloth of the finished outline",
    "option": "the cloth of an option",
    "attention": "what is pointed at, turns",
    "right": "agrees: with a tick",
    "wrong": "differs: with a ring and a cross",
    "patch_seam": "of the patchwork on title cards",
    "stitch_done": "along the top edge",
    "differs_pattern": "how the place is shown where an option differs",
    "hatch_deg": "of lines, in degrees, turned with the piece",
    "cross_reach": "half the length of its strokes",
    "dot_radius": "its radius",
    "pattern_inset": "kept free along sides",
    "pattern_clear": "kept free round signs and letters",
    "outline_width": "at least 1.5 times side",
    "pointer_width": "at least 1.5 times mark",
    "agree_width": "at least 1.5 times outline",
    "differ_width": "at least 1.5 times outline; it is broken into dashes",
    "dash": "dash and gap round a piece to cut away",
}


def _entry_field(key: str, value: Value[Any], doc: str, *, entry: str) -> Field:
    def write(theme: ThemeFile) -> Written | None:
        return value.write(theme.entries[entry]) if entry in theme.entries else None

    return Field(key, value, doc, attribute=entry, write=write)


def _group(group: str) -> Format:
    key, (_, kind) = next(iter(ENTRIES[group].items()))
    return Format(
        owner=f"{group} of a theme",
        fix=f"write keys with values below {group}:, such as {key}: {_EXAMPLES[kind]}, or leave {group} out",
        rows=tuple(
            _entry_field(key, _VALUES[kind], _SAID.get(entry, ""), entry=entry)
            for key, (entry, kind) in ENTRIES[group].items()
        ),
    )


GROUPS = {group: _group(group) for group in ENTRIES}
"""The keys of a theme's file under which its entries stand, by name."""


def _own_name(node: Node, at: str, faults: Faults) -> str | None:
    found = name_of(node, at, faults, example="patchwork-club")
    if found in THEME_NAMES:
        faults.add(at, f"{found} is the name of a theme of ours", f"give yours another name, and write like: {found}")
    return found


def _written_entries(record: Record) -> dict[str, Any]:
    return {entry: value for entry, value in record.values.items() if value is not None}


def _group_field(group: str, table: Format) -> Field:
    value = table.value(_written_entries)
    return Field(group, value, _SAID_OF_GROUP[group], write=lambda theme: table.written(theme) or None)


_TYPEFACE = "typeface"
THEME = Format(
    owner="a theme",
    missing_from="the file",
    fix="begin with theme:",
    rows=(
        Field(
            "theme",
            replace(name("patchwork-club"), read=_own_name),
            "the name of the theme: lower-case letters, digits, hyphens",
            attribute="name",
            due="name the theme, such as theme: {stem}",
        ),
        Field("like", choice(THEME_NAMES), "what is left out below is as in this theme"),
        _entry_field(_TYPEFACE, plain_text(MAX_TYPEFACE, fix="leave the key out"), "of all words", entry=_TYPEFACE),
        *(_group_field(group, table) for group, table in GROUPS.items()),
    ),
)


def theme_said(record: Record, stem: str) -> ThemeFile:
    """What a record of the table says.

    stem : stands in for a name that could not be read
    """
    entries = {} if record[_TYPEFACE] is None else {_TYPEFACE: record[_TYPEFACE]}
    for group in GROUPS:
        entries |= record[group] or {}
    return ThemeFile(name=record["name"] or stem, like=record["like"] or THEME_NAMES[0], entries=entries)

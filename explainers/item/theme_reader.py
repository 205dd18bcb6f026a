"""A theme from its file: entries that differ from the theme it is like, each checked by itself.

What colours must be told apart, and which weights are too thin, is for ``figure.theme_checks``: it needs the whole
theme. Here is what can be said of one entry.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..document.fields import Faults, Table, choice_of, list_of, name_of, number_of, shown_text_of, table_of, text_of
from ..document.file_text import TextOf, text_of_file
from ..document.nodes import MapNode, Node, ScalarNode
from ..document.notation import listed
from ..document.source_map import SourceMap, compose_file
from ..errors import Fault
from ..style import (
    DIFFERENCE_SHOWN,
    ENTRIES,
    LEAST_LENGTH,
    MAX_TYPEFACE,
    MAX_WORD,
    MOST_LENGTH,
    PATTERNS,
    THEME_NAMES,
    TOP_KEYS,
    EntryKind,
    is_colour,
)
from .faults import A_KIND, mistaken_file

__all__ = ["ThemeReading", "scan_theme"]

_BARE_HEX = re.compile(r"[0-9A-Fa-f]{6}")
_SHORT_HEX = re.compile(r"#?([0-9A-Fa-f])([0-9A-Fa-f])([0-9A-Fa-f])")


@dataclass(frozen=True, slots=True, kw_only=True)
class ThemeReading:
    """A theme's file as far as it could be read."""

    name: str  # the theme's, or the file's stem where none could be read
    like: str  # one of THEME_NAMES
    entries: Mapping[str, Any]  # by name in a theme; those that are written and read well
    faults: tuple[Fault, ...]  # placed, in line order
    source: SourceMap


def scan_theme(path: Path, opened: TextOf = text_of_file) -> ThemeReading:
    """The entries of a theme's file with all that is wrong in it; never raises for what the file holds.

    opened  : what opens a file
    """
    path = Path(path)
    composed = compose_file(path, opened)
    if composed.root is None:
        return ThemeReading(
            name=path.stem, like=THEME_NAMES[0], entries={}, faults=composed.faults, source=composed.source
        )
    faults = Faults()
    name, like, entries = path.stem, THEME_NAMES[0], dict[str, Any]()
    if "theme" not in composed.root.entries and (other := _other_kind(composed.root)):
        faults.found.append(mistaken_file(other, "theme"))
    else:
        name, like, entries = _theme_of(composed.root, path.stem, faults)
    return ThemeReading(
        name=name,
        like=like,
        entries=entries,
        faults=composed.with_further(faults.found),
        source=composed.source,
    )


def _other_kind(root: MapNode) -> str | None:
    return next((key for key in A_KIND if key in root.entries), None)


def _theme_of(root: MapNode, stem: str, faults: Faults) -> tuple[str, str, dict[str, Any]]:
    table = table_of(root, "", faults, keys=TOP_KEYS, owner="a theme", fix="begin with theme:")
    assert table is not None  # a file's root is a mapping
    node = table.due("theme", "the file", f"name the theme, such as theme: {stem}")
    name = name_of(node, "theme", faults, example="patchwork-club") if node else None
    if name in THEME_NAMES:
        faults.add(
            "theme", f"{name} is the name of a theme of ours", f"give yours another name, and write like: {name}"
        )
    node = table.get("like")
    like = choice_of(node, "like", faults, THEME_NAMES) if node else None
    entries: dict[str, Any] = {}
    node = table.get("typeface")
    if node is not None:
        entries["typeface"] = text_of(node, "typeface", faults, most=MAX_TYPEFACE, fix="leave the key out")
    for group, keys in ENTRIES.items():
        node = table.get(group)
        if node is None:
            continue
        fix = f"write keys with values below {group}:, such as {_example(group)}, or leave {group} out"
        inner = table_of(node, group, faults, keys=tuple(keys), owner=f"{group} of a theme", fix=fix)
        if inner is not None:
            entries |= _group(inner, keys)
    return name or stem, like or THEME_NAMES[0], {key: value for key, value in entries.items() if value is not None}


def _group(table: Table, keys: Mapping[str, tuple[str, EntryKind]]) -> dict[str, Any]:
    found = {}
    for key, (name, kind) in keys.items():
        node = table.get(key)
        value = _value(node, kind, table.at(key), table.faults) if node is not None else None
        if value is not None:
            found[name] = value
    return found


def _value(node: Node, kind: EntryKind, at: str, faults: Faults) -> Any:
    if kind == "colour":
        return _colour(node, at, faults)
    if kind == "length":
        return number_of(node, at, faults, least=LEAST_LENGTH, most=MOST_LENGTH)
    if kind == "angle":
        return number_of(node, at, faults, least=-360.0, most=360.0)
    if kind == "pair":
        return _two_lengths(node, at, faults)
    if kind == "word":
        return shown_text_of(node, at, faults, most=MAX_WORD, fix="write one short word, such as sew")
    return choice_of(node, at, faults, PATTERNS if kind == "pattern" else DIFFERENCE_SHOWN)


def _colour(node: Node, at: str, faults: Faults) -> str | None:
    if isinstance(node, ScalarNode) and node.is_null:
        # A bare # begins a comment, so that what was typed after it is gone.
        faults.add(
            at,
            "nothing is written here where a colour is due; a # without quotation marks begins a comment",
            'put the colour in quotation marks, such as "#1F2A37"',
        )
        return None
    fix = 'write a hash and six hexadecimal digits in quotation marks, such as "#1F2A37"'
    text = text_of(node, at, faults, most=MAX_TYPEFACE, fix=fix)
    if text is None:
        return None
    if is_colour(text):
        return text.upper()
    if _BARE_HEX.fullmatch(text):
        fix = f'write "#{text.upper()}"'
    elif short := _SHORT_HEX.fullmatch(text):
        fix = f'write "#{"".join(2 * digit for digit in short.groups()).upper()}"'
    faults.add(at, f'"{text}" is not a colour', fix)
    return None


def _two_lengths(node: Node, at: str, faults: Faults) -> tuple[float, float] | None:
    fix = "write two lengths, the dash and the gap, such as [0.17, 0.11]"
    nodes = list_of(node, at, faults, least=2, most=2, noun="lengths", fix=fix)
    if nodes is None:
        return None
    dash, gap = (
        number_of(part, f"{at}[{index}]", faults, least=LEAST_LENGTH, most=MOST_LENGTH)
        for index, part in enumerate(nodes)
    )
    return None if dash is None or gap is None else (dash, gap)


def _example(group: str) -> str:
    key, (_, kind) = next(iter(ENTRIES[group].items()))
    values = {"colour": '"#FAF6EC"', "pattern": listed(PATTERNS[:1]), "pair": "[0.17, 0.11]", "word": "sew"}
    return f"{key}: {values.get(kind, '0.04')}"

"""A theme as the text of a theme's file, to start one's own from."""

from __future__ import annotations

from collections.abc import Iterator

from ..document.format import Format
from ..document.yaml_text import Written, in_brackets
from ..item.theme_format import GROUPS, THEME, ThemeFile
from ..style import ENTRIES, THEME_NAMES
from .theme import Theme

__all__ = ["theme_yaml"]

_NOT_TOLD = ("theme", "typeface")  # keys whose value says all there is to say


def theme_yaml(theme: Theme, *, name: str) -> str:
    """All entries of a theme as a file that gives the same theme under another name.

    name : of the new theme
    """
    like = theme.name if theme.name in THEME_NAMES else THEME_NAMES[0]
    names = ["typeface", *(entry for keys in ENTRIES.values() for entry, _ in keys.values())]
    file = ThemeFile(name=name, like=like, entries={entry: theme.entry(entry) for entry in names})
    return "\n".join(_lines(THEME, THEME.written(file))) + "\n"


def _lines(table: Format, written: dict[str, Written], indent: str = "") -> Iterator[str]:
    """Keys with their values, and beside each what it means."""
    docs = {field.key: field.doc for field in table.fields}
    for key, value in written.items():
        remark = f"  # {docs[key]}" if docs[key] and key not in _NOT_TOLD else ""
        if isinstance(value, dict) and key in GROUPS:
            yield f"{indent}{key}:{remark}"
            yield from _lines(GROUPS[key], value, f"{indent}  ")
        else:
            yield f"{indent}{key}: {in_brackets(value)}{remark}"

"""Which files have a house form, what each is, and in which order its keys stand.

A file that lacks the key that names it is known by others that only one format has: those of any kind of question too.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from itertools import islice
from pathlib import Path
from typing import Literal

from ..document.composing import top_level_keys
from ..document.file_text import TextOf, text_of_file
from ..item.folder import FileKind, files_of_folders, is_theme_file, kind_of_file
from ..item.series_reader import SERIES
from ..item.theme_format import THEME
from ..kinds.registry import kind_names
from .item_reader import format_of_kind
from .lesson_reader import LESSON

__all__ = ["HouseKind", "house_files", "house_kind"]

HouseKind = FileKind | Literal["theme"]

_ENOUGH_KEYS = 50


def house_kind(path: Path, opened: TextOf = text_of_file) -> HouseKind | None:
    """What a file is; one that cannot be read counts as an item, so that its fault is shown; None for anything else.

    opened : what opens a file
    """
    kind = kind_of_file(path, opened)
    if kind is not None:
        return kind
    if is_theme_file(path, opened):
        return "theme"
    keys = islice(top_level_keys(path, opened), _ENOUGH_KEYS)
    return "item" if any(key in _keys_of_questions() for key in keys) else None


def house_files(paths: Iterable[Path]) -> list[Path]:
    """The files meant: whatever has no house form is passed over in folders, not where it is named."""
    return files_of_folders(paths, lambda path: house_kind(path) is not None)


@cache
def _keys_of_questions() -> frozenset[str]:
    """The keys that items alone have, whatever their kind."""
    of_items = {key for name in kind_names() for key in format_of_kind(name).keys}
    return frozenset(of_items.difference(LESSON.keys, SERIES.keys, THEME.keys))

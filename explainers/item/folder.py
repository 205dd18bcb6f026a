"""Which files are meant: items and lessons among the names given to a command.

A folder stands for its ``*.yaml``, sorted, without the folders in it. A file given by name is always kept, so that a
mistake in it is shown and never passed over.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import islice
from pathlib import Path
from typing import Literal

from .source_map import top_level_keys

__all__ = ["FileKind", "item_files", "kind_of_file", "lesson_or_item_files"]

FileKind = Literal["item", "lesson", "series"]

_TELLING: dict[str, FileKind] = {"item": "item", "lesson": "lesson"}
# A file whose telling key is forgotten or misspelt is known by what else it holds. `series` comes last: a lesson too
# has a key of that name.
_HINTS: dict[str, FileKind] = {"base": "item", "pieces": "item", "options": "item", "parts": "lesson"}
_ENOUGH_KEYS = 50


def kind_of_file(path: Path) -> FileKind | None:
    """What a file is by its top-level keys; a file that cannot be read counts as an item, so that its fault is shown.

    None for a file that can be read and is none of the three.
    """
    seen: list[str] = []
    try:
        for key in islice(top_level_keys(Path(path)), _ENOUGH_KEYS):
            if key in _TELLING:
                return _TELLING[key]
            seen.append(key)
        otherwise: FileKind | None = "series" if "series" in seen else None
    except ValueError:
        otherwise = "item"
    return next((_HINTS[key] for key in seen if key in _HINTS), otherwise)


def item_files(paths: Iterable[Path]) -> list[Path]:
    """The files of the items meant: lessons and series are passed over in folders."""
    return _files(paths, leaving_out=("lesson", "series"))


def lesson_or_item_files(paths: Iterable[Path]) -> list[Path]:
    """The files of the lessons and items meant: series are passed over in folders."""
    return _files(paths, leaving_out=("series",))


def _files(paths: Iterable[Path], leaving_out: Collection[str]) -> list[Path]:
    files: list[Path] = []
    for path in map(Path, paths):
        if _is_folder(path):
            inside = sorted(child for child in path.glob("*.yaml") if not child.name.startswith("."))
            files += [f for f in inside if not f.is_dir() and kind_of_file(f) not in leaving_out]
        else:
            files.append(path)
    return files


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except OSError:  # not to be looked at, or no name a file could have: reading it says so
        return False

"""Which files are meant: items and lessons among the names given to a command.

A folder stands for its ``*.yaml``, sorted, without the folders in it. A file given by name is always kept, so that a
mistake in it is shown and never passed over.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import islice
from pathlib import Path
from typing import Literal

from ..document.composing import top_level_keys
from ..document.file_text import TextOf, text_of_file
from ..errors import Fault

__all__ = [
    "FileKind",
    "files_in_folders",
    "files_of_folders",
    "is_theme_file",
    "item_files",
    "kind_of_file",
    "nothing_in",
]

FileKind = Literal["item", "lesson", "series"]

_NAMING_KEYS: dict[str, FileKind] = {"item": "item", "lesson": "lesson"}
# A file whose naming key is forgotten or misspelt is known by what else any item or lesson may hold. `series` comes
# last: a lesson too has a key of that name.
_OTHER_KEYS: dict[str, FileKind] = {"kind": "item", "options": "item", "parts": "lesson"}
_ENOUGH_KEYS = 50


def kind_of_file(path: Path, opened: TextOf = text_of_file) -> FileKind | None:
    """What a file is by its top-level keys; a file that cannot be read counts as an item, so that its fault is shown.

    None for a file that can be read and is none of the three.

    opened  : what opens a file, here and below
    """
    seen: list[str] = []
    try:
        for key in islice(top_level_keys(Path(path), opened), _ENOUGH_KEYS):
            if key in _NAMING_KEYS:
                return _NAMING_KEYS[key]
            seen.append(key)
        otherwise: FileKind | None = "series" if "series" in seen else None
    except ValueError:
        otherwise = "item"
    return next((_OTHER_KEYS[key] for key in seen if key in _OTHER_KEYS), otherwise)


def is_theme_file(path: Path, opened: TextOf = text_of_file) -> bool:
    """Whether a file is a theme: none of the three kinds, with a key that says so."""
    try:
        return kind_of_file(path, opened) is None and "theme" in islice(
            top_level_keys(Path(path), opened), _ENOUGH_KEYS
        )
    except ValueError:
        return False


def item_files(paths: Iterable[Path], opened: TextOf = text_of_file) -> list[Path]:
    """The files of the items meant: lessons, series and themes are passed over in folders."""
    return _files(paths, frozenset({"lesson", "series"}), opened)


def files_in_folders(paths: Iterable[Path], opened: TextOf = text_of_file) -> list[Path]:
    """The files of the lessons and items meant: series and themes are passed over in folders, not where named."""
    return _files(paths, frozenset({"series"}), opened)


def nothing_in(folder: Path, kind: str) -> Fault:
    """The fault of a folder in which nothing of a kind is found: silence would pass for success."""
    return Fault(
        file=str(folder),
        field="",
        message=f"there is no {kind} in this folder",
        fix="name a folder with files that end in .yaml; folders inside it are not searched",
    )


def files_of_folders(paths: Iterable[Path], is_meant: Callable[[Path], bool]) -> list[Path]:
    """The files named, and those meant of folders.

    is_meant : asked of each file of a folder that ends in .yaml
    """
    files: list[Path] = []
    for path in map(Path, paths):
        if _is_folder(path):
            inside = sorted(child for child in path.glob("*.yaml") if not child.name.startswith("."))
            files += [file for file in inside if not file.is_dir() and is_meant(file)]
        else:
            files.append(path)
    return files


def _files(paths: Iterable[Path], leaving_out: frozenset[FileKind | None], opened: TextOf) -> list[Path]:
    return files_of_folders(
        paths, lambda file: kind_of_file(file, opened) not in leaving_out and not is_theme_file(file, opened)
    )


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except OSError:  # not to be looked at, or no name a file could have: reading it says so
        return False

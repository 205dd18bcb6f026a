"""The theme that is meant: one of ours by its name, or a teacher's from a file."""

from __future__ import annotations

from pathlib import Path

from ..document.file_text import TextOf, text_of_file
from ..document.notation import listed, nearest
from ..errors import Fault, ThemeError
from ..item.theme_reader import scan_theme
from .theme import DEFAULT_THEME, Theme
from .theme_checks import faults_of_theme
from .themes import THEMES

__all__ = ["chosen_theme", "theme_called", "theme_of_file"]


def chosen_theme(choice: str | Path | None, opened: TextOf = text_of_file) -> Theme:
    """The theme of a lesson's or a series' choice.

    choice : a name in ``THEMES``, the path of a theme's file, or None for the first theme
    opened : what opens a file
    Raises : ThemeError with every fault of the file
    """
    if choice is None:
        return DEFAULT_THEME
    if isinstance(choice, str):
        return THEMES[choice]
    return theme_of_file(choice, opened)


def theme_called(text: str) -> Theme:
    """The theme that is meant by a word on the command line: one of our names, or the path of a file.

    Raises : ThemeError where it is neither, or with every fault of the file
    """
    if text in THEMES:
        return THEMES[text]
    path = Path(text)
    try:
        there = path.exists()
    except (OSError, ValueError):
        there = False
    if there:
        return theme_of_file(path)
    near = nearest(text, THEMES)
    names = listed(THEMES)
    fix = f"write {near}" if near else f"write {names}, or the name of a theme file"
    raise ThemeError([Fault(field="theme", message=f'"{text}" is neither one of our themes nor a file', fix=fix)])


def theme_of_file(path: Path, opened: TextOf = text_of_file) -> Theme:
    """The theme of a file: the one it is like, with the entries that the file holds.

    opened : what opens a file
    Raises : ThemeError with every fault of the file, each with its line, those of contrast included
    """
    reading = scan_theme(path, opened)
    said = reading.said
    theme = THEMES[said.like].having({"name": said.name, "file": str(path), **said.entries})
    faults = [*faults_of_theme(theme, written=said.entries)]
    if any(fault.field.startswith(("like", "colours", "theme")) or not fault.field for fault in reading.faults):
        # Other colours stand in for those that are not known: what contrast they have says nothing.
        faults = [fault for fault in faults if not fault.field.startswith("colours")]
    if reading.faults or faults:
        raise ThemeError(reading.source.placed((*reading.faults, *faults)))
    return theme

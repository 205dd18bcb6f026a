"""A theme from its file: entries that differ from the theme it is like, each checked by itself.

What colours must be told apart, and which weights are too thin, is for ``figure.theme_checks``: it needs the whole
theme. Here is what can be said of one entry.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from ..document.composing import compose_file
from ..document.fields import Faults
from ..document.file_text import TextOf, text_of_file
from ..document.nodes import MapNode
from ..document.source_map import SourceMap
from ..errors import Fault
from ..style import THEME_NAMES
from .faults import A_KIND, mistaken_file
from .theme_format import THEME, ThemeFile, theme_said

__all__ = ["ThemeReading", "scan_theme"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThemeReading:
    """A theme's file as far as it could be read."""

    said: ThemeFile  # entries that are written and read well; the file's stem where no name could be read
    faults: tuple[Fault, ...]  # placed, in line order
    source: SourceMap


def scan_theme(path: Path, opened: TextOf = text_of_file) -> ThemeReading:
    """The entries of a theme's file with all that is wrong in it; never raises for what the file holds.

    opened  : what opens a file
    """
    path = Path(path)
    composed = compose_file(path, opened)
    faults = Faults(path, opened)
    said = None if composed.root is None else _said_in(composed.root, faults)
    return ThemeReading(
        said=said or ThemeFile(name=path.stem, like=THEME_NAMES[0], entries={}),
        faults=composed.with_further(faults.found),
        source=composed.source,
    )


def _said_in(root: MapNode, faults: Faults) -> ThemeFile | None:
    if "theme" not in root.entries and (other := _other_kind(root)):
        faults.found.append(mistaken_file(other, "theme"))
        return None
    record = THEME.read(root, "", faults)
    return None if record is None else theme_said(record, faults.file.stem)


def _other_kind(root: MapNode) -> str | None:
    return next((key for key in A_KIND if key in root.entries), None)

"""A theme as the text of a theme's file, to start one's own from."""

from __future__ import annotations

from collections.abc import Iterator

from ..document.notation import shown
from ..style import DIFFERENCE_SHOWN, ENTRIES, PATTERNS, THEME_NAMES, EntryKind
from .theme import Theme

__all__ = ["theme_yaml"]

_SAID_OF_GROUP = {
    "colours": "every colour in quotation marks, since # begins a comment",
    "patterns": f"join and cut: {', '.join(PATTERNS)}; difference: {', '.join(DIFFERENCE_SHOWN)}",
    "weights": "how thick lines are; 1 is a sixteenth of the picture's width, and so for all that follows",
    "lengths": "dashes, stitches, ticks",
    "sizes": "of type",
    "words": "what the labels of pieces say",
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
    "pattern_clear": "kept free round letters",
    "outline_width": "at least 1.5 times side",
    "pointer_width": "at least 1.5 times mark",
    "agree_width": "at least 1.5 times outline",
    "differ_width": "at least 1.5 times outline; it is broken into dashes",
    "dash": "dash and gap round a piece to cut away",
}


def theme_yaml(theme: Theme, *, name: str) -> str:
    """All entries of a theme as a file that gives the same theme under another name.

    name : of the new theme
    """
    like = theme.name if theme.name in THEME_NAMES else THEME_NAMES[0]
    lines = [
        f"theme: {name}",
        f"like: {like}  # what is left out below is as in this theme",
        f"typeface: {theme.typeface}",
        *_groups(theme),
    ]
    return "\n".join(lines) + "\n"


def _groups(theme: Theme) -> Iterator[str]:
    for group, keys in ENTRIES.items():
        yield f"{group}:  # {_SAID_OF_GROUP[group]}"
        for key, (entry, kind) in keys.items():
            value = theme.entry(entry)
            comment = f"  # {_SAID[entry]}" if entry in _SAID else ""
            yield f"  {key}: {_typed(value, kind)}{comment}"


def _typed(value: object, kind: EntryKind) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(shown(part) for part in value)}]"
    if isinstance(value, float):
        return shown(value)
    return f'"{value}"' if kind in ("colour", "word") else str(value)

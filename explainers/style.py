"""The words by which themes and paces are written down: names, keys, patterns, limits, how a colour is written.

No values, no drawing: what a theme's entries are worth stands in ``figure.theme`` and ``figure.themes``, what a pace
means in ``storyboard.paces``.
"""

from __future__ import annotations

import re
from typing import Literal

__all__ = [
    "DIFFERENCE_SHOWN",
    "ENTRIES",
    "FABRICS",
    "LEAST_LENGTH",
    "MAX_TYPEFACE",
    "MAX_WORD",
    "MOST_LENGTH",
    "PACE_NAMES",
    "PATTERNS",
    "PLACES",
    "THEME_NAMES",
    "TINT",
    "EntryKind",
    "is_colour",
]

THEME_NAMES = ("light", "dark", "print")  # our own; any other word after `theme` is the name of a file

PATTERNS = ("dots", "lines", "crosses", "checks", "plain")
TINT = "tint"
DIFFERENCE_SHOWN = (TINT, *(name for name in PATTERNS if name != "plain"))

# What is written after a key; a pair is a dash and a gap.
EntryKind = Literal["colour", "length", "angle", "pair", "pattern", "difference", "word"]

# group -> key -> (the entry's name in a theme, what is written there). The words of a file are shorter than the names
# in the program, since their group stands above them. An entry of a fabric has the fabric's name before a dot.
ENTRIES: dict[str, dict[str, tuple[str, EntryKind]]] = {
    "colours": {
        "paper": ("paper", "colour"),
        "ink": ("ink", "colour"),
        "quiet": ("quiet", "colour"),
        "table": ("table", "colour"),
        "tray": ("tray", "colour"),
        "panel": ("panel_stroke", "colour"),
        "base": ("base", "colour"),
        "join": ("join.fill", "colour"),
        "join-pattern": ("join.pattern", "colour"),
        "cut": ("cut.fill", "colour"),
        "cut-pattern": ("cut.pattern", "colour"),
        "outline": ("outline", "colour"),
        "option": ("option", "colour"),
        "attention": ("attention", "colour"),
        "right": ("right", "colour"),
        "wrong": ("wrong", "colour"),
        "patch-seam": ("patch_seam", "colour"),
        "stitch-done": ("stitch_done", "colour"),
        "stitch-to-come": ("stitch_to_come", "colour"),
    },
    "patterns": {
        "join": ("join.pattern_name", "pattern"),
        "cut": ("cut.pattern_name", "pattern"),
        "difference": ("differs_pattern", "difference"),
        "spacing": ("pattern_spacing", "length"),
        "direction": ("hatch_deg", "angle"),
        "dot": ("dot_radius", "length"),
        "cross": ("cross_reach", "length"),
        "inset": ("pattern_inset", "length"),
        "clear": ("pattern_clear", "length"),
    },
    "weights": {
        "side": ("side_width", "length"),
        "outline": ("outline_width", "length"),
        "mark": ("mark_width", "length"),
        "pointer": ("pointer_width", "length"),
        "agreeing": ("agree_width", "length"),
        "differing": ("differ_width", "length"),
        "tick": ("tick_width", "length"),
        "pattern": ("hatch_width", "length"),
        "seam": ("seam_width", "length"),
        "sign": ("sign_width", "length"),
        "arrow": ("arrow_width", "length"),
        "stitch": ("stitch_width", "length"),
        "panel": ("panel_width", "length"),
    },
    "lengths": {
        "cut-dash": ("dash", "pair"),
        "arrow-head": ("arrow_head", "length"),
        "panel-corner": ("panel_rounded", "length"),
        "stitch": ("stitch", "length"),
        "stitch-gap": ("stitch_gap", "length"),
        "tick": ("tick", "length"),
        "tick-spacing": ("tick_spacing", "length"),
        "end-dot": ("end_dot", "length"),
        "letter-gap": ("letter_gap", "length"),
    },
    "sizes": {
        "heading": ("heading_size", "length"),
        "word": ("word_size", "length"),
        "mark": ("mark_size", "length"),
        "option": ("option_size", "length"),
        "degrees": ("degrees_size", "length"),
        "small": ("small_size", "length"),
    },
    "words": {"join": ("join.word", "word"), "cut": ("cut.word", "word")},
}
FABRICS = tuple(ENTRIES["words"])  # the names by which a kind of question asks for cloth of a sort of its own
# An entry's name in a theme -> where it stands in a file.
PLACES: dict[str, str] = {"name": "theme", "typeface": "typeface", "words": "words"} | {
    name: f"{group}.{key}" for group, keys in ENTRIES.items() if group != "words" for key, (name, _) in keys.items()
}

MOST_LENGTH = 2.0  # stage units: an eighth of the picture's width
LEAST_LENGTH = 0.001
MAX_WORD = 16
MAX_TYPEFACE = 60

_HEX = re.compile(r"#[0-9A-Fa-f]{6}")

PACE_NAMES = ("school", "slow", "adult")  # how fast a lesson is told; the first unless told otherwise


def is_colour(text: object) -> bool:
    """Whether it is written as colours are: a hash and six hexadecimal digits."""
    return isinstance(text, str) and _HEX.fullmatch(text) is not None

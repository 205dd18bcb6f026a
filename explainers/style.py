"""The words by which themes and paces are written down: names, keys, patterns, limits, how a colour is written.

No values, no drawing: what a theme's entries are worth stands in ``figure.theme`` and ``figure.themes``, what a pace
means in ``storyboard.paces``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

__all__ = [
    "DIFFERENCE_SHOWN",
    "ENTRIES",
    "FABRICS",
    "LEAST_LENGTH",
    "MAX_DONE",
    "MAX_TYPEFACE",
    "MAX_WORD",
    "MOST_LENGTH",
    "PACE_NAMES",
    "PATTERNS",
    "PLACES",
    "THEME_NAMES",
    "TINT",
    "EntryKind",
    "Verb",
    "done_of",
    "is_colour",
]

THEME_NAMES = ("light", "dark", "print")  # our own; any other word after `theme` is the name of a file

PATTERNS = ("dots", "lines", "crosses", "checks", "plain")
TINT = "tint"
DIFFERENCE_SHOWN = (TINT, *(name for name in PATTERNS if name != "plain"))

# What is written after a key; a pair is a dash and a gap.
EntryKind = Literal["colour", "length", "angle", "pair", "pattern", "difference", "verb"]

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
    "words": {"join": ("join.word", "verb"), "cut": ("cut.word", "verb")},
}
FABRICS = tuple(ENTRIES["words"])  # the names by which a kind of question asks for cloth of a sort of its own
# An entry's name in a theme -> where it stands in a file.
PLACES: dict[str, str] = {"name": "theme", "typeface": "typeface", "words": "words"} | {
    name: f"{group}.{key}" for group, keys in ENTRIES.items() if group != "words" for key, (name, _) in keys.items()
}

MOST_LENGTH = 2.0  # stage units: an eighth of the picture's width
LEAST_LENGTH = 0.001
MAX_WORD = 16
MAX_DONE = 24
MAX_TYPEFACE = 60

_HEX = re.compile(r"#[0-9A-Fa-f]{6}")

PACE_NAMES = ("school", "slow", "adult")  # how fast a lesson is told; the first unless told otherwise


def is_colour(text: object) -> bool:
    """Whether it is written as colours are: a hash and six hexadecimal digits."""
    return isinstance(text, str) and _HEX.fullmatch(text) is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Verb:
    """One verb of a theme.

    plain : as it stands in a request, and on labels: "glue on", "ankleben"
    done  : the past participle, after "is": "glued on", "angeklebt"
    """

    plain: str
    done: str


_DONE = {
    "add": "added",
    "attach": "attached",
    "baste": "basted",
    "carve": "carved",
    "chop": "chopped",
    "clip": "clipped",
    "crop": "cropped",
    "cut": "cut",
    "embroider": "embroidered",
    "fasten": "fastened",
    "fix": "fixed",
    "glue": "glued",
    "join": "joined",
    "lay": "laid",
    "nail": "nailed",
    "paste": "pasted",
    "patch": "patched",
    "pin": "pinned",
    "put": "put",
    "remove": "removed",
    "sew": "sewn",
    "slice": "sliced",
    "snip": "snipped",
    "stick": "stuck",
    "stitch": "stitched",
    "tack": "tacked",
    "take": "taken",
    "tape": "taped",
    "tear": "torn",
    "trim": "trimmed",
    "unpick": "unpicked",
    "entfernen": "entfernt",
    "fügen": "gefügt",
    "heften": "geheftet",
    "kleben": "geklebt",
    "legen": "gelegt",
    "nähen": "genäht",
    "nehmen": "genommen",
    "schneiden": "geschnitten",
    "setzen": "gesetzt",
    "stecken": "gesteckt",
    "sticken": "gestickt",
    "trennen": "getrennt",
}
_AFTER = ("apart", "away", "down", "in", "off", "on", "out", "together")
_BEFORE = ("ab", "an", "auf", "aus", "ein", "fest", "heraus", "weg", "zusammen")


def done_of(plain: str) -> str | None:
    """The past participle of a verb as a theme's file has it alone; None where it is not known."""
    word = plain.casefold()
    if word in _DONE:
        return _DONE[word]
    verb, _, after = word.partition(" ")
    if verb in _DONE and after in _AFTER:
        return f"{_DONE[verb]} {after}"
    for before in _BEFORE:
        verb = word.removeprefix(before)
        if verb != word and verb in _DONE and verb.endswith("n"):
            return before + _DONE[verb]
    return None

"""The theme: colours, line weights, type sizes, pattern spacing, words for join and cut, as checked data.

The first theme is a quilter's work table. Lengths, weights and type sizes are in stage units (one is 120 pixels at
1080p). A theme is made through ``load_theme`` or checked with ``Theme.checked``, which holds every pair of colours that
must be told apart against WCAG 2.2.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from ..errors import ThemeError
from .contrast import GRAPHICS, TEXT, contrast_ratio, relative_luminance
from .model import PX_PER_UNIT

__all__ = ["DEFAULT_THEME", "LEAST_TYPE", "Theme", "contrast_ratio", "load_theme", "relative_luminance"]

LEAST_TYPE = 32 / PX_PER_UNIT  # nothing smaller is written, in stage units
_LEAST_WEIGHT = 3 / PX_PER_UNIT  # thinner saturated lines lose their colour in a clip's halved colour planes


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """How everything looks."""

    name: str = "quilt"

    # Colours: paper and ink
    paper: str = "#FAF6EC"
    ink: str = "#1F2A37"  # outlines, side marks, words
    quiet: str = "#56606C"  # words that step back
    # The work table and the tray
    table: str = "#FFFDF7"
    tray: str = "#F3EDDD"
    panel_stroke: str = "#D9CFB8"  # decoration: panels are told apart by where they stand
    # Cloth
    base: str = "#C9DDE8"
    join: str = "#DCEBDD"
    join_pattern: str = "#2F6F5E"
    cut: str = "#F3DDD3"
    cut_pattern: str = "#8A3B2E"
    outline: str = "#EAD9A8"  # the finished outline
    option: str = "#E9E1CF"
    # Signs
    attention: str = "#6B3FA0"
    right: str = "#1B6E3C"
    wrong: str = "#B3261E"
    # The row of stitches along the top edge
    stitch_done: str = "#6B3FA0"
    stitch_to_come: str = "#CDC3AC"  # decoration: what is done is told by the others

    # Line weights
    side_width: float = 0.036
    outline_width: float = 0.056  # the finished outline
    cut_dash: tuple[float, float] = (0.17, 0.11)  # dash and gap round a piece to cut away
    mark_width: float = 0.085  # the marked part of a side
    tick_width: float = 0.046
    hatch_width: float = 0.028  # the lines of a piece to cut away
    seam_width: float = 0.045
    sign_width: float = 0.062  # rings, crosses, ticks
    arrow_width: float = 0.050
    arrow_head: float = 0.24  # its length
    stitch_width: float = 0.050  # of the row along the top edge
    panel_width: float = 0.016
    panel_rounded: float = 0.22

    # Lengths of stitches, on seams and along the top edge
    stitch: float = 0.14
    stitch_gap: float = 0.10

    # Patterns
    pattern_spacing: float = 0.21
    hatch_deg: float = 45.0  # direction of the lines in the piece's own frame
    dot_radius: float = 0.042
    pattern_inset: float = 0.060  # kept free along a side, from the middle of its stroke
    pattern_clear: float = 0.050  # kept free round a label's disc

    # Side marks
    tick: float = 0.16  # half the length of a tick
    tick_spacing: float = 0.13
    end_bar: float = 0.12  # half the length of the bars at the ends of a mark on a part of a side
    letter_gap: float = 0.06  # between the disc kept free for a letter and the nearest side, tick or disc

    # Type
    heading_size: float = 0.50
    word_size: float = 0.36
    mark_size: float = 0.42
    option_size: float = 0.44  # the letters A, B, C beside the options
    degrees_size: float = 0.38
    small_size: float = 0.30

    # A plain dictionary: a read-only view could not be sent to another process.
    words: Mapping[str, str] = field(default_factory=lambda: {"join": "join", "cut": "cut"}, hash=False)

    def checked(self) -> Theme:
        """The theme itself, where it can be used; ThemeError naming every fault otherwise."""
        faults = [
            f"{lower} on {upper}: contrast {ratio:.4f} is below {least:g} ({why})"
            for lower, upper, least, why in _pairs()
            if (ratio := contrast_ratio(getattr(self, lower), getattr(self, upper))) < least
        ]
        for entry in fields(self):
            value = getattr(self, entry.name)
            if entry.name.endswith("_size") and not value >= LEAST_TYPE:
                faults.append(f"{entry.name}: {value:g} is smaller than {LEAST_TYPE:.4f}, which is 32 px at 1080p")
            if entry.name in _WEIGHTS and not value >= _LEAST_WEIGHT:
                faults.append(f"{entry.name}: {value:g} is thinner than {_LEAST_WEIGHT:g}, which is 3 px at 1080p")
            numbers = value if isinstance(value, tuple) else (value,) if isinstance(value, float) else ()
            for number in numbers:
                if not math.isfinite(number) or (number <= 0.0 and entry.name != "hatch_deg"):
                    faults.append(f"{entry.name}: {number:g} is not a number above 0")
        if not self.words.get("join") or not self.words.get("cut") or self.words["join"] == self.words["cut"]:
            faults.append("words: join and cut need a word each, and not the same one")
        if faults:
            raise ThemeError(f"the theme {self.name!r} cannot be used: " + "; ".join(faults))
        return self


_CLOTH = ("base", "join", "cut", "outline", "option")
_GROUND = ("paper", "table", "tray")
_WEIGHTS = (
    "side_width",
    "outline_width",
    "mark_width",
    "tick_width",
    "hatch_width",
    "seam_width",
    "sign_width",
    "arrow_width",
)


def _pairs() -> Iterator[tuple[str, str, float, str]]:
    """Which colour must be told from which, and by how much."""
    for below in (*_GROUND, *_CLOTH):
        yield "ink", below, TEXT, "words are written on it, WCAG 2.2, 1.4.3"
        yield "attention", below, TEXT, "degrees are written on it, WCAG 2.2, 1.4.3"
        for sign in ("right", "wrong"):
            yield sign, below, GRAPHICS, "a sign is drawn on it, WCAG 2.2, 1.4.11"
    for below in _GROUND:
        yield "quiet", below, TEXT, "words are written on it, WCAG 2.2, 1.4.3"
        for sign in ("right", "wrong"):
            yield sign, below, TEXT, "words are written on it, WCAG 2.2, 1.4.3"
    yield "join_pattern", "join", GRAPHICS, "the pattern tells a join, WCAG 2.2, 1.4.11"
    yield "cut_pattern", "cut", GRAPHICS, "the pattern tells a cut, WCAG 2.2, 1.4.11"
    yield "stitch_done", "paper", GRAPHICS, "the stitches tell how far it has gone, WCAG 2.2, 1.4.11"


DEFAULT_THEME = Theme()


def load_theme(source: Mapping[str, Any] | Path | None = None) -> Theme:
    """A theme from the entries that differ from the first one, checked.

    source : a mapping of field names to values, a TOML file of the same, or None for the first theme
    Raises : ThemeError for a file that cannot be read, an unknown or ill-typed entry, or too little contrast
    """
    if source is None:
        return DEFAULT_THEME.checked()
    if isinstance(source, Path):
        try:
            source = tomllib.loads(source.read_text(encoding="utf-8"))
        except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
            raise ThemeError(f"the theme {source} cannot be read: {error}") from error
    known = {entry.name: getattr(DEFAULT_THEME, entry.name) for entry in fields(Theme)}
    values = {name: _value(name, value, known) for name, value in source.items()}
    return replace(DEFAULT_THEME, **values).checked()


def _value(name: str, value: object, known: Mapping[str, object]) -> Any:
    """The value in the type of the first theme's."""
    if name not in known:
        near = get_close_matches(name, known, n=1)
        raise ThemeError(f"a theme has no entry {name!r}" + (f"; did you mean {near[0]!r}?" if near else ""))
    model = known[name]
    if isinstance(model, float) and _is_number(value):
        return float(value)  # type: ignore[arg-type]
    if isinstance(model, str) and isinstance(value, str):
        return value
    is_row = isinstance(value, list | tuple) and all(_is_number(part) for part in value)
    if isinstance(model, tuple) and is_row and len(value) == len(model):  # type: ignore[arg-type]
        return tuple(float(part) for part in value)  # type: ignore[attr-defined]
    if isinstance(model, Mapping) and isinstance(value, Mapping):
        return {**model, **{str(key): str(word) for key, word in value.items()}}
    raise ThemeError(f"the theme entry {name!r} cannot be {value!r}; the first theme has {model!r}")


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)

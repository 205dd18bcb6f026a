"""The theme: colours, patterns, line weights, type sizes, the words of labels, as data.

The values that stand here are those of our first theme, a quilter's work table by day. Lengths, weights and type sizes
are in stage units (one is 120 pixels at 1080p). What must hold for a theme to be used is in ``theme_checks``; our
themes are in ``themes``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from ..style import Verb, done_of
from ..typeface.faces import FAMILY

__all__ = ["DEFAULT_THEME", "Fabric", "Theme"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fabric:
    """Cloth of one sort, for what only some kinds of question have: told from others by pattern, sides and word."""

    fill: str
    pattern: str  # the colour of what it wears
    pattern_name: str  # a pattern by its name in ``style.PATTERNS``
    word: str  # what becomes of it, as a verb: what labels say of it
    dashed: bool = False  # its sides
    done: str = ""  # the verb's past participle; "" where it follows from the verb


_FABRICS = {
    "join": Fabric(fill="#DCEBDD", pattern="#2F6F5E", pattern_name="dots", word="join"),
    "cut": Fabric(fill="#F3DDD3", pattern="#8A3B2E", pattern_name="lines", word="cut", dashed=True),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """How everything looks."""

    name: str = "light"

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
    outline: str = "#EAD9A8"  # the finished outline
    option: str = "#E9E1CF"
    # Signs
    attention: str = "#6B3FA0"
    right: str = "#1B6E3C"
    wrong: str = "#B3261E"
    # The patchwork of a title card
    patch_seam: str = "#FAF6EC"  # decoration
    # The row of stitches along the top edge
    stitch_done: str = "#6B3FA0"
    stitch_to_come: str = "#CDC3AC"  # decoration: what is done is told by the others

    # Patterns, each by its name in ``style.PATTERNS``
    differs_pattern: str = "tint"  # the place where an option differs: a tint, or a pattern where there is to be none
    pattern_spacing: float = 0.21
    hatch_deg: float = 45.0  # direction of lines in the piece's own frame
    dot_radius: float = 0.042
    cross_reach: float = 0.078  # half the length of a small cross's strokes
    pattern_inset: float = 0.060  # kept free along a side, from the middle of its stroke
    pattern_clear: float = 0.050  # kept free round a label's disc

    # Line weights
    side_width: float = 0.036
    outline_width: float = 0.056  # the finished outline
    mark_width: float = 0.085  # the marked part of a side
    pointer_width: float = 0.150  # the same, pointed at
    agree_width: float = 0.106  # sides that agree with the finished outline
    differ_width: float = 0.106  # a side that differs, broken
    tick_width: float = 0.046
    hatch_width: float = 0.028  # lines and small crosses of a pattern
    seam_width: float = 0.045
    sign_width: float = 0.062  # rings, crosses, ticks
    arrow_width: float = 0.050
    stitch_width: float = 0.050  # of the row along the top edge
    panel_width: float = 0.016

    # Lengths
    dash: tuple[float, float] = (0.17, 0.11)  # dash and gap round cloth that is to go
    arrow_head: float = 0.24
    panel_rounded: float = 0.22
    stitch: float = 0.14  # on seams
    stitch_gap: float = 0.10
    tick: float = 0.16  # half the length of a tick
    tick_spacing: float = 0.13
    end_dot: float = 0.095  # radius of the dots at the ends of a mark on a part of a side
    letter_gap: float = 0.06  # between the disc kept free for a letter and the nearest side, tick or disc

    # Type
    typeface: str = FAMILY
    heading_size: float = 0.50
    word_size: float = 0.36
    mark_size: float = 0.42
    option_size: float = 0.44  # the letters A, B, C beside the options
    degrees_size: float = 0.38
    small_size: float = 0.30

    file: str = field(default="", compare=False, repr=False)  # that a teacher has it in; "" for one of ours

    # By the names of ``style.FABRICS``.
    # A plain dictionary: a read-only view could not be sent to another process.
    fabrics: Mapping[str, Fabric] = field(default_factory=lambda: dict(_FABRICS), hash=False)

    @property
    def countdown(self) -> str:
        """The colour of the patches of a countdown: that of the first fabric's pattern."""
        return next(iter(self.fabrics.values())).pattern

    @property
    def verbs(self) -> dict[str, Verb]:
        """What it calls what becomes of fabrics, by their names; none for those that it calls as everybody does."""
        return {
            name: Verb(plain=fabric.word, done=fabric.done or done_of(fabric.word) or fabric.word)
            for name, fabric in self.fabrics.items()
            if fabric.done or fabric.word != _FABRICS[name].word
        }

    def dash_of(self, fabric: str) -> tuple[float, float] | None:
        """Dash and gap of the sides of a fabric; None where they are whole."""
        return self.dash if self.fabrics[fabric].dashed else None

    def entry(self, name: str) -> Any:
        """What an entry holds: a field by its name, or one of a fabric, such as "join.fill".

        The word of a fabric is a `Verb` where both its forms were given.
        """
        fabric, dot, part = name.partition(".")
        if not dot:
            return getattr(self, name)
        cloth = self.fabrics[fabric]
        return Verb(plain=cloth.word, done=cloth.done) if part == "word" and cloth.done else getattr(cloth, part)

    def having(self, entries: Mapping[str, Any]) -> Theme:
        """This theme with other values for some entries, by the names that ``entry`` takes."""
        plain = {name: value for name, value in entries.items() if "." not in name}
        fabrics = dict(self.fabrics)
        for name, value in entries.items():
            fabric, dot, part = name.partition(".")
            if isinstance(value, Verb):
                fabrics[fabric] = replace(fabrics[fabric], word=value.plain, done=value.done)
            elif dot:
                fabrics[fabric] = replace(fabrics[fabric], **{part: value})
        return replace(self, **{"fabrics": fabrics, **plain})

    def in_words_of(self, other: Theme) -> Theme:
        """The same with what another theme calls what becomes of fabrics."""
        named = {
            name: replace(fabric, word=other.fabrics[name].word, done=other.fabrics[name].done)
            for name, fabric in self.fabrics.items()
        }
        return replace(self, fabrics=named)


DEFAULT_THEME = Theme()

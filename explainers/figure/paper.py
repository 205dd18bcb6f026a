"""Paper: its sizes, how large things are printed on it, and pictures with their size in millimetres.

What is drawn for paper uses stage units like any figure, and a picture says how many millimetres one is. In large print
a unit is longer, so that lines, ticks and patterns grow with the letters.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from ..typeface.faces import face
from .layout import Box, extent_of_entries
from .model import Figure
from .theme import Theme

__all__ = [
    "LINE_HEIGHT",
    "MM_PER_PT",
    "Paper",
    "Picture",
    "Printing",
    "framed",
    "paper_theme",
    "paragraph_mm",
    "wrapped_lines",
]

MM_PER_PT = 25.4 / 72.0
LINE_HEIGHT = 1.35  # of the type

_SIZES_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}  # ISO 216; ANSI/ASME Y14.1, size A

_WORD = 0.40  # 11.3 pt at 10 mm a unit, 18.1 pt at 16
_MARK = 0.44
_OPTION = 0.50


class Paper(StrEnum):
    """A size of paper."""

    A4 = "a4"
    LETTER = "letter"


@dataclass(frozen=True, slots=True, kw_only=True)
class Printing:
    """On what paper, and how large."""

    paper: Paper = Paper.A4
    large: bool = False  # large print: no type under 18 pt

    side_mm: float = 15.0  # margins
    top_mm: float = 14.0
    foot_mm: float = 20.0  # the footer stands in it

    @property
    def page_mm(self) -> tuple[float, float]:
        """Width and height of a page."""
        return _SIZES_MM[self.paper.value]

    @property
    def width_mm(self) -> float:
        """Between the margins."""
        return self.page_mm[0] - 2 * self.side_mm

    @property
    def height_mm(self) -> float:
        """Between the margins."""
        return self.page_mm[1] - self.top_mm - self.foot_mm

    @property
    def mm_per_unit(self) -> float:
        """Of a stage unit, where nothing else decides it."""
        return 16.0 if self.large else 10.0

    @property
    def type_pt(self) -> float:
        """Size of plain type; headings are larger, nothing is smaller."""
        return 18.0 if self.large else 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A part of a figure at a printed size."""

    figure: Figure
    box: Box  # the part of the stage that is seen
    mm_per_unit: float

    @property
    def width_mm(self) -> float:
        """On paper."""
        return self.box.width * self.mm_per_unit

    @property
    def height_mm(self) -> float:
        """On paper."""
        return self.box.height * self.mm_per_unit


def framed(figures: Sequence[Figure], *, pad: float, mm_per_unit: float) -> tuple[Picture, ...]:
    """Pictures of one part of the stage, in which all that the figures show has room.

    pad : round it, stage units
    """
    boxes = [extent_of_entries(figure.entries).inset(-pad) for figure in figures]
    box = Box(
        min(box.left for box in boxes),
        min(box.bottom for box in boxes),
        max(box.right for box in boxes),
        max(box.top for box in boxes),
    )
    return tuple(Picture(figure=figure, box=box, mm_per_unit=mm_per_unit) for figure in figures)


def paper_theme(theme: Theme) -> Theme:
    """The theme with type that is large enough on paper, at the units of ``Printing``."""
    return replace(
        theme,
        word_size=max(theme.word_size, _WORD),
        mark_size=max(theme.mark_size, _MARK),
        option_size=max(theme.option_size, _OPTION),
        degrees_size=max(theme.degrees_size, _WORD),
        small_size=max(theme.small_size, _WORD),
    )


def paragraph_mm(text: str, printing: Printing) -> float:
    """The height of a paragraph of plain type, as wide as the page allows, in millimetres."""
    size = printing.type_pt * MM_PER_PT
    return wrapped_lines(text, size, printing.width_mm) * size * LINE_HEIGHT


def wrapped_lines(text: str, size: float, width: float) -> int:
    """How many lines a text takes in the regular weight; size and width in one unit."""
    letters = face(False)
    lines, line = 1, ""
    for word in text.split(" "):
        longer = f"{line} {word}".strip()
        if letters.width(longer, size) > width:
            lines, line = lines + 1, word
        else:
            line = longer
    return lines

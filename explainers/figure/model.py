"""The display list: what is seen at one moment, as plain values.

The stage is 16 units wide and 9 high, origin at the lower left corner, y up; at 1080p one unit is 120 pixels.
Entries are drawn in order, later ones over earlier ones. Colours are "#RRGGBB". Lengths, line widths and type sizes
are in stage units. Text is always upright; a label's `at` is the middle of its text, half way up the capital
letters.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from ..geometry.rigid_motion import Point, Ring, Side, Similarity
from .subject import Subject

__all__ = [
    "CAPTION_TOP",
    "PX_PER_UNIT",
    "STAGE_HEIGHT",
    "STAGE_WIDTH",
    "Align",
    "Area",
    "Arrow",
    "Circle",
    "Dots",
    "Entry",
    "Figure",
    "Label",
    "Lines",
    "Role",
    "drawing_moves",
    "is_material",
    "moved_entry",
]

STAGE_WIDTH = 16.0
STAGE_HEIGHT = 9.0
PX_PER_UNIT = 120.0  # at 1920 x 1080
CAPTION_TOP = 0.15 * STAGE_HEIGHT  # below this the stage is left free for captions


class Role(StrEnum):
    """What an entry of any question stands for; writers may style, name or leave out entries by it.

    A kind of question calls the cloth of things that only it has by names of its own, such as "base".
    """

    HEADING = "heading"  # the one line at the top; a slide writes it into its title placeholder
    PROGRESS = "progress"  # the row of stitches along the top edge
    PANEL = "panel"  # the work table and the tray
    GRID = "grid"  # lines of an item's own coordinates, and the numbers along them
    OUTLINE = "outline"  # the finished outline
    OPTION = "option"
    MARK = "mark"  # marked side, ticks, letter
    SEAM = "seam"
    TURN = "turn"  # the arc arrow and its degrees
    POINTER = "pointer"  # arrows, spotlights and rings that point at something
    RIGHT = "right"  # agrees: tick
    WRONG = "wrong"  # differs: ring, cross
    WORD = "word"  # any other text
    CLOCK = "clock"  # the countdown of a pause


_NO_MATERIAL = frozenset(Role) - {Role.OUTLINE, Role.OPTION}


def is_material(role: str) -> bool:
    """Whether a role is that of material: more than a sign, a word, or what lies under them."""
    return role not in _NO_MATERIAL


class Align(StrEnum):
    """Which point of a label's width `at` names."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """Common to everything that is drawn.

    id      : unique in a figure and stable from figure to figure for the same thing; neutral (it may reach a learner)
    group   : entries that move as one, such as everything that is drawn of one piece
    alt     : what the entry shows, for a reader who cannot see it; "" for decoration
    subject : what of the question it belongs to, by a neutral name; None where it belongs to nothing in particular.
              A letter belongs to its option, but does not move with it: it has another group
    """

    id: str
    group: str
    role: str  # a ``Role``, or a kind of question's own name for a sort of cloth
    alt: str = ""
    opacity: float = 1.0
    subject: Subject | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Area(Entry):
    """Closed rings, filled and outlined. Several rings are one shape by the even-odd rule: holes are clear."""

    rings: tuple[Ring, ...]
    fill: str | None = None
    stroke: str | None = None
    width: float = 0.0
    dash: tuple[float, float] | None = None  # dash, gap
    rounded: float = 0.0  # corner radius; only for upright rectangles (panels)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines(Entry):
    """Straight strokes with round ends: hatching, ticks, stitches, crosses."""

    segments: tuple[Side, ...]
    stroke: str
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Dots(Entry):
    """Filled discs of one size: a dot pattern."""

    centres: tuple[Point, ...]
    radius: float
    fill: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Label(Entry):
    """One line of upright text, or a sign that stands in its place."""

    text: str
    at: Point
    size: float  # the em, so that 32 px of type at 1080p is 32 / 120
    colour: str
    bold: bool = False
    align: Align = Align.MIDDLE
    sign: str = ""  # of ``mark_signs``: it is drawn with its middle at `at`, and `text` is only what it is called


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow(Entry):
    """A polyline (an arc is given as many short steps) with a filled head at its last point.

    The head's tip is the last point; a writer stops the line at the head's base.
    """

    path: tuple[Point, ...]
    stroke: str
    width: float
    head: float  # length of the head


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle(Entry):
    """A ring or a disc."""

    centre: Point
    radius: float
    fill: str | None = None
    stroke: str | None = None
    width: float = 0.0
    dash: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """What is seen at one moment."""

    background: str
    entries: tuple[Entry, ...]
    alt: str = ""  # the whole picture in words

    def __post_init__(self) -> None:
        seen: set[str] = set()
        for entry in self.entries:
            if entry.id in seen:
                raise ValueError(f"two entries of one figure are called {entry.id!r}")
            seen.add(entry.id)

    def entry(self, entry_id: str) -> Entry:
        """The entry of that id; KeyError where there is none."""
        for entry in self.entries:
            if entry.id == entry_id:
                return entry
        raise KeyError(entry_id)


def moved_entry(entry: Entry, motion: Similarity) -> Entry:
    """The entry after a similarity of the stage: places move, text stays upright and keeps its size, lines their width.

    Radii of circles and dots scale with the motion; `rounded` does too.
    """
    match entry:
        case Area():
            return replace(entry, rings=tuple(motion.apply(ring) for ring in entry.rings))
        case Lines():
            return replace(entry, segments=tuple(motion.apply_side(side) for side in entry.segments))
        case Dots():
            return replace(entry, centres=motion.apply(entry.centres), radius=entry.radius * motion.scale)
        case Label():
            return replace(entry, at=motion.apply_point(entry.at))
        case Arrow():
            return replace(entry, path=motion.apply(entry.path))
        case Circle():
            return replace(entry, centre=motion.apply_point(entry.centre), radius=entry.radius * motion.scale)
    raise TypeError(f"an entry of kind {type(entry).__name__} cannot be moved")


def drawing_moves(entry: Entry, *, turns: bool, grows: bool) -> bool:
    """Whether a drawing of the entry, turned or grown with lines kept at their width, is a drawing of the moved entry.

    Words and rounded rectangles stay upright; dashes and the heads of arrows keep their length.
    """
    if isinstance(entry, Label) or (isinstance(entry, Area) and entry.rounded > 0.0):
        return not turns and not grows
    if isinstance(entry, Arrow) or (isinstance(entry, Area | Circle) and entry.dash is not None):
        return not grows
    return True

"""What the teacher wrote, as plain values. No file format, no solving and no drawing here.

All coordinates are in the teacher's own units, y up; all angles in degrees, anticlockwise positive.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Ring, Side
from ..style.paces import PACE_NAMES

__all__ = [
    "BASE",
    "EVERY_PIECE",
    "OPTION_LABELS",
    "Accepted",
    "Does",
    "Item",
    "Lesson",
    "MadeOptions",
    "Manner",
    "Option",
    "Part",
    "Piece",
    "Series",
    "Shared",
    "WarningKind",
]

BASE = "base"  # the name by which `of` speaks of the base; no piece may be called so
OPTION_LABELS = "ABCDEF"
EVERY_PIECE = "every-piece"  # after `ask`: a stop before each piece is brought to where its marks meet


class Does(StrEnum):
    """What becomes of a piece."""

    JOIN = "join"
    CUT = "cut"


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece and the two sides that must meet."""

    name: str
    does: Does
    corners: Ring  # the piece's own coordinates, as typed: either direction, needless corners allowed
    side: Side  # the marked side of the piece, or a part of one, in the same coordinates
    meets: Side  # the side it must meet, in the coordinates of `of`
    of: str = BASE  # or the name of an earlier joined piece
    mark: str = "A"
    turned: float = 0.0  # how the sheet shows it


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One of the outlines to choose from: drawn by hand, or the true outline changed by a named slip."""

    corners: Ring | None = None  # None: made from the result
    holes: tuple[Ring, ...] = ()
    slip: str | None = None  # with corners None: the slip; None is the true outline itself
    slip_piece: str | None = None  # the piece that the slip happens to, where the slip needs one
    turned: float = 0.0
    scale: float = 1.0
    name: str | None = None  # used in step ids in place of a short code of the outline; learners never see it


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeOptions:
    """A request for options to be made: this many wrong ones and the result."""

    make: int
    seed: int


class WarningKind(StrEnum):
    """What a sound item may be warned of; also the names under which a teacher accepts a warning."""

    NO_TURN = "no-turn"  # a piece is shown as it lies
    MISREAD_MARK = "misread-mark"  # a mark looks like another sign when the sheet is turned
    TWO_WAY_MARK = "two-way-mark"  # a mark could be taken for another one, or for another part of its side
    SYMMETRIC_PIECE = "symmetric-piece"  # a piece fits with either end
    SYMMETRIC_OUTLINE = "symmetric-outline"  # the result looks the same in several turned positions
    NEARLY_RIGHT = "nearly-right"  # a wrong option that hardly differs from the result
    FINE_SIDES = "fine-sides"  # sides too short to be seen in the drawing of base and pieces
    FINE_OPTIONS = "fine-options"  # the same among the options


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepted:
    """A kind of warning that the teacher has looked at and lets stand."""

    kind: WarningKind
    reason: str  # the teacher's own words, never empty


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One question."""

    name: str
    title: str
    base: Outline  # corners as typed, turned so that the material is on the left
    pieces: tuple[Piece, ...]
    options: tuple[Option, ...] = ()
    made: MadeOptions | None = None  # given in place of options; kept beside them once they are made
    accepted: tuple[Accepted, ...] = ()  # warnings that are silenced, at most one entry a kind
    # Whether the file lists the base's corners clockwise: the same item, but its corners are numbered as listed.
    clockwise: bool = field(default=False, compare=False)

    @property
    def base_corners(self) -> Ring:
        """The base's exterior as the file lists it; side number n, from 1, runs from corner n to the next."""
        return self.base.exterior[::-1] if self.clockwise else self.base.exterior

    @property
    def extent(self) -> float:
        """The base's larger extent: the authoring tolerance is a part of it."""
        return self.base.larger_extent


class Manner(StrEnum):
    """How a lesson shows an item."""

    WORKED_EXAMPLE = "worked-example"
    YOUR_TURN = "your-turn"  # tried first, then worked through
    QUESTION = "question"  # to try, without a solution
    SOLUTION = "solution"  # of a question that was asked elsewhere
    QUICK_CHECK = "quick-check"  # the options alone, beside the finished outline

    @property
    def asks_to_try(self) -> bool:
        """Whether learners get a pause to try first."""
        return self in (Manner.YOUR_TURN, Manner.QUESTION, Manner.QUICK_CHECK)

    @property
    def works_through(self) -> bool:
        """Whether the pieces are laid one after the other, so that there is something to stop before."""
        return self in (Manner.WORKED_EXAMPLE, Manner.YOUR_TURN, Manner.SOLUTION)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One item in a lesson."""

    show: Path  # the item's file, already joined to the lesson's folder
    manner: Manner
    pause_s: float | None = None  # None: the suggested one
    asks: tuple[str, ...] = ()  # where to stop and ask: "PIECE.turn", "PIECE.meet", "outline", "options", EVERY_PIECE


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """What a series gives to all its lessons, and a lesson may give for itself."""

    language: str = "en-GB"
    pace: str = PACE_NAMES[0]  # one of PACE_NAMES
    theme: str | Path | None = None  # one of THEME_NAMES, or a file that is there
    opening: str | None = None
    closing: str | None = None
    card: tuple[str, ...] = ()  # further lines of the title card
    template: Path | None = None  # a slide file that is there; its masters dress the deck
    voice: tuple[tuple[str, str], ...] = ()  # (key, value) as typed
    voice_command: tuple[str, ...] = ()  # the user's own program for a scratch voice, and its arguments
    credit: str | None = None
    licence: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Series(Shared):
    """What several lessons have in common, and their order where it is given."""

    name: str
    path: Path  # its own file
    title: str
    lessons: tuple[Path, ...] = ()  # in order, each once; () where lessons are not numbered

    def number_of(self, lesson: Path) -> int | None:
        """The number of a lesson's file, counted from 1; None where the series does not list it."""
        places = [path.resolve() for path in self.lessons]
        return places.index(lesson.resolve()) + 1 if lesson.resolve() in places else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson(Shared):
    """An ordered list of parts, with the words around them; what it leaves to its series is filled in already."""

    name: str
    title: str
    parts: tuple[Part, ...]
    series: Series | None = None
    number: int | None = None  # in its series
    words: tuple[tuple[str, str], ...] = field(default=())  # (step id, the teacher's own sentence)

    @property
    def stem(self) -> str:
        """What its files are called: its name, after its number where it has one, so that files sort: 03-first-blocks.

        Two digits, or as many as the series needs.
        """
        if self.number is None or self.series is None:
            return self.name
        digits = max(2, len(str(len(self.series.lessons))))
        return f"{self.number:0{digits}d}-{self.name}"

    @property
    def files(self) -> tuple[Path, ...]:
        """Every file beside its own that decides how it looks, each once, in a fixed order."""
        named = [part.show for part in self.parts]
        named += [self.series.path] if self.series else []
        named += [self.theme] if isinstance(self.theme, Path) else []
        named += [self.template] if self.template else []
        return tuple(dict.fromkeys(named))

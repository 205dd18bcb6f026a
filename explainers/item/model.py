"""What the teacher wrote, as plain values. No file format, no solving and no drawing here.

All coordinates are in the teacher's own units, y up; all angles in degrees, anticlockwise positive.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring

__all__ = [
    "BASE",
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
    "WarningKind",
]

BASE = "base"  # the name by which `of` speaks of the base; no piece may be called so
OPTION_LABELS = "ABCDEF"


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
    side: tuple[Point, Point]  # the marked side of the piece, or a part of one, in the same coordinates
    meets: tuple[Point, Point]  # the side it must meet, in the coordinates of `of`
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

    @property
    def extent(self) -> float:
        """The base's larger extent: the authoring tolerance is a part of it."""
        return self.base.larger_extent


class Manner(StrEnum):
    """How a lesson shows an item."""

    WORKED_EXAMPLE = "worked-example"
    YOUR_TURN = "your-turn"


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One item in a lesson."""

    show: Path  # the item's file, already joined to the lesson's folder
    manner: Manner
    pause_s: float | None = None  # None: the suggested one


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """An ordered list of parts, with the words around them."""

    name: str
    title: str
    parts: tuple[Part, ...]
    language: str = "en-GB"
    series: Path | None = None
    opening: str | None = None
    closing: str | None = None
    words: tuple[tuple[str, str], ...] = field(default=())  # (step id, the teacher's own sentence)

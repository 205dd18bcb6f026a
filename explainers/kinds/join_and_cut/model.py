"""An item of joining and cutting as it was written: a base, and pieces that are joined on or cut out.

All coordinates are in the teacher's own units, y up; all angles in degrees, anticlockwise positive.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import ClassVar

from ...choice.question import Question
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Ring, Side
from ...geometry.rings import extent

__all__ = ["BASE", "EVERY_PIECE", "Does", "Item", "Piece", "PieceWarning"]

BASE = "base"  # the name by which `of` speaks of the base; no piece may be called so
EVERY_PIECE = "every-piece"  # after `ask`: a stop before each piece is brought to where its marks meet


class Does(StrEnum):
    """What becomes of a piece."""

    JOIN = "join"
    CUT = "cut"


class PieceWarning(StrEnum):
    """What an item may be warned of that has pieces, besides what any may be."""

    NO_TURN = "no-turn"  # a piece is shown as it lies
    MISREAD_MARK = "misread-mark"  # a mark looks like another sign when the sheet is turned
    MARK_LIKE_OPTION = "mark-like-option"  # a mark is called as an option is
    TWO_WAY_MARK = "two-way-mark"  # a mark could be taken for another one, or for another part of its side
    SYMMETRIC_PIECE = "symmetric-piece"  # a piece fits with either end


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece and the two sides that must meet."""

    name: str
    does: Does
    corners: Ring  # the piece's own coordinates, as typed: either direction, needless corners allowed
    side: Side  # the marked side of the piece, or a part of one, in the same coordinates
    meets: Side  # the side it must meet, in the coordinates of `of`
    of: str = BASE  # or the name of an earlier joined piece
    mark: str = "leaf"  # the name of a sign (``words/mark_names``), or 1 to 3 letters
    turned: float = 0.0  # how the sheet shows it


@dataclass(frozen=True, slots=True, kw_only=True)
class Item(Question):
    """One question of joining and cutting."""

    kind: ClassVar[str] = "join-and-cut"

    base: Outline  # corners as typed, turned so that the material is on the left
    pieces: tuple[Piece, ...]
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

    @property
    def lower_left(self) -> Point:
        """Of the base."""
        left, bottom, _, _ = extent(self.base.exterior)
        return left, bottom

"""What a drawing is taken for, each part with how sure that is: values for a command to write and for a page to show.

Nothing in a proposal is settled: what could not be decided is among ``open``, by the outline that it is about.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring, Side
from .plane import Plane
from .sketch import Passed

__all__ = ["Does", "OpenQuestion", "Proposal", "ProposedPiece", "TracedOutline"]


class Does(StrEnum):
    """What a piece does, as files write it."""

    JOIN = "join"
    CUT = "cut"


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedOutline:
    """An outline in its place, the base's lower left at (0, 0)."""

    name: str  # as the item calls it
    source: str  # as the source calls it
    corners: Ring  # anticlockwise
    holes: tuple[Ring, ...]
    moved: float  # how far the grid moved a corner at most
    off_grid: tuple[Point, ...]  # corners that lie near no point of the grid, and were left
    sure: float  # 0 to 1
    on_source: tuple[Ring, ...]  # the outer ring first, in the source's own units, y down
    doubts: tuple[str, ...] = ()
    number: int = 0  # of its shape on the sketch
    hole_numbers: tuple[int, ...] = ()  # of the shapes that became its last holes

    @property
    def outline(self) -> Outline:
        """As the geometry takes it."""
        return Outline.of(self.corners, self.holes)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposedPiece:
    """A piece; None is what is left open."""

    outline: TracedOutline
    does: Does | None = None
    side: Side | None = None
    meets: Side | None = None
    of: str | None = None  # an earlier piece; None: the base
    mark: str | None = None  # None: the sign of its place
    how: str = ""  # what this was taken from


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenQuestion:
    """What a person has to decide."""

    about: str  # the name of an outline; "" for the whole
    message: str
    fix: str
    on_source: Point | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """A whole question as it was read."""

    base: TracedOutline
    pieces: tuple[ProposedPiece, ...]
    open: tuple[OpenQuestion, ...]
    passed: tuple[Passed, ...]  # what was not taken
    remarks: tuple[str, ...]
    size: Point  # of the source, in its own units
    plane: Plane  # from the item's coordinates to the source

    @property
    def outlines(self) -> tuple[TracedOutline, ...]:
        """The base, then the pieces."""
        return (self.base, *(piece.outline for piece in self.pieces))

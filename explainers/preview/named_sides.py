"""Sides and corners by the numbers that they have in the order of the file: side n runs from corner n to the next."""

from __future__ import annotations

from ..document.notation import shown, shown_pair, shown_point
from ..geometry.locate import span_on
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import sides
from ..kinds.join_and_cut.model import BASE, Item, Piece
from ..words.names import the_piece

__all__ = ["corner_line", "marks_on", "owner_named", "side_line", "side_named"]


def side_named(ring: Ring, pair: tuple[Point, Point], tolerance: float) -> str:
    """A marked side in a sentence: "side 2", "a part of side 3", or by its ends where no one side of the ring has it.

    ring : as listed in the file
    """
    span = span_on((ring,), pair, tolerance)
    if span is None:
        return f"the side from {shown_pair(pair)}"
    number = sides(ring).index(span.whole) + 1
    return f"a part of side {number}, {shown_pair(pair)}," if span.is_part else f"side {number}"


def owner_named(piece: Piece) -> str:
    """What a piece is brought to, in a sentence."""
    return "the base" if piece.of == BASE else the_piece(piece.of)


def marks_on(owner: str, item: Item) -> tuple[tuple[int, Piece], ...]:
    """The pieces, each with its index, whose partner mark stands on the base or on a piece of that name."""
    return tuple((index, piece) for index, piece in enumerate(item.pieces) if piece.of == owner)


def corner_line(ring: Ring) -> str:
    """Every corner by its number."""
    return "Corners: " + ", ".join(f"{number} {shown_point(corner)}" for number, corner in enumerate(ring, start=1))


def side_line(ring: Ring, marked: tuple[Point, Point], letter: str, what: str, tolerance: float) -> str:
    """Where a mark stands on a ring, and what it is for."""
    where = side_named(ring, marked, tolerance).rstrip(",")
    return f"Mark {letter}: {where}, {shown(_length(marked))} long; {what}."


def _length(pair: tuple[Point, Point]) -> float:
    (ax, ay), (bx, by) = pair
    return float(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5)

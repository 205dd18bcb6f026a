"""What a slip is made from, and what it makes."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ....choice.slip import CannotBeMade
from ....geometry.outline import Outline
from ..model import Item, Piece
from ..solving.placement import Placement

__all__ = ["Slipped", "SolvedItem", "Work"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SolvedItem:
    """A solved item on which a slip happens."""

    item: Item
    placements: tuple[Placement, ...]  # without the slip
    outline: Outline  # the true result
    piece: str | None = None  # the piece that the slip happens to, where it needs one

    @property
    def placement(self) -> Placement:
        """Where the piece that the slip happens to truly lies."""
        return next(placement for placement in self.placements if placement.piece.name == self.piece)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slipped:
    """The outline that the slip gives, in the base's coordinates; where it comes of other placements, those."""

    outline: Outline
    placements: tuple[Placement, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What a learner who slips works on: the item as they take it. Slips change it, one after the other."""

    item: Item
    slip_turns: tuple[tuple[str, float], ...] = ()  # (piece, degrees from the way the sheet shows it), marks or no
    turned_over: bool = False  # the result is turned over at the end

    def piece(self, name: str | None) -> Piece:
        """The piece of this name as it stands by now.

        Raises : CannotBeMade where another slip has left it out
        """
        for piece in self.item.pieces:
            if piece.name == name:
                return piece
        raise CannotBeMade(f"{name} is left out")

    def with_pieces(self, *changed: Piece) -> Work:
        """With these pieces in place of those of the same names."""
        by_name = {piece.name: piece for piece in changed}
        return replace(
            self, item=replace(self.item, pieces=tuple(by_name.get(piece.name, piece) for piece in self.item.pieces))
        )

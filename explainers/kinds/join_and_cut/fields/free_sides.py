"""Which sides a piece could meet that no earlier piece uses: what a message offers to be written."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from ....document.notation import typed_pair
from ....geometry.rigid_motion import Ring, Side
from ....geometry.rings import sides, without_needless_corners
from ....geometry.stretches import nearest_stretch

__all__ = ["Marked", "Room", "taken_by"]


class Marked(Protocol):
    """As much of a piece as its marks."""

    name: str | None
    of: str | None
    side: Side | None
    meets: Side | None


@dataclass(frozen=True, slots=True)
class Room:
    """Outlines with what is taken of their sides, all in the same coordinates."""

    rings: tuple[Ring, ...]
    taken: tuple[Side, ...]
    tolerance: float  # item units

    def nearest(self, near: Side, length: float | None) -> Side | None:
        """The free side, or part of one, that is most like two points; of that length, where one is given."""
        straight = [side for ring in self.rings for side in sides(without_needless_corners(ring, self.tolerance))]
        return nearest_stretch(near, straight, self.taken, length, self.tolerance)

    def advice(self, near: Side, length: float | None) -> str:
        """What to write in place of two points; "" where nothing is free."""
        found = self.nearest(near, length) or self.nearest(near, None)
        return f"name two points of one side, such as {typed_pair(found)}" if found else ""


def taken_by(piece: Marked, earlier: Iterable[Marked]) -> tuple[Side, ...]:
    """The marked sides on what a piece meets that earlier pieces use, in its coordinates."""
    found = [other.meets for other in earlier if other.of == piece.of and other.meets]
    # The side by which its host was brought to its place lies inside the outline by now.
    found += [other.side for other in earlier if other.name == piece.of and other.side]
    return tuple(found)

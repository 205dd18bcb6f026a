"""One change of an outline, by the places that it happens at, so that it can be made again and checked."""

from __future__ import annotations

from dataclasses import dataclass

from ....choice.fingerprint import FingerprintParts
from ....choice.slip import CannotBeMade
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring

__all__ = ["Change", "ring_with", "run_between", "with_ring"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change; all places are in the coordinates of the outline that it is made on."""

    @property
    def slip(self) -> str:
        """The name of the slip."""
        return self.told_as.partition(",")[0]

    @property
    def told_as(self) -> str:
        """The name of the slip, and how it is told where there are two ways: its key among the words."""
        raise NotImplementedError

    def made_on(self, outline: Outline, tolerance: float) -> Outline:
        """The outline after the change; it may touch itself.

        outline : without needless corners
        Raises  : CannotBeMade where it has not the corners and sides that the change needs
        """
        raise NotImplementedError

    def fingerprint_parts(self, origin: Point) -> FingerprintParts:
        """Its places and figures as numbers of grains: see ``choice.fingerprint``."""
        raise NotImplementedError


def ring_with(outline: Outline, corner: Point) -> int:
    """Which ring has a corner there: 0 for the exterior, then the holes.

    Raises : CannotBeMade where none has
    """
    for index, ring in enumerate(outline.rings):
        if corner in ring:
            return index
    raise CannotBeMade("the corner is not there any more")


def run_between(ring: Ring, start: Point, end: Point) -> tuple[Ring, Ring]:
    """(the corners from start to end, both among them; those after the end and before the start).

    Raises : CannotBeMade where the ring has not both of them
    """
    if start not in ring or end not in ring:
        raise CannotBeMade("the part is not there any more")
    first = ring.index(start)
    turned = ring[first:] + ring[:first]
    last = turned.index(end)
    return turned[: last + 1], turned[last + 1 :]


def with_ring(outline: Outline, index: int, ring: Ring) -> Outline:
    """The outline with another ring in the place of one, walked the same way round."""
    exterior, *holes = (ring if at == index else own for at, own in enumerate(outline.rings))
    return Outline(exterior=exterior, holes=tuple(holes))

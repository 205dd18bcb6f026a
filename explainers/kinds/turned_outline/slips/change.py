"""One change of an outline, by the places that it happens at, so that it can be made again and checked."""

from __future__ import annotations

from dataclasses import dataclass

from ....choice.fingerprint import Grains
from ....choice.slip import CannotBeMade
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring

__all__ = ["Change", "corner_number", "run_between", "with_exterior"]


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

    def grains(self, origin: Point) -> Grains:
        """Its places and figures as numbers of grains: see ``choice.fingerprint``."""
        raise NotImplementedError


def corner_number(ring: Ring, corner: Point) -> int:
    """The index of a corner.

    Raises : CannotBeMade where the ring has none there
    """
    try:
        return ring.index(corner)
    except ValueError:
        raise CannotBeMade("the corner is not there any more") from None


def run_between(ring: Ring, start: Point, end: Point) -> tuple[Ring, Ring]:
    """(the corners from start to end, both among them; those after the end and before the start).

    Raises : CannotBeMade where the ring has not both of them
    """
    first = corner_number(ring, start)
    turned = ring[first:] + ring[:first]
    last = corner_number(turned, end)
    return turned[: last + 1], turned[last + 1 :]


def with_exterior(outline: Outline, ring: Ring) -> Outline:
    """The outline with another exterior, anticlockwise as before; its holes stay where they are."""
    return Outline(exterior=ring, holes=outline.holes)

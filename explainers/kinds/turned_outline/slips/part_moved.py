"""A bump or a notch that sits on another side.

Why learners do it: the part itself is known again, but not where it sits, when the outline is checked part by part.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ....choice import fingerprint
from ....choice.slip import CannotBeMade
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, RigidMotion, Side
from ....geometry.rings import sides
from .change import Change, ring_with, run_between, with_ring
from .parts import parts, without_part

__all__ = ["PartMoved", "changes"]

PLACES = (0.5, 0.25, 0.75)  # of the room on a side, the best first


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMoved(Change):
    """The part between two corners is taken to another side, as it is."""

    start: Point
    end: Point
    side: Side  # of the ring without the part
    place: float  # of the room that the part leaves on the side: 0 at its start, 1 at its end

    @property
    def told_as(self) -> str:
        """The name of the slip."""
        return "part-moved"

    def made_on(self, outline: Outline, tolerance: float) -> Outline:
        """The outline with the part on that side.

        Raises : CannotBeMade where there is no such part or side, or no room
        """
        index = ring_with(outline, self.start)
        run, others = run_between(outline.rings[index], self.start, self.end)
        rest = without_part(run, others, tolerance)
        if self.side not in sides(rest):
            raise CannotBeMade("there is no such side without the part")
        start, end = (complex(*point) for point in self.side)
        length = abs(end - start)
        room = length - math.dist(self.start, self.end)
        if room <= 2.0 * tolerance:
            raise CannotBeMade("the part is too wide for another side")
        along = (end - start) / length
        goal = start + along * room * self.place
        reach = goal + along * (length - room)
        motion = RigidMotion.laying(self.start, self.end, onto=((goal.real, goal.imag), (reach.real, reach.imag)))
        at = rest.index(self.side[0])
        return with_ring(outline, index, (*rest[: at + 1], *motion.apply(run), *rest[at + 1 :]))

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """Where it was, and where it sits."""
        places = (fingerprint.points((place,), origin) for place in (self.start, self.end, *self.side))
        return (self.told_as, *places, fingerprint.length(self.place))


def changes(outline: Outline, tolerance: float) -> Iterator[Change]:
    """Every part, on every other side that is wide enough for it: the longest sides first, in the middle of them."""
    for part in parts(outline, tolerance):
        start, end = part.ends
        width = math.dist(start, end)
        own = next((side for side in sides(part.rest) if _lies_on(start, side, tolerance)), None)
        hosts = sorted(sides(part.rest), key=lambda side: -round(math.dist(*side), 6))
        for place in PLACES:
            for side in hosts:
                if (side == own and part.stands_on_a_side) or set(side) & {start, end}:
                    continue
                if math.dist(*side) - width > 20.0 * tolerance:
                    yield PartMoved(start=start, end=end, side=side, place=place)


def _lies_on(point: Point, side: Side, tolerance: float) -> bool:
    there = math.dist(point, side[0]) + math.dist(point, side[1])
    return there <= math.dist(*side) + tolerance

"""What becomes of the corners when a piece is joined or cut away.

Corners are told by their places: where two of them come together, one may be left, or none where the sides run straight
on or are gone. So the corners before and those of the piece, less those that are lost, are the corners after.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ....choice import fingerprint
from ....choice.fact import Fact, Stated
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring
from ....geometry.rings import without_needless_corners
from ....words.names import number_of, the_piece
from ..model import Does
from ..solving.solution import JoinAndCutSolution
from .change import ChangeFact, change_fact

__all__ = ["Corners", "MergeFact", "corners_met", "merge_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Corners:
    """Every place where a corner is or was, each with how many came together there."""

    stay: tuple[tuple[Point, int], ...]  # one is left
    vanish: tuple[tuple[Point, int], ...]  # none is left
    new: tuple[Point, ...] = ()  # one is left where none was

    @property
    def met(self) -> tuple[tuple[Point, int], ...]:
        """Places where several come together and one is left."""
        return tuple((place, count) for place, count in self.stay if count > 1)

    @property
    def came(self) -> int:
        """All that there were."""
        return sum(count for _, count in (*self.stay, *self.vanish))

    @property
    def left(self) -> int:
        """All that there are."""
        return len(self.stay) + len(self.new)

    @property
    def lost(self) -> int:
        """How many fewer there are than there were, new ones left out."""
        return self.came - len(self.stay)

    @property
    def places(self) -> tuple[Point, ...]:
        """All of them."""
        return (*(place for place, _ in (*self.stay, *self.vanish)), *self.new)


@dataclass(frozen=True, slots=True, kw_only=True)
class MergeFact(Fact):
    """What becomes of the corners when one piece is joined or cut away."""

    change: ChangeFact  # what it makes of the outline
    corners: Corners

    def holds(self) -> bool:
        """The outline changes so, and a corner is, stays and goes where it is said: each is looked for anew."""
        change = self.change
        ring = without_needless_corners(change.ring, self.tolerance)
        return change.holds() and are_corners(
            self.corners, [change.before.rings, (ring,)], change.after, self.tolerance
        )

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """The outlines that it is about, and how many are lost."""
        return ("merge", self.corners.lost, self.corners.left, self.change.fingerprint_parts(origin))

    def stated(self) -> Stated:
        """Both outlines, and every number of corners that may be told."""
        corners = self.corners
        return Stated(
            pieces=(self.change.name,),
            outlines=(self.change.before, self.change.after),
            corner_count=len(self.change.ring),
            corner_counts=(corners.came, corners.lost, corners.left),
        )

    def as_line(self) -> str:
        """As a plain line."""
        corners, done = self.corners, "cut away" if self.change.does is Does.CUT else "joined"
        came, left = number_of(corners.came, "corner"), number_of(corners.left, "corner")
        return f"{the_piece(self.change.name)}: {done}, {came}, {corners.lost} of them lost, {left} left"


def merge_fact(solution: JoinAndCutSolution, index: int) -> MergeFact:
    """What becomes of the corners with the piece of this number."""
    change, tolerance = change_fact(solution, index), solution.tolerance
    ring = without_needless_corners(change.ring, tolerance)
    corners = corners_met([*change.before.rings, ring], change.after, tolerance)
    return MergeFact(tolerance=tolerance, change=change, corners=corners)


def corners_met(rings: Iterable[Ring], after: Outline, tolerance: float) -> Corners:
    """Where the corners of some rings come together, and where the outline that comes of them has one."""
    gathered: list[list[Point]] = []
    for corner in (corner for ring in rings for corner in ring):
        near = [there for there in gathered if math.dist(there[0], corner) <= 2.0 * tolerance]
        if near:
            near[0].append(corner)
        else:
            gathered.append([corner])
    left = [corner for ring in after.rings for corner in ring]
    counted = [(there[0], len(there)) for there in gathered]
    stay = [each for each in counted if _is_near(each[0], left, tolerance)]
    return Corners(
        stay=tuple(stay),
        vanish=tuple(each for each in counted if each not in stay),
        new=tuple(corner for corner in left if not _is_near(corner, [place for place, _ in counted], tolerance)),
    )


def are_corners(corners: Corners, came: Sequence[Sequence[Ring]], after: Outline, tolerance: float) -> bool:
    """Whether corners are so: at each place as many as are said, none anywhere else, and one or none after it.

    came : the rings of each of what came together
    """
    near, left = 2.0 * tolerance, [corner for ring in after.rings for corner in ring]
    all_came = [corner for rings in came for ring in rings for corner in ring]
    for places, goal in ((corners.stay, 1), (corners.vanish, 0)):
        for place, count in places:
            if count < 1 or sum(math.dist(place, corner) <= near for corner in all_came) != count:
                return False
            if sum(math.dist(place, corner) <= near for corner in left) != goal:
                return False
    return (
        corners.came == len(all_came)
        and corners.left == after.corner_count == len(all_came) - corners.lost + len(corners.new)
        and all(min(math.dist(place, corner) for corner in left) <= near for place in corners.new)
        and all(min(math.dist(place, corner) for corner in all_came) > near for place in corners.new)
    )


def _is_near(place: Point, corners: Iterable[Point], tolerance: float) -> bool:
    return any(math.dist(place, corner) <= 2.0 * tolerance for corner in corners)

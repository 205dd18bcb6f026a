"""How many corners the outline will have: those of the base and of all pieces, less those that are lost."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from ....choice import fingerprint
from ....choice.fact import Fact, Stated
from ....geometry.locate import distance_to_boundary
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point
from ....geometry.rings import without_needless_corners
from ....words.names import number_of
from ..solving.solution import JoinAndCutSolution
from ..words import corners as words
from ..words.corners import Vanished
from .merge import Corners, MergeFact, are_corners, corners_met, merge_fact

__all__ = ["TallyFact", "tally_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TallyFact(Fact):
    """All corners of base and pieces, which of them come together, and how many are left when every piece is done."""

    base: Outline  # needless corners dropped
    merges: tuple[MergeFact, ...]  # one for each piece, in order
    corners: Corners  # of all of them together
    straight: bool  # whether the outline runs straight on at each place where none is left

    def holds(self) -> bool:
        """Each joining or cutting holds and goes on from the one before; every corner is looked for anew."""
        if not self.merges or not all(merge.holds() for merge in self.merges):
            return False
        first, *_ = self.merges
        if not _is_same(first.change.before, self.base, self.tolerance) or not all(
            _is_same(one.change.after, other.change.before, self.tolerance) for one, other in pairwise(self.merges)
        ):
            return False
        after = self.after
        came = [self.base.rings, *((self._ring(index),) for index in range(len(self.merges)))]
        straight = all(distance_to_boundary(place, after) <= self.tolerance for place, _ in self.corners.vanish)
        return straight is self.straight and are_corners(self.corners, came, after, self.tolerance)

    @property
    def after(self) -> Outline:
        """When every piece is done."""
        return self.merges[-1].change.after

    @property
    def is_plain(self) -> bool:
        """Whether every corner that is left is one of the base or of a piece, so that counting them all tells it."""
        return not self.corners.new

    def _ring(self, index: int) -> tuple[Point, ...]:
        return without_needless_corners(self.merges[index].change.ring, self.tolerance)

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """What becomes of the corners with each piece."""
        return ("tally", self.corners.left, *(merge.fingerprint_parts(origin) for merge in self.merges))

    def stated(self) -> Stated:
        """Every number of corners that may be told: each piece's, all together, those lost and those left."""
        corners = self.corners
        return Stated(
            outlines=(self.base, *(merge.change.after for merge in self.merges)),
            corner_counts=(corners.came, corners.lost, *map(len, map(self._ring, range(len(self.merges))))),
        )

    def counting(self) -> tuple[str, ...]:
        """How many corners there are before anything meets."""
        names = [merge.change.name for merge in self.merges]
        pieces = [len(self._ring(index)) for index in range(len(self.merges))]
        return words.counting(self.base.corner_count, len(self.base.holes), list(zip(names, pieces, strict=True)))

    def reckoning(self) -> tuple[str, ...]:
        """Which are lost, and how many are left."""
        corners = self.corners
        if not corners.lost:
            return words.none_lost(corners.left)
        vanished = Vanished(
            places=len(corners.vanish),
            corners=sum(count for _, count in corners.vanish),
            in_pairs=all(count == 2 for _, count in corners.vanish),
            straight=self.straight,
        )
        met = [count for _, count in corners.met]
        return (
            *words.vanished(vanished),
            *words.met(met),
            *words.left(lost=corners.lost, left=corners.left),
        )

    def sums(self) -> tuple[str, str]:
        """What is counted and what is left as sums: the same where no corner is lost."""
        corners = self.corners
        parts = [self.base.corner_count, *(len(self._ring(index)) for index in range(len(self.merges)))]
        added = words.added(parts)
        return added, words.taken(corners.came, corners.lost) if corners.lost else added

    def narration(self) -> tuple[str, ...]:
        """All corners are counted, and those that are lost are taken off."""
        return (*self.counting(), *self.reckoning())

    def note(self) -> str:
        """To the teacher, before the corners are counted."""
        return words.note(is_lost=self.corners.lost > 0)

    def as_line(self) -> str:
        """As a plain line."""
        came, left = number_of(self.corners.came, "corner"), number_of(self.corners.left, "corner")
        return f"base and pieces: {came} in all, {self.corners.lost} of them lost, {left} left"


def tally_fact(solution: JoinAndCutSolution) -> TallyFact:
    """The corners of the whole question."""
    tolerance = solution.tolerance
    merges = tuple(merge_fact(solution, index) for index in range(len(solution.placements)))
    base = solution.item.base.simplified(tolerance)
    rings = [without_needless_corners(merge.change.ring, tolerance) for merge in merges]
    after = merges[-1].change.after
    corners = corners_met([*base.rings, *rings], after, tolerance)
    straight = all(distance_to_boundary(place, after) <= tolerance for place, _ in corners.vanish)
    return TallyFact(tolerance=tolerance, base=base, merges=merges, corners=corners, straight=straight)


def _is_same(one: Outline, other: Outline, tolerance: float) -> bool:
    """Whether two outlines have the same corners."""
    places = [corner for ring in other.rings for corner in ring]
    return one.corner_count == other.corner_count and all(
        min(math.dist(corner, place) for place in places) <= tolerance for ring in one.rings for corner in ring
    )

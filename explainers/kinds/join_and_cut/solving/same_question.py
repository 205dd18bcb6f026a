"""What an item asks, without names: by this it is known again.

A question is its base, its pieces where they lie, what each does, and the places of the marks. Two questions are the
same when a turn, a shift and one scaling lay all of these on each other, after a flip if need be. The order of the
pieces and of the options, names, marks, where the origin lies, and how the sheet shows pieces and options, make no
other question.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ....choice.model import Likeness
from ....geometry.congruence import motions_onto
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side, Similarity
from ....geometry.rings import centroid, perimeter, signed_area
from ....geometry.side import midpoint
from ..model import Does

__all__ = [
    "PosedPieces",
]

PlacedPiece = tuple[Does, Ring, Side]


@dataclass(frozen=True, slots=True, kw_only=True)
class PosedPieces:
    """What is asked, without names."""

    base: Outline
    places: tuple[PlacedPiece, ...]  # what a piece does, the piece where it lies, the place of its mark
    tolerance: float

    def mirrored(self) -> PosedPieces:
        """The question turned over about the y axis."""
        places = self.places
        return PosedPieces(
            base=self.base.mirrored(),
            places=tuple((does, _over(ring)[::-1], (_over(mark)[1], _over(mark)[0])) for does, ring, mark in places),
            tolerance=self.tolerance,
        )

    @property
    def counts(self) -> tuple[object, ...]:
        """Of corners and pieces."""
        rings = tuple(sorted(len(ring) for ring in self.base.rings))
        return rings, tuple(sorted((does.value, len(ring)) for does, ring, _ in self.places))

    @property
    def numbers(self) -> tuple[float, ...]:
        """Lengths and areas, in the size of the base."""
        unit = math.sqrt(self.base.area)
        middle = centroid(self.base.exterior)
        rings = [ring for _, ring, _ in self.places]
        marks = [mark for _, _, mark in self.places]
        return (
            math.fsum(perimeter(ring) for ring in self.base.rings) / unit,
            *sorted(signed_area(ring) / self.base.area for ring in rings),
            *sorted(math.dist(*mark) / unit for mark in marks),
            *sorted(math.dist(middle, midpoint(mark)) / unit for mark in marks),
        )

    @property
    def slack(self) -> float:
        """How far typing to within the tolerance may move those figures; generous, for it only saves work."""
        corners = self.base.corner_count + sum(len(ring) for _, ring, _ in self.places)
        return 8.0 * self.tolerance * corners / math.sqrt(self.base.area)

    def likeness(self, other: PosedPieces) -> Likeness | None:
        """How it is laid on the other, without a flip where that is possible; None: they ask different things."""
        if self.counts != other.counts:
            return None
        for flipped, question in ((False, self), (True, self.mirrored())):
            for motion in motions_onto(question.base, other.base, other.tolerance):
                if _places_match(question.places, other.places, motion, other.tolerance):
                    return Likeness(motion=motion, flipped=flipped)
        return None


def _places_match(
    places: Sequence[PlacedPiece], goals: Sequence[PlacedPiece], motion: Similarity, tolerance: float
) -> bool:
    """Whether each piece lies on one that does the same, corner for corner, with the mark at the same place."""
    left = list(goals)
    for does, ring, mark in places:
        moved, moved_mark = motion.apply(ring), motion.apply(mark)
        found = next(
            (
                goal
                for goal in left
                if goal[0] is does
                and _near(moved_mark, goal[2], tolerance)
                and any(_near(moved[k:] + moved[:k], goal[1], tolerance) for k in range(len(moved)))
            ),
            None,
        )
        if found is None:
            return False
        left.remove(found)
    return True


def _near(points: Sequence[Point], goals: Sequence[Point], tolerance: float) -> bool:
    # Twice: the base is laid on the other within the tolerance, and what lies on it is off by as much again.
    return len(points) == len(goals) and all(
        math.dist(point, goal) <= 2.0 * tolerance for point, goal in zip(points, goals, strict=True)
    )


def _over(points: Sequence[Point]) -> Ring:
    return tuple((-x, y) for x, y in points)

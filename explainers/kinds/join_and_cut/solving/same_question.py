"""Items that are the same question, whatever they call it and wherever they draw it.

A question is its base, its pieces where they lie, what each does, and the places of the marks. Two questions are the
same when a turn, a shift and one scaling lay all of these on each other, after a flip if need be. The order of the
pieces and of the options, names, marks, where the origin lies, and how the sheet shows pieces and options, make no
other question.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ....choice.model import Solution
from ....geometry.congruence import motions_onto
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side, Similarity
from ....geometry.rings import centroid, perimeter, signed_area
from ....geometry.side import midpoint
from ....geometry.tolerance import authoring_tolerance
from ..model import Does

__all__ = ["Asked", "Likeness", "Question", "Repeat", "likeness", "question_of", "repeats"]

Place = tuple[Does, Ring, Side]


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is asked, without names."""

    base: Outline
    places: tuple[Place, ...]  # what a piece does, the piece where it lies, the place of its mark
    tolerance: float

    def mirrored(self) -> Question:
        """The question turned over about the y axis."""
        places = self.places
        return Question(
            base=self.base.mirrored(),
            places=tuple((does, _over(ring)[::-1], (_over(mark)[1], _over(mark)[0])) for does, ring, mark in places),
            tolerance=self.tolerance,
        )

    @property
    def kind(self) -> tuple[object, ...]:
        """Counts that two questions of the same kind share."""
        rings = tuple(sorted(len(ring) for ring in self.base.rings))
        return rings, tuple(sorted((does.value, len(ring)) for does, ring, _ in self.places))

    @property
    def numbers(self) -> tuple[float, ...]:
        """Figures that two questions of the same kind share, flipped or not, each to within the slack."""
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Likeness:
    """How one question is laid on another."""

    motion: Similarity
    flipped: bool  # the first is turned over before it is laid on


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """An item that asks again what an earlier one of the row asks."""

    index: int
    earlier: int  # the first of the row that asks this
    likeness: Likeness  # lays the item's question on the earlier one's


class Asked:
    """The questions that were asked so far, one item after the other."""

    def __init__(self) -> None:
        self._count = 0
        self._firsts: dict[tuple[object, ...], list[tuple[int, Question, tuple[float, ...]]]] = {}

    def again(self, solution: Solution) -> Repeat | None:
        """Note one more item; the earlier one that asks the same, or None.

        Only items of the same kind with nearly the same figures are compared, so that a large bank takes little time.
        """
        question = question_of(solution)
        numbers, slack = question.numbers, question.slack
        index = self._count
        self._count += 1
        firsts = self._firsts.setdefault(question.kind, [])
        for earlier, other, its_numbers in firsts:
            if all(abs(a - b) <= slack for a, b in zip(numbers, its_numbers, strict=True)):
                like = likeness(question, other)
                if like is not None:
                    return Repeat(index=index, earlier=earlier, likeness=like)
        firsts.append((index, question, numbers))
        return None


def question_of(solution: Solution) -> Question:
    """The question of a solved item."""
    tolerance = authoring_tolerance(solution.item.extent)
    return Question(
        base=solution.item.base.simplified(tolerance),
        places=tuple((laid.piece.does, laid.ring, laid.partner) for laid in solution.placements),
        tolerance=tolerance,
    )


def likeness(first: Question, second: Question) -> Likeness | None:
    """How the first is laid on the second, without a flip where that is possible; None: they ask different things."""
    if first.kind != second.kind:
        return None
    for flipped, question in ((False, first), (True, first.mirrored())):
        for motion in motions_onto(question.base, second.base, second.tolerance):
            if _places_match(question.places, second.places, motion, second.tolerance):
                return Likeness(motion=motion, flipped=flipped)
    return None


def repeats(solutions: Iterable[Solution]) -> tuple[Repeat, ...]:
    """Every item that asks what an earlier one of the row asks, with the first that does."""
    asked = Asked()
    found = [asked.again(solution) for solution in solutions]
    return tuple(repeat for repeat in found if repeat is not None)


def _places_match(places: Sequence[Place], goals: Sequence[Place], motion: Similarity, tolerance: float) -> bool:
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

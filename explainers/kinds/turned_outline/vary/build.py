"""The build of a question: what new ones keep while every outline becomes another, and what is wished for instead."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ....choice.slip import FLIPPED
from ....choice.variations import Level
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring
from ....geometry.rings import interior_angles_deg, sides
from ....geometry.tolerance import MEANT_DEG
from ..solution import TurnedOutlineSolution

__all__ = ["Build", "build_of", "wished"]

FEWEST, MOST = 5, 16  # corners of the exterior
FEWEST_OF_HOLE, MOST_OF_HOLE = 3, 8
ROUND = 8  # sides: a regular exterior with more than that looks round, and is kept


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """What a new question keeps."""

    corners: int  # of the exterior
    is_round: bool  # the exterior has many sides, all alike
    holes: tuple[int, ...]  # the corners of each, fewest first
    wrong: int  # how many options are wrong
    flips: bool  # whether one of these is flipped


def build_of(solution: TurnedOutlineSolution) -> Build:
    """The build of a solved question, needless corners not counted."""
    outline, wrong = solution.outline, [verdict for verdict in solution.verdicts if not verdict.same]
    return Build(
        corners=len(outline.exterior),
        is_round=len(outline.exterior) > ROUND and _is_regular(outline, solution.tolerance),
        holes=tuple(sorted(map(len, outline.holes))),
        wrong=len(wrong),
        flips=any(
            verdict.mirrored or (verdict.slip is not None and FLIPPED in {case.slip for case in verdict.slip.cases})
            for verdict in wrong
        ),
    )


def wished(build: Build, level: Level) -> Build | None:
    """The build for a level: a corner more or fewer, an option flipped or none; None where nothing is left to change.

    Of an outline that looks round, the corners of a hole are changed instead.
    """
    if level is Level.SAME:
        return build
    step = 1 if level is Level.HARDER else -1
    goal = replace(build, flips=level is Level.HARDER)
    if not build.is_round:
        goal = replace(goal, corners=_stepped(build.corners, step, FEWEST, MOST))
    elif build.holes:
        *others, last = build.holes
        holes = sorted([*others, _stepped(last, step, FEWEST_OF_HOLE, MOST_OF_HOLE)])
        goal = replace(goal, holes=tuple(holes))
    return None if goal == build else goal


def _stepped(count: int, step: int, fewest: int, most: int) -> int:
    """One more or one fewer, unless that leaves the bounds."""
    return count + step if fewest <= count + step <= most else count


def _is_regular(outline: Outline, tolerance: float) -> bool:
    ring: Ring = outline.exterior
    angles = interior_angles_deg(ring)
    lengths = [abs(complex(*end) - complex(*start)) for start, end in sides(ring)]
    return max(angles) - min(angles) <= MEANT_DEG and max(lengths) - min(lengths) <= 2.0 * tolerance

"""What a teacher is told of a new question: what it comes from, what was kept, what was changed."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from ....choice.variations import Level
from ....document.notation import listed
from .build import Build

__all__ = ["changes", "comment", "nothing_to_change", "too_few"]

WIDTH = 108


def changes(old: Build, new: Build, level: Level) -> tuple[str, ...]:
    """Each feature in which it is easier or harder than the original; none where none was asked."""
    told = []
    if old.corners != new.corners:
        told.append(f"the outline has {new.corners} corners, not {old.corners}")
    if old.holes != new.holes:
        told.append(f"a hole has {_other(new.holes, old.holes)} corners, not {_other(old.holes, new.holes)}")
    if old.flips != new.flips:
        told.append("an option is flipped" if new.flips else "no option is flipped")
    return tuple(told) if level is not Level.SAME else ()


def comment(
    original: str, number: int, *, seed: int, level: Level, build: Build, changes: Sequence[str]
) -> tuple[str, ...]:
    """The lines at the head of its file.

    original : the name of the item that it comes from
    """
    option = "" if level is Level.SAME else f" --{level}"
    kept = "The build is kept" if level is Level.SAME else "The build"
    lines = [
        f"Varied from {original}: explainers vary {original}.yaml --seed {seed}{option}, number {number}.",
        f"The outline is new. {kept}: {_said(build)}.",
    ]
    if changes:
        lines.append(f"Made {level}: {'; '.join(changes)}.")
    return tuple(part for line in lines for part in wrap(line, WIDTH))


def nothing_to_change(name: str, level: Level) -> str:
    """Why there is none of a level."""
    return (
        f"{name}: nothing in it can be made {level}: its corners and options are as far as they go. "
        f"To mend it: leave --{level} out"
    )


def too_few(name: str, goal: Build, *, found: int, wanted: int, drawn: int, made: int) -> str:
    """Why there are fewer than were asked for.

    drawn : outlines that were tried for the first that is missing
    made  : of these, those that were plain to see, and new
    """
    wanted_of_each = "plain to see, new and told from its own mirror image" if goal.flips else "plain to see and new"
    if not drawn:
        because = f"no outline could be drawn with {_outside(goal)}"
    elif not made:
        because = f"of {drawn} outlines with {_outside(goal)} none was {wanted_of_each}"
    else:
        kind = ", one of them flipped" if goal.flips else ", none of them flipped"
        new = f"{made} new {'outline' if made == 1 else 'outlines'}"
        because = f"{new} had no {goal.wrong} wrong options that are told apart at a glance{kind}"
    return (
        f"{name}: found {found or 'none'} of the {wanted} asked for: {because}. "
        "To mend it: try another seed, or leave an option of the original out"
    )


def _outside(build: Build) -> str:
    holes = [f"a hole with {corners} corners" for corners in build.holes]
    return listed([f"{build.corners} corners outside{', all alike' if build.is_round else ''}", *holes], "and")


def _said(build: Build) -> str:
    return listed([_outside(build), f"{build.wrong} wrong options, {'one' if build.flips else 'none'} flipped"], "and")


def _other(holes: Sequence[int], others: Sequence[int]) -> int:
    """The hole that the others have not."""
    left = list(others)
    for corners in holes:
        if corners not in left:
            return corners
        left.remove(corners)
    return holes[-1]

"""What a teacher is told of a new question: what it comes from, what was kept, what was changed."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from ....choice.variations import Level
from ....document.notation import listed
from .build import Build

__all__ = ["changes", "comment", "too_few"]

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


def too_few(name: str, level: Level, *, found: int, wanted: int, nothing_to_change: bool) -> str:
    """Why there are fewer than were asked for."""
    if nothing_to_change:
        return (
            f"{name}: nothing in it can be made {level}: its corners and options are as far as they go. "
            f"To mend it: leave --{level} out"
        )
    return (
        f"{name}: found {found or 'none'} of the {wanted} asked for; what else was tried is not sound, not plain to "
        "see, or too like another. To mend it: ask for fewer, or try another seed"
    )


def _said(build: Build) -> str:
    holes = [f"a hole with {corners} corners" for corners in build.holes]
    outside = f"{build.corners} corners outside{', all alike' if build.is_round else ''}"
    return listed([outside, *holes, f"{build.wrong} wrong options, {'one' if build.flips else 'none'} flipped"], "and")


def _other(holes: Sequence[int], others: Sequence[int]) -> int:
    """The hole that the others have not."""
    left = list(others)
    for corners in holes:
        if corners not in left:
            return corners
        left.remove(corners)
    return holes[-1]

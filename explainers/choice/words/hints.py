"""Hints: what to try next, said of no option and giving nothing away."""

from __future__ import annotations

from ...words.messages import say

__all__ = ["count_first", "count_heading", "go_round", "go_round_heading"]


def count_heading() -> str:
    """Over the hint to count."""
    return say("A hint: count first")


def go_round_heading() -> str:
    """Over the hint to go round."""
    return say("A hint: go round both")


def count_first(*, outline_given: bool = False) -> tuple[str, ...]:
    """What to count before options are tried.

    outline_given : as `Question.outline_given`
    """
    if outline_given:
        first = say("Count the corners of the outline before you look at the options.")
    else:
        first = say("Draw what comes out, and count its corners before you look at the options.")
    return (first, say("Which options have another number?"), say("Look for corners that point inwards, too."))


def go_round() -> tuple[str, ...]:
    """How a flip is told from a turn."""
    return (
        say("Two options may look alike."),
        say("Go round both of them clockwise, and say what comes after what."),
        say("A turn keeps the order, but a flip turns it round."),
    )

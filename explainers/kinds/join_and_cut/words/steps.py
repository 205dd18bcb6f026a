"""The worked solution after its last piece: the outline alone."""

from __future__ import annotations

from ....choice.fact import verified
from ....choice.finished import OutlineFact
from ....words.messages import say, say_count

__all__ = ["outline"]


def outline(fact: OutlineFact) -> tuple[str, ...]:
    """The finished outline stands alone."""
    return verified(
        fact,
        (
            say("Take away everything but the outline."),
            say("This is the finished outline."),
            *_counted(fact.corners, fact.holes),
        ),
    )


def _counted(corners: int, holes: int) -> tuple[str, ...]:
    if not holes:
        return (say_count("It has {count} corner.", "It has {count} corners.", corners),)
    counted = say_count("It has {count} hole.", "It has {count} holes.", holes)
    if holes == 1:
        in_all = say_count(
            "With the corners of the hole, it has {count} corner in all.",
            "With the corners of the hole, it has {count} corners in all.",
            corners,
        )
    else:
        in_all = say_count(
            "With the corners of the holes, it has {count} corner in all.",
            "With the corners of the holes, it has {count} corners in all.",
            corners,
        )
    return (counted, in_all)

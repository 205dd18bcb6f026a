"""The worked solution after its last piece: the outline alone, and turned."""

from __future__ import annotations

from ....choice.fact import said
from ....choice.finished import OutlineFact
from ....words.messages import say, say_count
from ....words.names import is_no_turn
from ....words.turning import turn_outline

__all__ = ["outline", "shown_turned"]


def outline(fact: OutlineFact) -> tuple[str, ...]:
    """The finished outline stands alone."""
    return said(
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


def shown_turned(turn_deg: float) -> tuple[str, ...]:
    """The finished outline is shown turned; () where there is no turn to see."""
    if is_no_turn(turn_deg):
        return ()
    return (turn_outline(turn_deg), say("It is still the same outline."))

"""What is said while a question is worked out: at a stop, and of the outline that stands alone."""

from __future__ import annotations

from ....choice.fact import verified
from ....choice.finished import OutlineFact
from ....words.messages import say, say_count
from ....words.names import sentence_case, the_piece
from ..facts.piece import PieceFact

__all__ = ["ALONE", "ask_meet", "ask_outline", "ask_turn", "dotted_alt", "outline"]

ALONE = 1  # sentence about the outline before anything of it is counted


def outline(fact: OutlineFact, *, counted: bool = False) -> tuple[str, ...]:
    """The finished outline stands alone: ``ALONE`` sentence, then how many corners and holes it has.

    counted : whether its corners have just been counted
    """
    return verified(
        fact,
        (
            say("This is the finished outline."),
            *(() if counted and not fact.holes else _counted(fact.corners, fact.holes)),
        ),
    )


def dotted_alt() -> str:
    """What the picture shows besides, when its corners are counted."""
    return say("Each corner of the outline has a dot.")


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


def ask_turn(fact: PieceFact) -> tuple[str, ...]:
    """Before a piece is turned, or is seen to need no turn."""
    piece = the_piece(fact.piece.name)
    return verified(
        fact,
        (say("Stop and think."), say("Does {piece} have to turn?", piece=piece), say("If so, which way, and how far?")),
    )


def ask_meet(fact: PieceFact) -> tuple[str, ...]:
    """Before a piece is brought to where its marks meet."""
    piece = the_piece(fact.piece.name)
    slides = sentence_case(say("{piece} slides next.", piece=piece))
    return verified(fact, (say("Stop and think."), slides, say("Point to where it will lie.")))


def ask_outline(fact: OutlineFact) -> tuple[str, ...]:
    """Before the finished outline stands alone."""
    return verified(fact, (say("Stop and think."), say("How many corners does the finished outline have?")))

"""The worked solution, piece by piece: marks, turn, meeting, change, outline."""

from __future__ import annotations

from ..item.model import BASE, Does
from ..solution.facts import ChangeFact, MeetFact, OutlineFact, PieceFact, TurnFact
from .held import said
from .names import (
    degrees_in_words,
    is_half_turn,
    is_no_turn,
    is_quarter_turn,
    number_of,
    sentence_case,
    the_piece,
    turn_in_words,
)

__all__ = ["change", "marks", "meet", "outline", "shown_turned", "turn", "turn_command"]


def marks(fact: PieceFact) -> tuple[str, ...]:
    """The piece's mark and its partner's are pointed at."""
    piece = fact.piece
    partner = "the base" if piece.of == BASE else the_piece(piece.of)
    return said(
        fact,
        (
            f"Find mark {piece.mark} on {the_piece(piece.name)}.",
            f"Find the other mark {piece.mark} on {partner}.",
            "Both marks are equally long, and they must meet.",
        ),
    )


def turn(fact: TurnFact) -> tuple[str, ...]:
    """How far the piece turns, and which way."""
    return said(fact, _turn_sentences(the_piece(fact.name), fact.turn_deg))


def turn_command(thing: str, turn_deg: float) -> str:
    """One sentence that asks for a turn other than none: "Give the flag half a turn."."""
    if is_half_turn(turn_deg) or is_quarter_turn(turn_deg):
        return f"Give {thing} {turn_in_words(turn_deg)}."
    by = "by " if thing[-1].isdigit() else ""  # "Turn block 2 45 degrees" cannot be followed
    return f"Turn {thing} {by}{turn_in_words(turn_deg)}."


def _turn_sentences(thing: str, turn_deg: float) -> tuple[str, ...]:
    if is_no_turn(turn_deg):
        return (f"{sentence_case(thing)} needs no turn.", "Its marked side already lies the way it must.")
    if is_half_turn(turn_deg):
        return (turn_command(thing, turn_deg), "Clockwise or anticlockwise: either way will do.")
    return (turn_command(thing, turn_deg), _size_of_turn(turn_deg))


def _size_of_turn(turn_deg: float) -> str:
    size = abs(turn_deg)
    if is_quarter_turn(size):
        return f"That is {degrees_in_words(size)}."
    if abs(size - 45.0) <= 0.1:
        return "That is half of a quarter turn."
    if abs(size - 135.0) <= 0.1:
        return "That is a quarter turn and half of another."
    if size < 90.0:
        return "That is less than a quarter turn."
    return "That is more than a quarter turn, but less than half a turn."


def meet(fact: MeetFact) -> tuple[str, ...]:
    """The marked sides are brought together."""
    name = the_piece(fact.name)
    beside = (
        "Now it lies on top, because it will be cut away."
        if fact.does is Does.CUT
        else "Now it lies beside its partner, because it will be joined."
    )
    return said(fact, (f"Slide {name} until the marks {fact.mark} meet.", beside))


def change(fact: ChangeFact) -> tuple[str, ...]:
    """The piece becomes part of the shape, or is gone from it."""
    name = the_piece(fact.name)
    if fact.does is Does.CUT:
        return said(fact, (f"Cut {name} away.", "This is what is left."))
    return said(fact, (f"Join {name}.", "Now it is part of the shape."))


def outline(fact: OutlineFact) -> tuple[str, ...]:
    """The finished outline stands alone."""
    return said(
        fact,
        (
            "Take away everything but the outline.",
            "This is the finished outline.",
            *_counted(fact.corners, fact.holes),
        ),
    )


def _counted(corners: int, holes: int) -> tuple[str, ...]:
    if not holes:
        return (f"It has {number_of(corners, 'corner')}.",)
    whose = "the hole" if holes == 1 else "the holes"
    return (
        f"It has {number_of(holes, 'hole')}.",
        f"With the corners of {whose}, it has {number_of(corners, 'corner')} in all.",
    )


def shown_turned(turn_deg: float) -> tuple[str, ...]:
    """The finished outline is shown turned; () where there is no turn to see."""
    if is_no_turn(turn_deg):
        return ()
    return (turn_command("the outline", turn_deg), "It is still the same outline.")

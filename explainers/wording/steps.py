"""The worked solution, piece by piece: marks, turn, meeting, change, outline."""

from __future__ import annotations

from ..item.model import BASE, Does
from ..solution.facts import ChangeFact, MeetFact, OutlineFact, PieceFact, TurnFact
from ..words.messages import say, say_count
from ..words.names import degrees_in_words, is_half_turn, is_no_turn, is_quarter_turn, sentence_case, the_piece
from .held import said
from .turning import turn_outline, turn_piece

__all__ = ["change", "marks", "meet", "outline", "shown_turned", "turn"]


def marks(fact: PieceFact) -> tuple[str, ...]:
    """The piece's mark and its partner's are pointed at."""
    piece = fact.piece
    if piece.of == BASE:
        other = say("Find the other mark {mark} on the base.", mark=piece.mark)
    else:
        other = say("Find the other mark {mark} on {partner}.", mark=piece.mark, partner=the_piece(piece.of))
    own = say("Find mark {mark} on {piece}.", mark=piece.mark, piece=the_piece(piece.name))
    return said(fact, (own, other, say("Both marks are equally long, and they must meet.")))


def turn(fact: TurnFact) -> tuple[str, ...]:
    """How far the piece turns, and which way."""
    return said(fact, _turn_sentences(the_piece(fact.name), fact.turn_deg))


def _turn_sentences(piece: str, turn_deg: float) -> tuple[str, ...]:
    if is_no_turn(turn_deg):
        needless = sentence_case(say("{piece} needs no turn.", piece=piece))
        return (needless, say("Its marked side already lies the way it must."))
    if is_half_turn(turn_deg):
        return (turn_piece(piece, turn_deg), say("Clockwise or anticlockwise: either way will do."))
    return (turn_piece(piece, turn_deg), _size_of_turn(turn_deg))


def _size_of_turn(turn_deg: float) -> str:
    size = abs(turn_deg)
    if is_quarter_turn(size):
        return say("That is {degrees}.", degrees=degrees_in_words(size))
    if abs(size - 45.0) <= 0.1:
        return say("That is half of a quarter turn.")
    if abs(size - 135.0) <= 0.1:
        return say("That is a quarter turn and half of another.")
    if size < 90.0:
        return say("That is less than a quarter turn.")
    return say("That is more than a quarter turn, but less than half a turn.")


def meet(fact: MeetFact) -> tuple[str, ...]:
    """The marked sides are brought together."""
    slide = say("Slide {piece} until the marks {mark} meet.", piece=the_piece(fact.name), mark=fact.mark)
    if fact.does is Does.CUT:
        return said(fact, (slide, say("Now it lies on top, because it will be cut away.")))
    return said(fact, (slide, say("Now it lies beside its partner, because it will be joined.")))


def change(fact: ChangeFact) -> tuple[str, ...]:
    """The piece becomes part of the shape, or is gone from it."""
    piece = the_piece(fact.name)
    if fact.does is Does.CUT:
        return said(fact, (say("Cut {piece} away.", piece=piece), say("This is what is left.")))
    return said(fact, (say("Join {piece}.", piece=piece), say("Now it is part of the shape.")))


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

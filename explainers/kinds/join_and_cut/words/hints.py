"""Hints at a piece: which sides must meet, and how it will lie; never how far it turns."""

from __future__ import annotations

from ....sentences.lesson import Heading, fitting_heading, heading
from ....words.messages import message, once, say
from ....words.names import the_piece
from ..facts.piece import PieceFact
from ..model import Does
from .own_verbs import say_action

__all__ = ["piece_heading", "piece_hint", "pointed_alt"]


def piece_heading(fact: PieceFact) -> str:
    """Over the sheet: which piece it is about."""
    return fitting_heading(say("A hint for {piece}", piece=the_piece(fact.piece.name)), heading(Heading.HINT))


def piece_hint(fact: PieceFact) -> tuple[str, ...]:
    """What to think of before the piece is laid."""
    piece = the_piece(fact.piece.name)
    if fact.piece.does is Does.CUT:
        lies = say_action(message("It will be cut away, so think of it on top of the shape."))
    else:
        lies = say_action(message("It will be joined, so think of it next to the shape."))
    return (
        say("A hint for {piece}: the two sides that are marked must meet.", piece=piece),
        once(say("Turn it in your mind until both lie alike.")),
        once(lies),
    )


def pointed_alt(fact: PieceFact) -> str:
    """What stands out on the sheet."""
    return say("The marked side of {piece} and its partner stand out.", piece=the_piece(fact.piece.name))

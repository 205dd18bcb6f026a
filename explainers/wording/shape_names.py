"""What groups of shapes on a slide are called: in a list of shapes, and to whoever listens.

Names say what is seen, never what it means for the answer: they are the same before the solution and after it.
"""

from __future__ import annotations

from ..words.messages import message_as, say, say_as

__all__ = ["base_name", "option_name", "other_name", "piece_name", "slide_number_name"]

_OTHERS = {
    "outline": message_as("group of shapes", "The outline"),
    "panels": message_as("group of shapes", "Work table and tray"),
    "progress": message_as("group of shapes", "How far the lesson is"),
    "patchwork": message_as("group of shapes", "A row of patches"),
    "options": message_as("group of shapes", "Letters and signs of the options"),
    "tray": message_as("group of shapes", "What is written on the tray"),
    "sheet": message_as("group of shapes", "What is written on the sheet"),
    "words": message_as("group of shapes", "What is written on the card"),
    "turn": message_as("group of shapes", "The turn"),
    "clock": message_as("group of shapes", "The time that is left"),
    "agrees": message_as("group of shapes", "Sides that agree"),
    "differs": message_as("group of shapes", "Places that differ"),
    "pointed": message_as("group of shapes", "Places that are pointed at"),
    "paper": message_as("group of shapes", "The paper"),
}


def base_name() -> str:
    """The base with its marks."""
    return say_as("group of shapes", "The base")


def piece_name(number: int, does: str | None) -> str:
    """A piece with its pattern and marks.

    number : in the order in which pieces are laid, from 1
    does   : "join", "cut", or None where the shapes do not say
    """
    if does == "join":
        return say("Piece {number}, to join", number=number)
    if does == "cut":
        return say("Piece {number}, to cut away", number=number)
    return say("Piece {number}", number=number)


def option_name(label: str) -> str:
    """The outline of an option."""
    return say("Option {label}", label=label)


def other_name(group: str) -> str | None:
    """Any other group of a figure by its own name for it; None for one that has no words."""
    return say_as(*_OTHERS[group]) if group in _OTHERS else None


def slide_number_name() -> str:
    """The field with the slide's number."""
    return say("Slide number")

"""What groups of shapes on a slide are called: in a list of shapes, and to whoever listens.

Names say what is seen, never what it means for the answer: they are the same before the solution and after it.
"""

from __future__ import annotations

from ..words.messages import message, message_as, say, say_as

__all__ = ["one_of_several", "other_name", "slide_number_name"]

_OTHERS = {
    "base": message_as("group of shapes", "The base"),
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


# (what a figure is about, the role of its cloth where that says more) -> what is said of one of several.
_ONE_OF_SEVERAL = {
    ("piece", "join"): message("Piece {number}, to join"),
    ("piece", "cut"): message("Piece {number}, to cut away"),
    ("piece", ""): message("Piece {number}"),
    ("option", ""): message("Option {label}"),
}


def one_of_several(thing: str, name: str, cloth: str) -> str | None:
    """A piece with its pattern and marks, the outline of an option: None for a thing that has no words.

    name  : which one: a number, a letter
    cloth : the role of its cloth; "" where the shapes do not show it
    """
    text = _ONE_OF_SEVERAL.get((thing, cloth), _ONE_OF_SEVERAL.get((thing, "")))
    return None if text is None or not name else say(text, number=name, label=name)


def other_name(group: str) -> str | None:
    """Any other group of a figure by its own name for it; None for one that has no words."""
    return say_as(*_OTHERS[group]) if group in _OTHERS else None


def slide_number_name() -> str:
    """The field with the slide's number."""
    return say("Slide number")

"""What is written on pieces: what becomes of them, and their names."""

from __future__ import annotations

from ....words.messages import message_as, say_as
from ....words.names import named

__all__ = ["deed_label", "piece_label"]

# What a theme says unless it has words of its own, and then in the language of the lesson.
_DEEDS = {"join": message_as("a label", "join"), "cut": message_as("a label", "cut")}


def deed_label(does: str, word: str) -> str:
    """What becomes of a piece, "join" or "cut", as a theme's own word says it or else as the language does."""
    return say_as(*_DEEDS[does]) if word == _DEEDS[does][1] else word


def piece_label(deed: str, name: str) -> str:
    """What becomes of a piece, with its name: "join: flag"."""
    return say_as("a label", "{deed}: {piece}", deed=deed, piece=named(name))

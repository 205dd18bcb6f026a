"""What a piece is called where the shapes of a picture are listed: by its number, and by what is done with it."""

from __future__ import annotations

from ....words.messages import message, say
from ..model import Does
from .own_verbs import say_action

__all__ = ["things"]

_NUMBER = "{name}"  # filled in by whoever makes the list


def things() -> dict[tuple[str, str], str]:
    """A piece, by the role of its cloth; see ``kinds.kind.Kind.things``."""
    return {
        ("piece", Does.JOIN.value): say_action(message("Piece {number}, to join"), number=_NUMBER),
        ("piece", Does.CUT.value): say_action(message("Piece {number}, to cut away"), number=_NUMBER),
        ("piece", ""): say("Piece {number}", number=_NUMBER),
    }

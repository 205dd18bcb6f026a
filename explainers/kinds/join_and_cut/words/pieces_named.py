"""What a piece is called where the shapes of a picture are listed: by its number, and by what is done with it."""

from __future__ import annotations

from ....words.messages import own_verbs, say
from ..model import Does

__all__ = ["things"]

_NUMBER = "{name}"  # filled in by whoever makes the list


def things() -> dict[tuple[str, str], str]:
    """A piece, by the role of its cloth; see ``kinds.kind.Kind.things``."""
    named = {
        Does.JOIN: say("Piece {number}, to join", number=_NUMBER),
        Does.CUT: say("Piece {number}, to cut away", number=_NUMBER),
    }
    verbs = own_verbs()
    for does in Does:
        if does in verbs:
            named[does] = say("Piece {number}, to be {done}", number=_NUMBER, done=verbs[does].done)
    cloths = {("piece", does.value): text for does, text in named.items()}
    return {**cloths, ("piece", ""): say("Piece {number}", number=_NUMBER)}

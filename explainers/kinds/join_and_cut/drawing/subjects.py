"""What joining and cutting adds to the things that a figure may be about: the base and the pieces.

The roles of their cloth are open names: "base", and for a piece what becomes of it, "join" or "cut".
"""

from __future__ import annotations

from ....figure.subject import Subject
from ..model import BASE

__all__ = ["PIECE", "THE_BASE", "piece_subject"]

PIECE = "piece"
THE_BASE = Subject(thing=BASE)


def piece_subject(index: int) -> Subject:
    """A piece in a figure, counted from 0: by its number, since its name may say too much to a learner."""
    return Subject(thing=PIECE, name=str(index + 1))

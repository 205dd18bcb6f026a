"""Slips in words: what happens to which piece, what to practise, and the same in brief."""

from __future__ import annotations

from ....choice.slip import FLIPPED, SlipCase
from ....words.messages import say
from ....words.names import the_piece
from ..model import Does, Item
from .slip_messages import HAPPENINGS, KINDS, Happening, SlipWords

__all__ = ["MOST_WORDS", "filled_in", "happening", "in_brief", "known_slip", "practise"]


MOST_WORDS = 16  # a longer sentence is hard to listen to


def practise(case: SlipCase) -> str:
    """What to practise, for whoever keeps making this slip: one sentence for a teacher's marking sheet."""
    return say(known_slip(case.slip).practise)


def in_brief(case: SlipCase, item: Item | None = None) -> str:
    """The slip as a phrase for a table: "the flag turned the wrong way".

    item : names the other piece of a swap and what should become of the piece; without it they are told in general
    """
    if item is None and case.slip == "other-way-round":
        return say("{piece} on the wrong side of its mark", piece=_named(case))
    return say(happening(case, item).brief, **filled_in(case, item))


def happening(case: SlipCase, item: Item | None) -> Happening:
    """The slip in the form that fits what it happens to."""
    key = case.slip
    if key == "next-side":
        # A later piece's neighbouring side may be one that an earlier piece brought.
        key += " of the base" if _is_first(case, item) else " of the shape"
    elif key == "other-way-round" and item is not None:
        asked = next(piece.does for piece in item.pieces if piece.name == case.subject)  # the slip does the other
        key += ", cut" if asked is Does.JOIN else ", joined"
    if key not in HAPPENINGS:
        raise TypeError(f"no words are known for a slip called {key!r}")
    return HAPPENINGS[key]


def _is_first(case: SlipCase, item: Item | None) -> bool:
    return item is not None and bool(item.pieces) and item.pieces[0].name == case.subject


def filled_in(case: SlipCase, item: Item | None) -> dict[str, str]:
    if case.slip == FLIPPED:
        return {}
    filled = {"piece": _named(case)}
    if case.slip == "swapped":
        names = [piece.name for piece in item.pieces] if item is not None else []
        later = names[names.index(case.subject) + 1 :] if case.subject in names else []
        filled["other"] = the_piece(later[0]) if later else say("the piece after it")
    return filled


def _named(case: SlipCase) -> str:
    return the_piece(case.subject) if case.subject else say("the piece")


def known_slip(slip: str) -> SlipWords:
    if slip not in KINDS:
        raise TypeError(f"no words are known for a slip called {slip!r}")
    return KINDS[slip]

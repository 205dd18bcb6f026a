"""Slips in words: what gives an option, kindly and concretely, what to practise, and the same in brief."""

from __future__ import annotations

from collections.abc import Sequence

from ....choice.fact import said
from ....errors import FactError
from ....words.messages import say, say_as
from ....words.names import list_in_words, the_option, the_piece
from ..model import Does, Item
from ..slips.model import SlipCase
from ..slips.slip_fact import SlipFact
from .slip_messages import HAPPENINGS, KINDS, Happening, Kind

__all__ = ["FLIPPED", "did_in_words", "in_brief", "practise", "shared_slip", "slip_in_brief", "slip_words"]

FLIPPED = "flipped"  # the slip that happens to the finished outline, not to a piece

_MOST_WORDS = 16  # a longer sentence is hard to listen to


def slip_words(fact: SlipFact) -> tuple[str, ...]:
    """What gives the option: one sentence for a slip, one for each of a pair.

    Raises : FactError where the slip does not give the option
    """
    said(fact, (f"a slip gives {the_option(fact.label)}",))  # first, because the words lean on the pieces being there
    # Of a pair, what happens to the outline is told after what happens to a piece of it.
    cases = sorted(fact.cases, key=lambda case: case.slip == FLIPPED)
    first, *further = [(_happening(case, fact.item), _filled(case, fact.item)) for case in cases]
    within = say(first[0].within, label=fact.label, **first[1])
    if further:
        return (within, *(say(also.also, **filled) for also, filled in further))
    whole = say(first[0].when, label=fact.label, **first[1])
    if len(whole.split()) > _MOST_WORDS:  # a piece with a long name
        whole = within
    if cases[0].slip == FLIPPED:
        return (whole, say("No turn can undo a flip."))
    return (whole,)


def shared_slip(facts: Sequence[SlipFact]) -> str:
    """One sentence for options that come of the same slip, each of another piece: "In both, a piece is left out.".

    Raises : FactError where one of them does not hold, or their slips differ
    """
    for fact in facts:
        said(fact, (f"a slip gives {the_option(fact.label)}",))
    kinds = {case.slip for fact in facts for case in fact.cases}
    if len(kinds) != 1 or any(len(fact.cases) != 1 for fact in facts):
        labels = list_in_words([fact.label for fact in facts])
        raise FactError(f"options {labels} do not come of the same slip, but of {list_in_words(sorted(kinds))}")
    kind = _known(kinds.pop())
    return say(kind.in_both if len(facts) == 2 else kind.in_all)


def practise(case: SlipCase) -> str:
    """What to practise, for whoever keeps making this slip: one sentence for a teacher's marking sheet."""
    return say(_known(case.slip).practise)


def in_brief(case: SlipCase, item: Item | None = None) -> str:
    """The slip as a phrase for a table: "the flag turned the wrong way".

    item : names the other piece of a swap and what should become of the piece; without it they are told in general
    """
    if item is None and case.slip == "other-way-round":
        return say("{piece} on the wrong side of its mark", piece=_named(case))
    return say(_happening(case, item).brief, **_filled(case, item))


def did_in_words(fact: SlipFact) -> str:
    """What whoever chose the option probably did: "Probably turned the flag the wrong way.".

    Raises : FactError where the slip does not give the option
    """
    said(fact, (f"a slip gives {the_option(fact.label)}",))
    one, *other = (say_as(*_happening(case, fact.item).did, **_filled(case, fact.item)) for case in fact.cases)
    if other:
        return say("Probably {one}, and {other}.", one=one, other=other[0])
    return say("Probably {one}.", one=one)


def slip_in_brief(fact: SlipFact) -> str:
    """A slip, or a pair of them, as a phrase.

    Raises : FactError where it does not give the option
    """
    said(fact, (f"a slip gives {the_option(fact.label)}",))
    one, *other = (in_brief(case, fact.item) for case in fact.cases)
    return say("{one}, with {other}", one=one, other=other[0]) if other else one


def _happening(case: SlipCase, item: Item | None) -> Happening:
    """The slip in the form that fits what it happens to."""
    key = case.slip
    if key == "next-side":
        # A later piece's neighbouring side may be one that an earlier piece brought.
        key += " of the base" if _is_first(case, item) else " of the shape"
    elif key == "other-way-round" and item is not None:
        asked = next(piece.does for piece in item.pieces if piece.name == case.piece)  # the slip does the other
        key += ", cut" if asked is Does.JOIN else ", joined"
    if key not in HAPPENINGS:
        raise TypeError(f"no words are known for a slip called {key!r}")
    return HAPPENINGS[key]


def _is_first(case: SlipCase, item: Item | None) -> bool:
    return item is not None and bool(item.pieces) and item.pieces[0].name == case.piece


def _filled(case: SlipCase, item: Item | None) -> dict[str, str]:
    if case.slip == FLIPPED:
        return {}
    filled = {"piece": _named(case)}
    if case.slip == "swapped":
        names = [piece.name for piece in item.pieces] if item is not None else []
        later = names[names.index(case.piece) + 1 :] if case.piece in names else []
        filled["other"] = the_piece(later[0]) if later else say("the piece after it")
    return filled


def _named(case: SlipCase) -> str:
    return the_piece(case.piece) if case.piece else say("the piece")


def _known(slip: str) -> Kind:
    if slip not in KINDS:
        raise TypeError(f"no words are known for a slip called {slip!r}")
    return KINDS[slip]

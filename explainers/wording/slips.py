"""Slips in words: what gives an option, kindly and concretely, what to practise, and the same in brief."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..errors import FactError
from ..item.model import Does, Item
from ..solution.slips.model import SlipCase
from ..solution.slips.slip_fact import SlipFact
from .held import said
from .names import list_in_words, sentence_case, the_option, the_piece

__all__ = ["FLIPPED", "in_brief", "practise", "shared_slip", "slip_in_brief", "slip_words"]

FLIPPED = "flipped"  # the slip that happens to the finished outline, not to a piece

_MOST_WORDS = 16  # a longer sentence is hard to listen to


@dataclass(frozen=True, slots=True, kw_only=True)
class _Words:
    """One slip's words; braces stand for what the case fills in."""

    happens: str  # a clause: "option B is what you get when ..."
    brief: str  # a phrase for a table
    several: str  # the clause where it happens to one piece in one option, to another in another
    practise: str


# No blame: it is told what happens to a piece, never what somebody forgot or did wrongly.
_WORDS = {
    FLIPPED: _Words(
        happens="the outline is flipped over",
        brief="the outline flipped over",
        several="the outline is flipped over",
        practise="Practise telling a turned outline from a flipped one.",
    ),
    "piece-flipped": _Words(
        happens="{piece} is flipped before the marks meet",
        brief="{piece} flipped over",
        several="a piece is flipped before the marks meet",
        practise="Practise turning a piece while it stays flat on the table.",
    ),
    "not-turned": _Words(
        happens="{piece} slides into place without a turn",
        brief="{piece} not turned",
        several="a piece slides into place without a turn",
        practise="Practise turning a piece until both marked sides slant alike.",
    ),
    "turned-back": _Words(
        happens="{piece} is turned the wrong way",
        brief="{piece} turned the wrong way",
        several="a piece is turned the wrong way",
        practise="Practise turning a piece the shorter way round, clockwise or anticlockwise.",
    ),
    "next-side": _Words(
        happens="{piece} meets the next side of {partner}",
        brief="{piece} at the next side of {partner}",
        several="a piece meets the side after the marked one",
        practise="Practise finding the two sides that have the same mark.",
    ),
    "side-before": _Words(
        happens="{piece} meets the side before the marked one",
        brief="{piece} at the side before the marked one",
        several="a piece meets the side before the marked one",
        practise="Practise following the outline from a corner until you come to the mark.",
    ),
    "slid": _Words(
        happens="{piece} slides along the side, off its mark",
        brief="{piece} slid along the side, off its mark",
        several="a piece slides along the side, off its mark",
        practise="Practise sliding a piece until both ends of the marks meet.",
    ),
    "other-way-round": _Words(
        happens="{piece} is {done}, not {asked}",
        brief="{piece} {done}, not {asked}",
        several="a piece lies on the wrong side of its mark",
        practise="Practise laying a piece to join beside the mark, a piece to cut on top.",
    ),
    "left-out": _Words(
        happens="{piece} is left out",
        brief="{piece} left out",
        several="a piece is left out",
        practise="Practise ticking off each piece when it is done.",
    ),
    "too-large": _Words(
        happens="{piece} is too large",
        brief="{piece} too large",
        several="a piece is too large",
        practise="Practise checking that both marked sides are equally long.",
    ),
    "too-small": _Words(
        happens="{piece} is too small",
        brief="{piece} too small",
        several="a piece is too small",
        practise="Practise checking from one end of a mark to the other.",
    ),
    "swapped": _Words(
        happens="{piece} and {other} change places",
        brief="{piece} and {other} in each other's place",
        several="two pieces change places",
        practise="Practise finding each piece's own letter before it slides into place.",
    ),
}


def slip_words(fact: SlipFact) -> tuple[str, ...]:
    """What gives the option: one sentence for a slip, one for each of a pair.

    Raises : FactError where the slip does not give the option
    """
    said(fact, (f"a slip gives {the_option(fact.label)}",))  # first, because the words lean on the pieces being there
    # Of a pair, what happens to the outline is told after what happens to a piece of it.
    cases = sorted(fact.cases, key=lambda case: case.slip == FLIPPED)
    clauses = [_happens(case, fact.item) for case in cases]
    option = the_option(fact.label)
    if len(clauses) > 1:
        return (f"In {option}, {clauses[0]}.", *(f"Also, {clause}." for clause in clauses[1:]))
    whole = f"{sentence_case(option)} is what you get when {clauses[0]}."
    if len(whole.split()) > _MOST_WORDS:  # a piece with a long name
        whole = f"In {option}, {clauses[0]}."
    if cases[0].slip == FLIPPED:
        return (whole, "No turn can undo a flip.")
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
    among = "both" if len(facts) == 2 else "all of them"
    return f"In {among}, {_known(kinds.pop()).several}."


def practise(case: SlipCase) -> str:
    """What to practise, for whoever keeps making this slip: one sentence for a teacher's marking sheet."""
    return _known(case.slip).practise


def in_brief(case: SlipCase, item: Item | None = None) -> str:
    """The slip as a phrase for a table: "the flag turned the wrong way".

    item : names the other piece of a swap and what should become of the piece; without it they are told in general
    """
    words = _known(case.slip)
    if item is None and case.slip == "other-way-round":
        return f"{_named(case)} on the wrong side of its mark"
    return words.brief.format(**_filled(case, item))


def slip_in_brief(fact: SlipFact) -> str:
    """A slip, or a pair of them, as a phrase.

    Raises : FactError where it does not give the option
    """
    said(fact, (f"a slip gives {the_option(fact.label)}",))
    return ", with ".join(in_brief(case, fact.item) for case in fact.cases)


def _happens(case: SlipCase, item: Item) -> str:
    return _known(case.slip).happens.format(**_filled(case, item))


def _filled(case: SlipCase, item: Item | None) -> dict[str, str]:
    if case.slip == FLIPPED:
        return {}
    filled = {
        "piece": _named(case),
        "partner": "the shape",
        "other": "the piece after it",
        "done": "on the wrong side",
        "asked": "on the right one",
    }
    if item is None or case.piece is None:
        return filled
    names = [piece.name for piece in item.pieces]
    index = names.index(case.piece)
    asked = item.pieces[index].does  # the slip does the other
    filled["done"], filled["asked"] = ("cut away", "joined") if asked is Does.JOIN else ("joined", "cut away")
    if index == 0:
        filled["partner"] = "the base"  # a later piece's neighbouring side may be one that an earlier piece brought
    if index + 1 < len(names):
        filled["other"] = the_piece(names[index + 1])
    return filled


def _named(case: SlipCase) -> str:
    return the_piece(case.piece) if case.piece else "the piece"


def _known(slip: str) -> _Words:
    if slip not in _WORDS:
        raise TypeError(f"no words are known for a slip called {slip!r}")
    return _WORDS[slip]

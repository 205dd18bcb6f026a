"""Slips in words: what happens to which piece, how it is told, what to practise, and the same in brief."""

from __future__ import annotations

from dataclasses import dataclass

from ....choice.slip import FLIPPED, SlipCase
from ....words.messages import message, message_as, say
from ....words.names import the_piece
from ..model import Does, Item
from .own_verbs import say_action

__all__ = [
    "HAPPENINGS",
    "KINDS",
    "Happening",
    "SlipWords",
    "filled_in",
    "happening",
    "in_brief",
    "known_slip",
    "practise",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Happening:
    """One slip in one form; placeholders: label, piece, other (of a swap)."""

    within: str  # it happens in an option
    also: str  # it happens besides another slip
    brief: str  # a phrase for a table
    did: tuple[str, str]  # the same for a teacher, of whoever chose the option: after "probably"
    did_at_hole: tuple[str, str] | None = None  # where the marked side is one of a hole


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipWords:
    """One slip, to whatever piece it happens."""

    practise: str


# By the slip's name, and by what it is done to where that is told differently.
HAPPENINGS = {
    "flipped": Happening(
        within=message("In option {label}, the outline is flipped over."),
        also=message("Also, the outline is flipped over."),
        brief=message("the outline flipped over"),
        did=message_as("probably", "flipped the finished outline over"),
    ),
    "piece-flipped": Happening(
        within=message("In option {label}, {piece} is flipped before the marks meet."),
        also=message("Also, {piece} is flipped before the marks meet."),
        brief=message("{piece} flipped over"),
        did=message_as("probably", "flipped {piece} over"),
    ),
    "not-turned": Happening(
        within=message("In option {label}, {piece} slides into place without a turn."),
        also=message("Also, {piece} slides into place without a turn."),
        brief=message("{piece} not turned"),
        did=message_as("probably", "slid {piece} into place without turning it"),
    ),
    "turned-back": Happening(
        within=message("In option {label}, {piece} is turned the wrong way."),
        also=message("Also, {piece} is turned the wrong way."),
        brief=message("{piece} turned the wrong way"),
        did=message_as("probably", "turned {piece} the wrong way"),
    ),
    "next-side of the base": Happening(
        within=message("In option {label}, {piece} meets the next side of the base."),
        also=message("Also, {piece} meets the next side of the base."),
        brief=message("{piece} at the next side of the base"),
        did=message_as("probably", "took {piece} to the next side of the base, anticlockwise from the marked one"),
        did_at_hole=message_as("probably", "took {piece} to the next side of the hole, clockwise from the marked one"),
    ),
    "next-side of the shape": Happening(
        within=message("In option {label}, {piece} meets the next side of the shape."),
        also=message("Also, {piece} meets the next side of the shape."),
        brief=message("{piece} at the next side of the shape"),
        did=message_as("probably", "took {piece} to the next side of the shape, anticlockwise from the marked one"),
        did_at_hole=message_as("probably", "took {piece} to the next side of the hole, clockwise from the marked one"),
    ),
    "side-before": Happening(
        within=message("In option {label}, {piece} meets the side before the marked one."),
        also=message("Also, {piece} meets the side before the marked one."),
        brief=message("{piece} at the side before the marked one"),
        did=message_as("probably", "took {piece} to the side before the marked one, clockwise from it"),
        did_at_hole=message_as(
            "probably", "took {piece} to the side before the marked one, anticlockwise round the hole"
        ),
    ),
    "slid": Happening(
        within=message("In option {label}, {piece} slides along the side, off its mark."),
        also=message("Also, {piece} slides along the side, off its mark."),
        brief=message("{piece} slid along the side, off its mark"),
        did=message_as("probably", "slid {piece} along the side, off its mark"),
    ),
    "other-way-round, cut": Happening(
        within=message("In option {label}, {piece} is cut away, not joined."),
        also=message("Also, {piece} is cut away, not joined."),
        brief=message("{piece} cut away, not joined"),
        did=message_as("probably", "cut away {piece}, which should be joined"),
    ),
    "other-way-round, joined": Happening(
        within=message("In option {label}, {piece} is joined, not cut away."),
        also=message("Also, {piece} is joined, not cut away."),
        brief=message("{piece} joined, not cut away"),
        did=message_as("probably", "joined {piece}, which should be cut away"),
    ),
    "left-out": Happening(
        within=message("In option {label}, {piece} is left out."),
        also=message("Also, {piece} is left out."),
        brief=message("{piece} left out"),
        did=message_as("probably", "left {piece} out"),
    ),
    "too-large": Happening(
        within=message("In option {label}, {piece} is too large."),
        also=message("Also, {piece} is too large."),
        brief=message("{piece} too large"),
        did=message_as("probably", "took {piece} too large"),
    ),
    "too-small": Happening(
        within=message("In option {label}, {piece} is too small."),
        also=message("Also, {piece} is too small."),
        brief=message("{piece} too small"),
        did=message_as("probably", "took {piece} too small"),
    ),
    "swapped": Happening(
        within=message("In option {label}, {piece} and {other} change places."),
        also=message("Also, {piece} and {other} change places."),
        brief=message("{piece} and {other} in each other's place"),
        did=message_as("probably", "let {piece} and {other} change places"),
    ),
}

KINDS = {
    "flipped": SlipWords(
        practise=message("Practise telling a turned outline from a flipped one."),
    ),
    "piece-flipped": SlipWords(
        practise=message("Practise turning a piece while it stays flat on the table."),
    ),
    "not-turned": SlipWords(
        practise=message("Practise turning a piece until both marked sides slant alike."),
    ),
    "turned-back": SlipWords(
        practise=message("Practise turning a piece the shorter way round, clockwise or anticlockwise."),
    ),
    "next-side": SlipWords(
        practise=message("Practise finding the two sides that have the same mark."),
    ),
    "side-before": SlipWords(
        practise=message("Practise following the outline from a corner until you come to the mark."),
    ),
    "slid": SlipWords(
        practise=message("Practise sliding a piece until both ends of the marks meet."),
    ),
    "other-way-round": SlipWords(
        practise=message("Practise laying a piece to join beside the mark, a piece to cut on top."),
    ),
    "left-out": SlipWords(
        practise=message("Practise ticking off each piece when it is done."),
    ),
    "too-large": SlipWords(
        practise=message("Practise checking that both marked sides are equally long."),
    ),
    "too-small": SlipWords(
        practise=message("Practise checking from one end of a mark to the other."),
    ),
    "swapped": SlipWords(
        practise=message("Practise finding each piece's own letter before it slides into place."),
    ),
}


def practise(case: SlipCase) -> str:
    """What to practise, for whoever keeps making this slip: one sentence for a teacher's marking sheet."""
    return say_action(known_slip(case.slip).practise)


def in_brief(case: SlipCase, item: Item | None = None) -> str:
    """The slip as a phrase for a table: "the flag turned the wrong way".

    item : names the other piece of a swap and what should become of the piece; without it they are told in general
    """
    if item is None and case.slip == "other-way-round":
        return say("{piece} on the wrong side of its mark", piece=_named(case))
    return say_action(happening(case, item).brief, **filled_in(case, item))


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

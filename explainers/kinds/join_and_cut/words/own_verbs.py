"""Sentences about joining and cutting with a theme's own verbs in them: "Glue on the flag." for "Join the flag."

Each usual sentence has another one beside it, whole in every language, that leaves room for the verbs: {join} and
{cut} as in a request, {join_done} and {cut_done} as after "is". A theme with the usual verbs never meets them.
"""

from __future__ import annotations

from ....style import Verb
from ....words.messages import message, message_as, own_verbs, say, say_as
from ....words.names import sentence_case

__all__ = ["say_action", "say_action_as", "verb_forms", "with_own_verbs"]

_USUAL = {
    "join": (message_as("a verb", "join"), message_as("a verb, done", "joined")),
    "cut": (message_as("a verb", "cut away"), message_as("a verb, done", "cut away")),
}

_BESIDE = {
    # task
    "Cut {piece} away where {marks} meet.": message("{cut} {piece} where {marks} meet."),
    "First, cut {piece} away where {marks} meet.": message("First, {cut} {piece} where {marks} meet."),
    "Then cut {piece} away where {marks} meet.": message("Then {cut} {piece} where {marks} meet."),
    "Last, cut {piece} away where {marks} meet.": message("Last, {cut} {piece} where {marks} meet."),
    "Cut away {piece} where {marks} meet.": message("{cut} {piece} where {marks} meet."),
    "First, cut away {piece} where {marks} meet.": message("First, {cut} {piece} where {marks} meet."),
    "Then cut away {piece} where {marks} meet.": message("Then {cut} {piece} where {marks} meet."),
    "Last, cut away {piece} where {marks} meet.": message("Last, {cut} {piece} where {marks} meet."),
    "Cut away {piece} where {marks} meet on {partner}.": message("{cut} {piece} where {marks} meet on {partner}."),
    "First, cut away {piece} where {marks} meet on {partner}.": message(
        "First, {cut} {piece} where {marks} meet on {partner}."
    ),
    "Then cut away {piece} where {marks} meet on {partner}.": message(
        "Then {cut} {piece} where {marks} meet on {partner}."
    ),
    "Last, cut away {piece} where {marks} meet on {partner}.": message(
        "Last, {cut} {piece} where {marks} meet on {partner}."
    ),
    "Join {piece} to the base where {marks} meet.": message("{join} {piece} where it meets the base, at {marks}."),
    "First, join {piece} to the base where {marks} meet.": message(
        "First, {join} {piece} where it meets the base, at {marks}."
    ),
    "Then join {piece} to the base where {marks} meet.": message(
        "Then {join} {piece} where it meets the base, at {marks}."
    ),
    "Last, join {piece} to the base where {marks} meet.": message(
        "Last, {join} {piece} where it meets the base, at {marks}."
    ),
    "Join {piece} to {partner} where {marks} meet.": message("{join} {piece} where it meets {partner}, at {marks}."),
    "First, join {piece} to {partner} where {marks} meet.": message(
        "First, {join} {piece} where it meets {partner}, at {marks}."
    ),
    "Then join {piece} to {partner} where {marks} meet.": message(
        "Then {join} {piece} where it meets {partner}, at {marks}."
    ),
    "Last, join {piece} to {partner} where {marks} meet.": message(
        "Last, {join} {piece} where it meets {partner}, at {marks}."
    ),
    # framing
    "Join and cut": message("{join} and {cut}"),
    "Pieces are joined to a base, or cut away, where their marks meet.": message(
        "Pieces are {join_done} or {cut_done} where their marks meet."
    ),
    "Pieces are joined to a base where their marks meet.": message("Pieces are {join_done} where their marks meet."),
    "Pieces are cut away from a base where their marks meet.": message("Pieces are {cut_done} where their marks meet."),
    "Join the piece": message("{join} the piece"),
    "Cut the piece away": message("{cut} the piece"),
    "Join {piece}": message("{join} {piece}"),
    "Cut {piece} away": message("{cut} {piece}"),
    # each piece
    "Join {piece}.": message("{join} {piece}."),
    "Cut {piece} away.": message("{cut} {piece}."),
    "It lies on top, ready to be cut away.": message("It lies on top, ready to be {cut_done}."),
    "They lie side by side, ready to be joined.": message("They lie side by side, ready to be {join_done}."),
    # hints
    "It will be cut away, so think of it on top of the shape.": message(
        "It will be {cut_done}, so think of it on top of the shape."
    ),
    "It will be joined, so think of it next to the shape.": message(
        "It will be {join_done}, so think of it next to the shape."
    ),
    "A piece to cut away lies on top of the shape.": message("A piece to be {cut_done} lies on top of the shape."),
    "A piece to join lies beside the shape.": message("A piece to be {join_done} lies beside the shape."),
    # in lists of shapes
    "Piece {number}, to join": message("Piece {number}, to be {join_done}"),
    "Piece {number}, to cut away": message("Piece {number}, to be {cut_done}"),
    # to remember
    "A cut leaves its own shape": message("What is {cut_done} leaves a gap"),
    "A cut leaves its own shape as a gap.": message("What is {cut_done} leaves its own shape as a gap."),
    "A join hides two sides": message("Two sides are gone"),
    "When two sides are joined, both are gone from the outline.": message(
        "When two sides are {join_done}, both are gone from the outline."
    ),
    "Here look at the side where {piece} was joined.": message("Here look at the side where {piece} was {join_done}."),
    "The side where they were joined stands out.": message("The side where they were {join_done} stands out."),
    # pictures
    "{piece}, a piece to cut away.": message("{piece}, a piece to be {cut_done}."),
    "{piece}, a piece to join.": message("{piece}, a piece to be {join_done}."),
    "{piece} is cut away.": message("{piece} is {cut_done}."),
    "{piece} is joined.": message("{piece} is {join_done}."),
    # slips
    "In option {label}, {piece} is cut away, not joined.": message(
        "In option {label}, {piece} is {cut_done}, not {join_done}."
    ),
    "In option {label}, {piece} is joined, not cut away.": message(
        "In option {label}, {piece} is {join_done}, not {cut_done}."
    ),
    "Also, {piece} is cut away, not joined.": message("Also, {piece} is {cut_done}, not {join_done}."),
    "Also, {piece} is joined, not cut away.": message("Also, {piece} is {join_done}, not {cut_done}."),
    "{piece} cut away, not joined": message("{piece} {cut_done}, not {join_done}"),
    "{piece} joined, not cut away": message("{piece} {join_done}, not {cut_done}"),
    "Practise laying a piece to join beside the mark, a piece to cut on top.": message(
        "Practise laying a piece to be {join_done} beside the mark, a piece to be {cut_done} on top."
    ),
}
_BESIDE_AS = {
    message_as("probably", "cut away {piece}, which should be joined"): message_as(
        "probably", "took {piece} as one to be {cut_done}, not {join_done}"
    ),
    message_as("probably", "joined {piece}, which should be cut away"): message_as(
        "probably", "took {piece} as one to be {join_done}, not {cut_done}"
    ),
}


def say_action(text: str, /, **filled: object) -> str:
    """A usual message, or the one beside it where the theme has a verb of its own."""
    if not own_verbs():
        return say(text, **filled)
    said = say(with_own_verbs(text), **verb_forms(), **filled)
    return sentence_case(said) if text[0].isupper() else said


def say_action_as(context: str, text: str, /, **filled: object) -> str:
    """A usual message that means something of its own in a context, or the one beside it."""
    if not own_verbs():
        return say_as(context, text, **filled)
    return say_as(context, with_own_verbs(text, context), **verb_forms(), **filled)


def with_own_verbs(text: str, context: str = "") -> str:
    """The message beside a usual one, in the same context; the same where it says nothing of joining and cutting."""
    return _BESIDE_AS.get((context, text), ("", text))[1] if context else _BESIDE.get(text, text)


def verb_forms() -> dict[str, str]:
    """What fills the room for verbs: the theme's own, or the usual ones in the language that is spoken."""
    forms: dict[str, str] = {}
    for name, (plain, done) in _USUAL.items():
        verb = own_verbs().get(name) or Verb(plain=say_as(*plain), done=say_as(*done))
        forms |= {name: verb.plain, f"{name}_done": verb.done}
    return forms

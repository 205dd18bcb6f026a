"""What is asked: the question read out, the close look that opens the solution."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ....choice.fact import verified
from ....choice.words.task import drawn_sizes
from ....words.mark_names import the_marks
from ....words.messages import message, once, own_verbs, say, say_count, say_count_as
from ....words.names import list_in_words, number_in_words, the_piece
from ..facts.piece import PieceFact
from ..model import BASE, Does
from .own_verbs import say_action, verb_forms

__all__ = ["close_up", "task"]

_PIECES_AT_A_GLANCE = 2  # of more it is said first how many there are
_WHAT_MARKS_SHOW = "what marks show"
_SHORT_NAME = 24  # letters of a name that may stand inside "cut ... away"


def task(facts: Sequence[PieceFact], *, sizes_differ: bool = False, drawn_smaller: bool = False) -> tuple[str, ...]:
    """The question: what there is, what to do with each piece, what to look for. It answers nothing.

    facts         : one for each piece, in order
    sizes_differ  : whether an option is drawn to another scale than the others
    drawn_smaller : whether all are drawn smaller than base and pieces
    """
    sentences = [*_what_there_is(facts)]
    for number, fact in enumerate(facts):
        sentences += verified(fact, (_what_to_do(fact, number, len(facts)),))
    sentences += [say("Pieces and options may turn, but never flip.")]
    if drawn_smaller and not sizes_differ:
        return (*sentences, say("Which option shows the finished outline, drawn smaller?"))
    return (*sentences, *drawn_sizes(sizes_differ), say("Which option shows the finished outline?"))


def close_up(facts: Sequence[PieceFact], *, tried: bool = False) -> tuple[str, ...]:
    """The base and the pieces are looked at closely.

    tried : whether learners have tried the question before, so that they know what there is
    """
    if tried:
        look = once(say("The marks show which sides must meet."), _WHAT_MARKS_SHOW)
    else:
        look = once(
            say("Look closely: the marks show which sides must meet."), _WHAT_MARKS_SHOW, later=say("Look closely.")
        )
    for fact in facts:
        verified(fact, [look])
    return (look,)


def _what_there_is(facts: Sequence[PieceFact]) -> tuple[str, ...]:
    """How many pieces there are, where what to do with each does not show it at once."""
    if len(facts) <= _PIECES_AT_A_GLANCE:
        return ()
    joins = sum(fact.piece.does is Does.JOIN for fact in facts)
    cuts = sum(fact.piece.does is Does.CUT for fact in facts)
    if own_verbs():
        return tuple(_what_there_is_in_own_verbs(joins, cuts))
    parts = []
    if joins:
        number = number_in_words(joins)
        parts.append(say_count_as("a base, with", "one piece to join", "{number} pieces to join", joins, number=number))
    if cuts:
        number = number_in_words(cuts)
        parts.append(
            say_count_as("a base, with", "one piece to cut away", "{number} pieces to cut away", cuts, number=number)
        )
    return (say("Here is a base, with {pieces}.", pieces=list_in_words(parts)),)


def _what_there_is_in_own_verbs(joins: int, cuts: int) -> Iterator[str]:
    """A sentence a sort of piece: two clauses with a verb at their ends would make one that is hard to follow."""
    forms = verb_forms()
    if joins:
        yield say_count(
            "Here is a base, with one piece to be {join_done}.",
            "Here is a base, with {number} pieces to be {join_done}.",
            joins,
            number=number_in_words(joins),
            **forms,
        )
    if cuts and not joins:
        yield say_count(
            "Here is a base, with one piece to be {cut_done}.",
            "Here is a base, with {number} pieces to be {cut_done}.",
            cuts,
            number=number_in_words(cuts),
            **forms,
        )
    elif cuts:
        yield say_count(
            "There is also one piece to be {cut_done}.",
            "There are also {number} pieces to be {cut_done}.",
            cuts,
            number=number_in_words(cuts),
            **forms,
        )


# What to do with a piece that is the only one, the first, one in between, the last of several.
_CUT = (
    message("Cut {piece} away where {marks} meet."),
    message("First, cut {piece} away where {marks} meet."),
    message("Then cut {piece} away where {marks} meet."),
    message("Last, cut {piece} away where {marks} meet."),
)
_CUT_LONG = (
    message("Cut away {piece} where {marks} meet."),
    message("First, cut away {piece} where {marks} meet."),
    message("Then cut away {piece} where {marks} meet."),
    message("Last, cut away {piece} where {marks} meet."),
)
_CUT_ON = (
    message("Cut away {piece} where {marks} meet on {partner}."),
    message("First, cut away {piece} where {marks} meet on {partner}."),
    message("Then cut away {piece} where {marks} meet on {partner}."),
    message("Last, cut away {piece} where {marks} meet on {partner}."),
)
_JOIN = (
    message("Join {piece} to the base where {marks} meet."),
    message("First, join {piece} to the base where {marks} meet."),
    message("Then join {piece} to the base where {marks} meet."),
    message("Last, join {piece} to the base where {marks} meet."),
)
_JOIN_TO = (
    message("Join {piece} to {partner} where {marks} meet."),
    message("First, join {piece} to {partner} where {marks} meet."),
    message("Then join {piece} to {partner} where {marks} meet."),
    message("Last, join {piece} to {partner} where {marks} meet."),
)


def _what_to_do(fact: PieceFact, number: int, count: int) -> str:
    piece = fact.piece
    place = 0 if count == 1 else 1 if number == 0 else 2 if number < count - 1 or count == 2 else 3
    name = the_piece(piece.name)
    if piece.does is Does.CUT and piece.of != BASE:
        # Not "away from" it: what lies beside it may be cut into as well.
        return say_action(_CUT_ON[place], piece=name, partner=the_piece(piece.of), marks=the_marks(piece.mark))
    if piece.does is Does.CUT:
        asked = _CUT if len(name) <= _SHORT_NAME else _CUT_LONG
        return say_action(asked[place], piece=name, marks=the_marks(piece.mark))
    if piece.of == BASE:
        return say_action(_JOIN[place], piece=name, marks=the_marks(piece.mark))
    return say_action(_JOIN_TO[place], piece=name, partner=the_piece(piece.of), marks=the_marks(piece.mark))

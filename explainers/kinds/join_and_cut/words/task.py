"""What is asked: the question read out, the learner's own turn, the close look that opens the solution."""

from __future__ import annotations

from collections.abc import Sequence

from ....choice.fact import said
from ....words.messages import message, say, say_as, say_count, say_count_as
from ....words.names import list_in_words, number_in_words, the_piece
from ..facts.piece import PieceFact
from ..model import BASE, Does

__all__ = ["check", "close_up", "compare", "pause_over", "recall", "task", "try_one_by_one", "your_turn"]

_PIECES_BY_NAME = 2  # more than this many names in one sentence are too long to listen to
_SHORT_NAME = 24  # letters of a name that may stand inside "cut ... away"


def task(facts: Sequence[PieceFact], *, sizes_differ: bool = False) -> tuple[str, ...]:
    """The question: what there is, what to do with each piece, what to look for. It answers nothing.

    facts        : one for each piece, in order
    sizes_differ : whether an option is drawn to another scale than the others
    """
    sentences = [_what_there_is(facts)]
    for number, fact in enumerate(facts):
        sentences += said(fact, (_what_to_do(fact, number, len(facts)),))
    sentences += [say("You may turn pieces and options, but never flip them.")]
    return (*sentences, *_sizes(sizes_differ), say("Which option shows the finished outline?"))


def your_turn(pause_s: float) -> tuple[str, ...]:
    """The learner is asked to try, with the time there is; no time is named where there is none."""
    sentences = (say("Now it is your turn."), say("Choose one option, and say why."))
    return sentences if pause_s <= 0 else (*sentences, _take(pause_s))


def recall() -> tuple[str, ...]:
    """The sheet of a question that learners have tried already, or see solved at once."""
    return (
        say("This is the question."),
        say("Which option shows the finished outline?"),
        say("We work it out together."),
    )


def check(*, sizes_differ: bool = False) -> tuple[str, ...]:
    """The question of a quick check: a finished outline and the options, no pieces. It answers nothing.

    sizes_differ : whether an option is drawn to another scale than the others
    """
    return (
        say("Here is a finished outline, with options beside it."),
        say("You may turn options, but never flip them."),
        *_sizes(sizes_differ),
        say("Which option shows this outline?"),
    )


def compare() -> tuple[str, ...]:
    """The end of a question without its solution."""
    return (say("Which option did you choose?"), say("Tell someone, and say why."))


def try_one_by_one() -> tuple[str, ...]:
    """The pause of a quick check has ended."""
    return (*pause_over(), say("Let us try the options one by one."))


def pause_over() -> tuple[str, ...]:
    """The pause has ended."""
    return (say("Now let us work it out together."),)


def close_up(facts: Sequence[PieceFact]) -> tuple[str, ...]:
    """The base and the pieces are looked at closely."""
    count = len(facts)
    if count <= _PIECES_BY_NAME:
        things = [say_as("looked at", "the base"), *(the_piece(fact.piece.name) for fact in facts)]
        look = say("Let us look closely at {things}.", things=list_in_words(things))
    else:
        look = say_count(
            "Let us look closely at the base and its one piece.",
            "Let us look closely at the base and its {number} pieces.",
            count,
            number=number_in_words(count),
        )
    for fact in facts:
        said(fact, [look])
    return (look, say("The marks show which sides must meet."))


def _sizes(differ: bool) -> list[str]:
    return [say("An option may be drawn larger or smaller.")] if differ else []


def _what_there_is(facts: Sequence[PieceFact]) -> str:
    joins = sum(fact.piece.does is Does.JOIN for fact in facts)
    cuts = sum(fact.piece.does is Does.CUT for fact in facts)
    parts = []
    if joins:
        number = number_in_words(joins)
        parts.append(say_count_as("a base, with", "one piece to join", "{number} pieces to join", joins, number=number))
    if cuts:
        number = number_in_words(cuts)
        parts.append(
            say_count_as("a base, with", "one piece to cut away", "{number} pieces to cut away", cuts, number=number)
        )
    return say("Here is a base, with {pieces}.", pieces=list_in_words(parts))


# What to do with a piece that is the only one, the first, one in between, the last of several.
_CUT = (
    message("Cut {piece} away where the marks {mark} meet."),
    message("First, cut {piece} away where the marks {mark} meet."),
    message("Then cut {piece} away where the marks {mark} meet."),
    message("Last, cut {piece} away where the marks {mark} meet."),
)
_CUT_LONG = (
    message("Cut away {piece} where the marks {mark} meet."),
    message("First, cut away {piece} where the marks {mark} meet."),
    message("Then cut away {piece} where the marks {mark} meet."),
    message("Last, cut away {piece} where the marks {mark} meet."),
)
_JOIN = (
    message("Join {piece} where the marks {mark} meet."),
    message("First, join {piece} where the marks {mark} meet."),
    message("Then join {piece} where the marks {mark} meet."),
    message("Last, join {piece} where the marks {mark} meet."),
)
_JOIN_TO = (
    message("Join {piece} to {partner} where the marks {mark} meet."),
    message("First, join {piece} to {partner} where the marks {mark} meet."),
    message("Then join {piece} to {partner} where the marks {mark} meet."),
    message("Last, join {piece} to {partner} where the marks {mark} meet."),
)


def _what_to_do(fact: PieceFact, number: int, count: int) -> str:
    piece = fact.piece
    place = 0 if count == 1 else 1 if number == 0 else 2 if number < count - 1 or count == 2 else 3
    name = the_piece(piece.name)
    if piece.does is Does.CUT:
        asked = _CUT if len(name) <= _SHORT_NAME else _CUT_LONG
        return say(asked[place], piece=name, mark=piece.mark)
    if piece.of == BASE:
        return say(_JOIN[place], piece=name, mark=piece.mark)
    return say(_JOIN_TO[place], piece=name, partner=the_piece(piece.of), mark=piece.mark)


def _take(seconds: float) -> str:
    """The time there is, in whole seconds, or in minutes where it is a half or whole one."""
    whole = max(1, round(seconds))
    if whole < 60 or whole % 30:
        return say_count("Take about {count} second.", "Take about {count} seconds.", whole)
    minutes, half = divmod(whole, 60)
    if half:
        return say_count("Take about {count} and a half minutes.", "Take about {count} and a half minutes.", minutes)
    return say_count("Take about {count} minute.", "Take about {count} minutes.", minutes)

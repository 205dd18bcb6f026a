"""What is asked: the question read out, the learner's own turn, the close look that opens the solution."""

from __future__ import annotations

from collections.abc import Sequence

from ..item.model import BASE, Does
from ..solution.facts import PieceFact
from .held import said
from .names import count_in_words, list_in_words, number_of, sentence_case, the_piece

__all__ = ["check", "close_up", "compare", "pause_over", "recall", "task", "try_one_by_one", "your_turn"]

_PIECES_BY_NAME = 2  # more than this many names in one sentence are too long to listen to


def task(facts: Sequence[PieceFact], *, sizes_differ: bool = False) -> tuple[str, ...]:
    """The question: what there is, what to do with each piece, what to look for. It answers nothing.

    facts        : one for each piece, in order
    sizes_differ : whether an option is drawn to another scale than the others
    """
    sentences = [_what_there_is(facts)]
    for number, fact in enumerate(facts):
        sentences += said(fact, (_what_to_do(fact, number, len(facts)),))
    sentences += ["You may turn pieces and options, but never flip them."]
    if sizes_differ:
        sentences += ["An option may be drawn larger or smaller."]
    return (*sentences, "Which option shows the finished outline?")


def your_turn(pause_s: float) -> tuple[str, ...]:
    """The learner is asked to try, with the time there is; no time is named where there is none."""
    sentences = ("Now it is your turn.", "Choose one option, and say why.")
    return sentences if pause_s <= 0 else (*sentences, f"Take about {_time_in_words(pause_s)}.")


def recall() -> tuple[str, ...]:
    """The sheet of a question that learners have tried already, or see solved at once."""
    return ("This is the question.", "Which option shows the finished outline?", "We work it out together.")


def check(*, sizes_differ: bool = False) -> tuple[str, ...]:
    """The question of a quick check: a finished outline and the options, no pieces. It answers nothing.

    sizes_differ : whether an option is drawn to another scale than the others
    """
    sentences = ["Here is a finished outline, with options beside it.", "You may turn options, but never flip them."]
    if sizes_differ:
        sentences += ["An option may be drawn larger or smaller."]
    return (*sentences, "Which option shows this outline?")


def compare() -> tuple[str, ...]:
    """The end of a question without its solution."""
    return ("Which option did you choose?", "Tell someone, and say why.")


def try_one_by_one() -> tuple[str, ...]:
    """The pause of a quick check has ended."""
    return (*pause_over(), "Let us try the options one by one.")


def pause_over() -> tuple[str, ...]:
    """The pause has ended."""
    return ("Now let us work it out together.",)


def close_up(facts: Sequence[PieceFact]) -> tuple[str, ...]:
    """The base and the pieces are looked at closely."""
    if len(facts) <= _PIECES_BY_NAME:
        seen = list_in_words(["the base", *(the_piece(fact.piece.name) for fact in facts)])
    else:
        seen = f"the base and its {count_in_words(len(facts), 'piece')}"
    sentences = [f"Let us look closely at {seen}."]
    for fact in facts:
        said(fact, sentences)
    return (*sentences, "The marks show which sides must meet.")


def _what_there_is(facts: Sequence[PieceFact]) -> str:
    parts = []
    for does, doing in ((Does.JOIN, "to join"), (Does.CUT, "to cut away")):
        count = sum(fact.piece.does is does for fact in facts)
        if count:
            parts.append(f"{count_in_words(count, 'piece')} {doing}")
    return f"Here is a base, with {list_in_words(parts)}."


def _what_to_do(fact: PieceFact, number: int, count: int) -> str:
    piece = fact.piece
    first = (
        "" if count == 1 else "first, " if number == 0 else "then " if number < count - 1 or count == 2 else "last, "
    )
    name = the_piece(piece.name)
    if piece.does is Does.CUT:
        away = f"cut {name} away" if len(name) <= 24 else f"cut away {name}"
        return sentence_case(f"{first}{away} where the marks {piece.mark} meet.")
    to = f" to {the_piece(piece.of)}" if piece.of != BASE else ""
    return sentence_case(f"{first}join {name}{to} where the marks {piece.mark} meet.")


def _time_in_words(seconds: float) -> str:
    whole = max(1, round(seconds))
    if whole < 60 or whole % 30:
        return number_of(whole, "second")
    minutes, half = divmod(whole, 60)
    if half:
        return f"{minutes} and a half minutes"
    return number_of(minutes, "minute")

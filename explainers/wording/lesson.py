"""The frame around the questions: opening, closing, chapter titles, headings.

Headings and chapter titles are read before the solution too, so none of them says which option fits.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from ..item.model import Manner
from .names import count_in_words, sentence_case, the_piece

__all__ = ["HEADING_LENGTH", "Chapter", "Heading", "chapter", "closing", "heading", "opening", "what_happens"]

HEADING_LENGTH = 34  # letters of the stage's heading line; a longer one gives way to a shorter form

_TITLE_WORDS = 10  # a longer title is not read out: it would be too long a sentence


class Heading(StrEnum):
    """Which step a heading stands over; the value is its plain form, used where a name would make it too long."""

    TITLE = "Join and cut"
    QUESTION = "The question"
    YOUR_TURN = "Your turn"
    CHECK = "A quick check"
    TOGETHER = "Now together"
    STOP = "Stop and think"
    CLOSE_UP = "The base and the pieces"
    MARKS = "Find the marks"
    TURN = "Turn the piece"
    NO_TURN = "No turn needed"
    MEET = "The marks meet"
    JOIN = "Join the piece"
    CUT = "Cut the piece away"
    OUTLINE = "The finished outline"
    SHOWN_TURNED = "The same outline, turned"
    OPTIONS = "The options"
    OPTION = "Option"
    ANSWER = "The answer"
    REMEMBER = "Remember"
    CLOSING = "To end with"


class Chapter(StrEnum):
    """Which part of the telling of one question a chapter is."""

    OPENING = "Opening"
    QUESTION = "The question"
    YOUR_TURN = "Your turn"
    PIECES = "The pieces"
    OUTLINE = "The outline"
    OPTIONS = "The options"
    ANSWER = "The answer"
    REMEMBER = "Remember"
    CLOSING = "Closing"


def heading(kind: Heading, *, name: str = "", mark: str = "", label: str = "", title: str = "") -> str:
    """The line at the top of the stage: at most ``HEADING_LENGTH`` letters, unless it is the teacher's own title.

    name : the piece's, for MARKS, TURN, NO_TURN, MEET, JOIN and CUT;  mark : its mark, for MARKS and MEET
    label : the option's, for OPTION and ANSWER;  title : the lesson's or item's, for TITLE
    """
    for longer in _longer_headings(kind, name=name, mark=mark, label=label, title=title):
        if len(longer) <= HEADING_LENGTH or kind is Heading.TITLE:
            return longer
    return kind.value


def _longer_headings(kind: Heading, *, name: str, mark: str, label: str, title: str) -> list[str]:
    piece = the_piece(name) if name else ""
    if kind is Heading.TITLE and title:
        return [" ".join(title.split())]
    if kind is Heading.OPTION and label:
        return [f"Option {label}"]
    if kind is Heading.ANSWER and label:
        return [f"The answer is {label}"]
    if kind is Heading.MARKS and mark:
        return [f"Find the marks {mark}"]
    if kind is Heading.MEET and mark:
        return [f"The marks {mark} meet"]
    if not piece:
        return []
    by_name = {
        Heading.TURN: f"Turn {piece}",
        Heading.NO_TURN: f"{sentence_case(piece)} needs no turn",
        Heading.JOIN: f"Join {piece}",
        Heading.CUT: f"Cut {piece} away",
    }
    return [by_name[kind]] if kind in by_name else []


def chapter(kind: Chapter, *, title: str = "") -> str:
    """A chapter's title; with the item's title before it where a lesson has several items."""
    said = " ".join(title.split()).rstrip(".:")
    return f"{said}: {kind.value[0].lower()}{kind.value[1:]}" if said else kind.value


def opening(lesson_title: str, manners: Sequence[Manner] = ()) -> tuple[str, ...]:
    """The first words of a lesson: its title, and what is going to happen.

    manners : how each part is shown, in order
    """
    title = " ".join(lesson_title.split()).rstrip(".!:;, ")
    sentences = []
    if title and len(title.split()) <= _TITLE_WORDS:
        sentences.append(title if title.endswith("?") else f"{sentence_case(title)}.")
    return (*sentences, *what_happens(manners))


def what_happens(manners: Sequence[Manner]) -> tuple[str, ...]:
    """What is done with how many questions: a sentence a kind, in the order in which the kinds first come."""
    doings = [_DOINGS[manner] for manner in manners]
    sentences = []
    for doing in dict.fromkeys(doings):
        first = doings.index(doing)
        # "Then" is said only where everything told before is over by then.
        then = first > 0 and not set(doings[:first]) & set(doings[first:])
        sentences.append(_doing(doing, doings.count(doing), then=then))
    return tuple(sentences)


class _Doing(StrEnum):
    """What learners do with a question."""

    WORK = "work"
    TRY = "try"
    CHECK = "check"


_DOINGS = {
    Manner.WORKED_EXAMPLE: _Doing.WORK,
    Manner.SOLUTION: _Doing.WORK,
    Manner.YOUR_TURN: _Doing.TRY,
    Manner.QUESTION: _Doing.TRY,
    Manner.QUICK_CHECK: _Doing.CHECK,
}


def _doing(doing: _Doing, count: int, *, then: bool) -> str:
    start = "Then " if then else ""
    if doing is _Doing.WORK:
        return sentence_case(f"{start}we work through {count_in_words(count, 'question')} together.")
    if doing is _Doing.TRY:
        return sentence_case(f"{start}you try {count_in_words(count, 'question')} yourself.")
    are = "is" if count == 1 else "are"
    return sentence_case(f"{start}there {are} {count_in_words(count, 'quick check')}.")


def closing(manners: Sequence[Manner] = ()) -> tuple[str, ...]:
    """The last words of a lesson: the way of working, to take along.

    manners : how each part was shown; where no piece was seen, none is spoken of
    """
    if manners and set(manners) == {Manner.QUICK_CHECK}:
        return ("You may turn an outline, but never flip it.", "Compare every corner and every side.")
    return (
        "Find the marks.",
        "Turn the piece, then slide it until the marks meet.",
        "Then compare every corner and every side.",
    )

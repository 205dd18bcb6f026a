"""The frame around the questions: opening, closing, chapter titles, headings.

Headings and chapter titles are read before the solution too, so none of them says which option fits.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from ..item.model import Manner
from ..words.messages import message, say, say_count
from ..words.names import number_in_words, sentence_case, the_piece

__all__ = ["HEADING_LENGTH", "Chapter", "Heading", "chapter", "closing", "heading", "opening", "what_happens"]

HEADING_LENGTH = 34  # letters of the stage's heading line; a longer one gives way to a shorter form

_TITLE_WORDS = 10  # a longer title is not read out: it would be too long a sentence


class Heading(StrEnum):
    """Which step a heading stands over; the value is its plain form, used where a name would make it too long."""

    TITLE = message("Join and cut")
    QUESTION = message("The question")
    YOUR_TURN = message("Your turn")
    CHECK = message("A quick check")
    TOGETHER = message("Now together")
    STOP = message("Stop and think")
    CLOSE_UP = message("The base and the pieces")
    MARKS = message("Find the marks")
    TURN = message("Turn the piece")
    NO_TURN = message("No turn needed")
    MEET = message("The marks meet")
    JOIN = message("Join the piece")
    CUT = message("Cut the piece away")
    OUTLINE = message("The finished outline")
    OPTIONS = message("The options")
    OPTION = message("Option")
    ANSWER = message("The answer")
    REMEMBER = message("Remember")
    CLOSING = message("To end with")


class Chapter(StrEnum):
    """Which part of the telling of one question a chapter is."""

    OPENING = message("Opening")
    QUESTION = message("The question")
    YOUR_TURN = message("Your turn")
    PIECES = message("The pieces")
    OUTLINE = message("The outline")
    OPTIONS = message("The options")
    ANSWER = message("The answer")
    REMEMBER = message("Remember")
    CLOSING = message("Closing")


def heading(kind: Heading, *, name: str = "", mark: str = "", label: str = "", title: str = "") -> str:
    """The line at the top of the stage: at most ``HEADING_LENGTH`` letters, unless it is the teacher's own title.

    name : the piece's, for MARKS, TURN, NO_TURN, MEET, JOIN and CUT;  mark : its mark, for MARKS and MEET
    label : the option's, for OPTION and ANSWER;  title : the lesson's or item's, for TITLE
    """
    for longer in _longer_headings(kind, name=name, mark=mark, label=label, title=title):
        if len(longer) <= HEADING_LENGTH or kind is Heading.TITLE:
            return longer
    return say(kind.value)


def _longer_headings(kind: Heading, *, name: str, mark: str, label: str, title: str) -> list[str]:
    if kind is Heading.TITLE and title:
        return [" ".join(title.split())]
    if kind is Heading.OPTION and label:
        return [say("Option {label}", label=label)]
    if kind is Heading.ANSWER and label:
        return [say("The answer is {label}", label=label)]
    if kind is Heading.MARKS and mark:
        return [say("Find the marks {mark}", mark=mark)]
    if kind is Heading.MEET and mark:
        return [say("The marks {mark} meet", mark=mark)]
    return [sentence_case(say(_OF_PIECE[kind], piece=the_piece(name)))] if name and kind in _OF_PIECE else []


_OF_PIECE = {
    Heading.TURN: message("Turn {piece}"),
    Heading.NO_TURN: message("{piece} needs no turn"),
    Heading.JOIN: message("Join {piece}"),
    Heading.CUT: message("Cut {piece} away"),
}


def chapter(kind: Chapter, *, title: str = "") -> str:
    """A chapter's title; with the item's title before it where a lesson has several items."""
    told = " ".join(title.split()).rstrip(".:")
    return say(_OF_ITEM[kind], title=told) if told else say(kind.value)


_OF_ITEM = {
    Chapter.OPENING: message("{title}: opening"),
    Chapter.QUESTION: message("{title}: the question"),
    Chapter.YOUR_TURN: message("{title}: your turn"),
    Chapter.PIECES: message("{title}: the pieces"),
    Chapter.OUTLINE: message("{title}: the outline"),
    Chapter.OPTIONS: message("{title}: the options"),
    Chapter.ANSWER: message("{title}: the answer"),
    Chapter.REMEMBER: message("{title}: remember"),
    Chapter.CLOSING: message("{title}: closing"),
}


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
    number = number_in_words(count)
    if doing is _Doing.WORK and then:
        return say_count(
            "Then we work through one question together.",
            "Then we work through {number} questions together.",
            count,
            number=number,
        )
    if doing is _Doing.WORK:
        return say_count(
            "We work through one question together.",
            "We work through {number} questions together.",
            count,
            number=number,
        )
    if doing is _Doing.TRY and then:
        return say_count(
            "Then you try one question yourself.", "Then you try {number} questions yourself.", count, number=number
        )
    if doing is _Doing.TRY:
        return say_count("You try one question yourself.", "You try {number} questions yourself.", count, number=number)
    if then:
        return say_count(
            "Then there is one quick check.", "Then there are {number} quick checks.", count, number=number
        )
    return say_count("There is one quick check.", "There are {number} quick checks.", count, number=number)


def closing(manners: Sequence[Manner] = ()) -> tuple[str, ...]:
    """The last words of a lesson: the way of working, to take along.

    manners : how each part was shown; where no piece was seen, none is spoken of
    """
    if manners and set(manners) == {Manner.QUICK_CHECK}:
        return (say("You may turn an outline, but never flip it."), say("Compare every corner and every side."))
    return (
        say("Find the marks."),
        say("Turn the piece, then slide it until the marks meet."),
        say("Then compare every corner and every side."),
    )

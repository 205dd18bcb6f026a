"""The frame around the questions: opening, chapter titles, headings.

Headings and chapter titles are read before the solution too, so none of them says which option fits.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from ..item.model import Manner
from ..words.messages import message, say, say_count
from ..words.names import number_in_words, sentence_case

__all__ = [
    "HEADING_LENGTH",
    "Chapter",
    "Framing",
    "Heading",
    "chapter",
    "fitting_heading",
    "heading",
    "opening",
    "question_card",
    "what_happens",
]

HEADING_LENGTH = 34  # letters of the stage's heading line; a longer one gives way to a shorter form

_TITLE_WORDS = 10  # a longer title is not read out: it would be too long a sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Framing:
    """What stands round the questions of one kind in a lesson."""

    heading: str  # over the title card
    about: tuple[str, ...]  # what the questions are, in sentences for whoever looks for a lesson
    routine: tuple[str, ...]  # with what its questions begin: the first steps of the routine to take along


class Heading(StrEnum):
    """Which step a heading stands over, whatever the kind of question; the value is its plain form."""

    QUESTION = message("The question")
    YOUR_TURN = message("Your turn")
    CHECK = message("A quick check")
    TOGETHER = message("Now together")
    STOP = message("Stop and think")
    HINT = message("A hint")
    OUTLINE = message("The finished outline")
    OPTIONS = message("The options")
    OPTION = message("Option")
    FLIPPED = message("Flipped over")
    FITS = message("It fits")
    ANSWER = message("The answer")
    CLOSING = message("Three steps to keep")


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """Which part of the telling of one question a chapter is; a kind of question may have parts of its own."""

    title: str  # a message
    of_item: str  # a message with {title}: the same where a lesson has several items

    OPENING: ClassVar[Chapter]
    QUESTION: ClassVar[Chapter]
    YOUR_TURN: ClassVar[Chapter]
    OUTLINE: ClassVar[Chapter]
    OPTIONS: ClassVar[Chapter]
    ANSWER: ClassVar[Chapter]
    REMEMBER: ClassVar[Chapter]
    CLOSING: ClassVar[Chapter]


Chapter.OPENING = Chapter(title=message("Opening"), of_item=message("{title}: opening"))
Chapter.QUESTION = Chapter(title=message("The question"), of_item=message("{title}: the question"))
Chapter.YOUR_TURN = Chapter(title=message("Your turn"), of_item=message("{title}: your turn"))
Chapter.OUTLINE = Chapter(title=message("The outline"), of_item=message("{title}: the outline"))
Chapter.OPTIONS = Chapter(title=message("The options"), of_item=message("{title}: the options"))
Chapter.ANSWER = Chapter(title=message("The answer"), of_item=message("{title}: the answer"))
Chapter.REMEMBER = Chapter(title=message("Remember"), of_item=message("{title}: remember"))
Chapter.CLOSING = Chapter(title=message("Closing"), of_item=message("{title}: closing"))


def heading(kind: Heading, *, label: str = "") -> str:
    """The line at the top of the stage.

    label : the option's, for OPTION, FLIPPED, FITS and ANSWER
    """
    if kind is Heading.OPTION and label:
        return say("Option {label}", label=label)
    if kind is Heading.FLIPPED and label:
        return say("{label}: flipped over", label=label)
    if kind is Heading.FITS and label:
        return say("{label}: it fits all the way round", label=label)
    if kind is Heading.ANSWER and label:
        return say("The answer is {label}", label=label)
    return say(kind.value)


def fitting_heading(longer: str, plain: str) -> str:
    """The longer of two headings where it has no more than ``HEADING_LENGTH`` letters."""
    return longer if len(longer) <= HEADING_LENGTH else plain


def chapter(kind: Chapter, *, title: str = "") -> str:
    """A chapter's title; with the item's title before it where a lesson has several items."""
    told = " ".join(title.split()).rstrip(".:")
    return say(kind.of_item, title=told) if told else say(kind.title)


def question_card(number: int, count: int, title: str, manner: Manner) -> tuple[str, str, str]:
    """Of the card with which a question begins: its heading, its title, what is done with it."""
    told = " ".join(title.split()).rstrip(".:")
    return say("Question {number} of {count}", number=number, count=count), told, say(_ON_CARD[manner])


def opening(lesson_title: str, manners: Sequence[Manner] = (), *, purpose: str = "") -> tuple[str, ...]:
    """The first words of a lesson: its title, what it is for, and what is going to happen.

    manners : how each part is shown, in order
    purpose : a sentence; "" where it is not told
    """
    title = " ".join(lesson_title.split()).rstrip(".!:;, ")
    sentences = []
    if title and len(title.split()) <= _TITLE_WORDS:
        sentences.append(title if title.endswith("?") else f"{sentence_case(title)}.")
    return (*sentences, *([purpose] if purpose else []), *what_happens(manners))


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


_ON_CARD = {
    Manner.WORKED_EXAMPLE: message("We work it out together."),
    Manner.SOLUTION: message("We work it out together."),
    Manner.YOUR_TURN: message("First it is your turn."),
    Manner.QUESTION: message("It is your turn."),
    Manner.HINTS: message("It is your turn."),
    Manner.QUICK_CHECK: message("This is a quick check."),
}
_DOINGS = {
    Manner.WORKED_EXAMPLE: _Doing.WORK,
    Manner.SOLUTION: _Doing.WORK,
    Manner.YOUR_TURN: _Doing.TRY,
    Manner.QUESTION: _Doing.TRY,
    Manner.HINTS: _Doing.TRY,
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

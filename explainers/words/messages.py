"""Saying a message in the language that is being spoken: whole sentences with named placeholders, plurals, contexts.

The first argument of each function is a literal, because that is where the messages are collected from; a table of
messages marks its own with ``message`` or ``message_as``. Sentences are whole: what another language would order
differently is another message, never glued together. A placeholder holds a name, a figure, a list or a noun phrase.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar

from ..style import Verb
from .catalogue import SOURCE, Language, language_called

__all__ = [
    "KEYWORDS",
    "Routine",
    "decimal",
    "listed",
    "message",
    "message_as",
    "once",
    "own_verbs",
    "say",
    "say_as",
    "say_count",
    "say_count_as",
    "speaking",
    "spoken_language",
]

# How Babel's extractor finds messages: the place of each part among a function's arguments, "c" for a context.
KEYWORDS: dict[str, tuple[int | tuple[int, str], ...] | None] = {
    "say": None,
    "say_as": ((1, "c"), 2),
    "say_count": (1, 2),
    "say_count_as": ((1, "c"), 2, 3),
    "message": None,
    "message_as": ((1, "c"), 2),
}

_LANGUAGE: ContextVar[str] = ContextVar("language of the words", default=SOURCE)
_NO_VERBS: Mapping[str, Verb] = {}
_VERBS: ContextVar[Mapping[str, Verb]] = ContextVar("verbs of a theme", default=_NO_VERBS)


@contextmanager
def speaking(tag: str, verbs: Mapping[str, Verb] | None = None) -> Iterator[None]:
    """Within it, all words for learners are in this language; British English elsewhere.

    verbs  : those that a theme has of its own, by what they are said of; as before where none are given
    Raises : CatalogueError where there is no such language, or not all of it
    """
    language_called(tag)
    before = _LANGUAGE.set(tag)
    verbs_before = _VERBS.set(_VERBS.get() if verbs is None else verbs)
    try:
        yield
    finally:
        _VERBS.reset(verbs_before)
        _LANGUAGE.reset(before)


def spoken_language() -> Language:
    """The language that is being spoken."""
    return language_called(_LANGUAGE.get())


def own_verbs() -> Mapping[str, Verb]:
    """The verbs of the theme in whose words things are said: only those that are not the usual ones."""
    return _VERBS.get()


def say(text: str, /, **filled: object) -> str:
    """A message, its placeholders filled."""
    return spoken_language().translations.gettext(text).format_map(filled)


def say_as(context: str, text: str, /, **filled: object) -> str:
    """A message that means something of its own in a context."""
    return spoken_language().translations.pgettext(context, text).format_map(filled)


def say_count(one: str, several: str, count: int, /, **filled: object) -> str:
    """A message in the form for a number, which fills {count} in figures."""
    said = spoken_language().translations.ngettext(one, several, count)
    return said.format_map({"count": count, **filled})


def say_count_as(context: str, one: str, several: str, count: int, /, **filled: object) -> str:
    """A message in a context in the form for a number, which fills {count} in figures."""
    said = spoken_language().translations.npgettext(context, one, several, count)
    return said.format_map({"count": count, **filled})


class Routine(str):
    """A sentence that is the same in every question: in a lesson that has said it, it need not be said again.

    purpose : what it is said for; another sentence for the same is not said again either
    later   : the shorter sentence that is said from then on; "" for none
    """

    purpose: str
    later: str


def once(sentence: str, purpose: str = "", *, later: str = "") -> Routine:
    """A sentence that is said once a lesson: later questions are told more briefly.

    purpose : a word for what it is said for, where it is not the same words each time
    later   : what is said in its place from then on, where something must be
    """
    routine = Routine(sentence)
    routine.purpose = purpose or sentence
    routine.later = later
    return routine


def message(text: str) -> str:
    """Marks a message of a table, to be said later."""
    return text


def message_as(context: str, text: str) -> tuple[str, str]:
    """Marks a message of a table with its context, to be said later."""
    return context, text


def listed(words: Sequence[str]) -> str:
    """A list as the language writes it: "A and B", "A, B and C"; "" for an empty one."""
    patterns = spoken_language().lists
    if len(words) < 2:
        return "".join(words)
    if len(words) == 2:
        return patterns["2"].format(*words)
    said = patterns["end"].format(words[-2], words[-1])
    for place in range(len(words) - 3, -1, -1):
        said = patterns["start" if place == 0 else "middle"].format(words[place], said)
    return said


def decimal(digits: str) -> str:
    """Digits with a point as the language writes them: "22.5", "22,5"."""
    return digits.replace(".", spoken_language().decimal_sign)

"""What marks are called in sentences: signs by their names, letters as they stand.

A mark is the name of a sign, such as leaf, or 1 to 3 letters; a name is longer, so that a mark says which it is. Each
form is a phrase that stands whole in a sentence: as its subject, or as what is looked for, met or laid together.
"""

from __future__ import annotations

from dataclasses import dataclass

from .messages import message, message_as, say, say_as

__all__ = ["SIGN_NAMES", "mark_name", "signs_by_word", "the_mark", "the_marks", "the_other_mark"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Forms:
    one: str
    other: str
    both: str
    name: tuple[str, str]


_FORMS = {
    "leaf": _Forms(
        one=message("the leaf"),
        other=message("the other leaf"),
        both=message("the leaves"),
        name=message_as("a sign", "leaf"),
    ),
    "button": _Forms(
        one=message("the button"),
        other=message("the other button"),
        both=message("the buttons"),
        name=message_as("a sign", "button"),
    ),
    "bell": _Forms(
        one=message("the bell"),
        other=message("the other bell"),
        both=message("the bells"),
        name=message_as("a sign", "bell"),
    ),
    "spool": _Forms(
        one=message("the spool"),
        other=message("the other spool"),
        both=message("the spools"),
        name=message_as("a sign", "spool"),
    ),
    "heart": _Forms(
        one=message("the heart"),
        other=message("the other heart"),
        both=message("the hearts"),
        name=message_as("a sign", "heart"),
    ),
    "boat": _Forms(
        one=message("the boat"),
        other=message("the other boat"),
        both=message("the boats"),
        name=message_as("a sign", "boat"),
    ),
    "ribbon": _Forms(
        one=message("the ribbon"),
        other=message("the other ribbon"),
        both=message("the ribbons"),
        name=message_as("a sign", "ribbon"),
    ),
    "tulip": _Forms(
        one=message("the tulip"),
        other=message("the other tulip"),
        both=message("the tulips"),
        name=message_as("a sign", "tulip"),
    ),
    "teacup": _Forms(
        one=message("the teacup"),
        other=message("the other teacup"),
        both=message("the teacups"),
        name=message_as("a sign", "teacup"),
    ),
}
SIGN_NAMES: tuple[str, ...] = tuple(_FORMS)  # in the order in which they are given to the pieces of an item


def the_mark(mark: str) -> str:
    """One of the two that are alike: "the leaf", "mark K"."""
    if mark in _FORMS:
        return say(_FORMS[mark].one)
    return say("mark {letters}", letters=mark)


def the_other_mark(mark: str) -> str:
    """The one that is looked for: "the other leaf", "the other mark K"."""
    if mark in _FORMS:
        return say(_FORMS[mark].other)
    return say("the other mark {letters}", letters=mark)


def the_marks(mark: str) -> str:
    """Both of them: "the leaves", "the marks K"."""
    if mark in _FORMS:
        return say(_FORMS[mark].both)
    return say("the marks {letters}", letters=mark)


def signs_by_word() -> dict[str, str]:
    """The signs by the English words for one and for several: "leaf" and "leaves"."""
    several = {forms.both.removeprefix("the "): sign for sign, forms in _FORMS.items()}
    return several | {sign: sign for sign in _FORMS}


def mark_name(mark: str) -> str:
    """What is shown, in a word: "leaf", "K"."""
    return say_as(*_FORMS[mark].name) if mark in _FORMS else mark

"""Variants of an output: how each is told apart in the names of files, and what people call it.

A file that a lesson's own file alone asks for is called ``NAME.pptx``. One that was asked for otherwise by hand has the
words of its variant between: ``NAME.theme-dark.pptx``, ``NAME.large-print.paper-letter.questions.pdf``. The words come
in the order of the table; the name of a lesson has no dot in it, so that none can be taken for another.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ..words.messages import message, say, say_count

__all__ = [
    "FEW_KEY_FRAMES",
    "IDEAS",
    "LARGE_PRINT",
    "LETTER",
    "PACE",
    "PER_PAGE",
    "PREVIEW",
    "SCRATCH",
    "SEED",
    "STEP",
    "TEMPLATE",
    "THEME",
    "VERSION",
    "Aspect",
    "called",
    "labelled",
    "step_word",
    "template_word",
    "variant_name",
    "variant_words",
    "version_line",
    "words_of",
]


@dataclass(frozen=True, slots=True)
class Aspect:
    """One way in which an output may differ."""

    word: str  # in a file's name; with a value, what stands before the hyphen and it
    label: str  # a message; {value} is the value
    value: re.Pattern[str] | None = None  # what its value may be; None for an aspect without one


_NAME = re.compile(r"[a-z0-9]++(?:-[a-z0-9]++)*+")
_NUMBER = re.compile(r"[1-9][0-9]*+")
_SEED = re.compile(r"0|[1-9][0-9]*+")
_NO_WORD = re.compile(r"[^a-z0-9]++")

PREVIEW = Aspect("preview", message("preview"))
SCRATCH = Aspect("scratch", message("scratch voice"))
THEME = Aspect("theme", message("{value} theme"), _NAME)
PACE = Aspect("pace", message("{value} pace"), _NAME)
TEMPLATE = Aspect("template", message("template {value}"), _NAME)
IDEAS = Aspect("one-per-idea", message("one slide an idea"))
FEW_KEY_FRAMES = Aspect("few-key-frames", message("smaller file"))
LARGE_PRINT = Aspect("large-print", message("large print"))
LETTER = Aspect("letter", message("US Letter paper"))
PER_PAGE = Aspect("per-page", "", _NUMBER)
SEED = Aspect("seed", message("orders by seed {value}"), _SEED)
STEP = Aspect("only", message("only {value}"), _NAME)
VERSION = Aspect("version", message("version {value}"), _NUMBER)

# In the order of a name.
ASPECTS = (
    STEP, PREVIEW, SCRATCH, THEME, PACE, TEMPLATE, IDEAS, FEW_KEY_FRAMES, LARGE_PRINT, LETTER, PER_PAGE, SEED, VERSION
)  # fmt: skip


def variant_name(name: str, aspects: Mapping[Aspect, str | int | bool | None]) -> str:
    """A lesson's name with the words of a variant.

    aspects : as for `words_of`
    """
    return ".".join((name, *words_of(aspects)))


def words_of(aspects: Mapping[Aspect, str | int | bool | None]) -> tuple[str, ...]:
    """The words of a variant, in the order of a name.

    aspects : a value for each aspect that has one, else True; what is False or None is left out
    """
    words = []
    for aspect in ASPECTS:
        value = aspects.get(aspect)
        if value is not None and value is not False:
            words.append(f"{aspect.word}-{value}" if aspect.value else aspect.word)
    return tuple(words)


def template_word(stem: str) -> str:
    """The value of a template's aspect: its file's name, in lower-case letters, digits and hyphens."""
    return _NO_WORD.sub("-", stem.lower()).strip("-") or "own"


def step_word(step: str) -> str:
    """The value of the aspect of one step: its id, or what the ids of several begin with, without the item's dots."""
    return _NO_WORD.sub("-", step.lower()).strip("-") or "step"


def variant_words(name: str, stem: str) -> tuple[str, ...] | None:
    """The words of the variant in a file's stem; () for what the lesson's file alone asks for, None for another's file.

    name : the lesson's
    stem : the file's name without its ending
    """
    if stem == name:
        return ()
    if not stem.startswith(f"{name}."):
        return None
    words = tuple(stem[len(name) + 1 :].split("."))
    return words if all(any(_value(aspect, word) is not None for aspect in ASPECTS) for word in words) else None


def called(words: Sequence[str], *, on_paper: bool = False) -> str:
    """What people call a variant: "large print, A4, version 2"; "" for none.

    on_paper : whether it is to be printed, so that the paper counts where it is the usual one, too
    """
    told = [(ASPECTS.index(_aspect(word)), _called(word)) for word in words]
    place = ASPECTS.index(LETTER)
    if on_paper and all(number != place for number, _ in told):
        told.append((place, say("A4")))
    return ", ".join(name for _, name in sorted(told, key=lambda one: one[0]))


def version_line(words: Sequence[str]) -> str:
    """What is other about a clip than in the lesson's own; "" where nothing is."""
    return say("In this version: {variant}.", variant=called(words)) if words else ""


def labelled(kind: str, what: str, words: Sequence[str], *, on_paper: bool = False) -> str:
    """A file on a page: by its kind, such as PDF, by what it holds, and by its variant."""
    told = ", ".join(part for part in (what, called(words, on_paper=on_paper)) if part)
    return say("{holds} ({kind})", holds=told[:1].upper() + told[1:], kind=kind) if told else kind


def _called(word: str) -> str:
    aspect = _aspect(word)
    value = _value(aspect, word)
    if aspect is PER_PAGE:
        return say_count("{count} step a page", "{count} steps a page", int(value or 0))
    return say(aspect.label, value=value)


def _aspect(word: str) -> Aspect:
    for aspect in ASPECTS:
        if _value(aspect, word) is not None:
            return aspect
    raise ValueError(f"{word!r} is no word of a variant")


def _value(aspect: Aspect, word: str) -> str | None:
    """The value of an aspect that a word tells, "" where it has none; None where the word is of another."""
    if aspect.value is None:
        return "" if word == aspect.word else None
    value = word.removeprefix(f"{aspect.word}-")
    return value if value != word and aspect.value.fullmatch(value) else None

"""Printed sheets: their titles and the few words on them beside the question itself."""

from __future__ import annotations

from enum import StrEnum

from .names import length_in_words

__all__ = [
    "ANSWER",
    "ANSWERS_HEADING",
    "ANSWERS_NOTE",
    "BECAUSE",
    "CAUTION",
    "CHECK_LINE",
    "CHECK_LINE_ALT",
    "DATE",
    "KEEP_THIS_SIDE_UP",
    "KEY",
    "MARKING_COLUMNS",
    "NAME",
    "NUMBER",
    "RING_ONE",
    "SHORT_NUMBER",
    "STRIP_NOTE",
    "WHY_NOT",
    "Sheet",
    "key_sentence",
    "page_words",
    "question_heading",
    "scale_words",
    "sheet_title",
    "strip_heading",
    "version_words",
]


class Sheet(StrEnum):
    """The kinds of sheet, in the order in which they are made."""

    QUESTION = "question"
    ANSWER = "answer"
    MARKING = "marking"
    CUTOUT = "cutout"


_KINDS = {
    Sheet.QUESTION: "questions",
    Sheet.ANSWER: "answers",
    Sheet.MARKING: "marking sheet",
    Sheet.CUTOUT: "pieces to cut out",
}

NAME = "Name"
DATE = "Date"
RING_ONE = "Ring one letter:"
BECAUSE = "I know because"
NUMBER = "No."
ANSWER = "Letter"
SHORT_NUMBER = "No."
KEY = "Key"
ANSWERS_NOTE = "Write the letter of the option that you chose."
WHY_NOT = "Why the others are out:"
ANSWERS_HEADING = "My answers"
MARKING_COLUMNS = ("Option", "What a learner who chose it probably did", "What to practise")
STRIP_NOTE = (
    "Cut the strip out along its sides, and lay it beside the table of answers: "
    "its lines are as far apart as the table's."
)
KEEP_THIS_SIDE_UP = "Keep every piece with this side up: turn it as you like, but never flip it over."
CAUTION = (
    "Scissors: an adult decides who cuts, and stays with children who do. "
    "Where your school or your authority has rules of its own, they come first."
)
CHECK_LINE = "100 mm"
CHECK_LINE_ALT = "A line to measure: it is 100 millimetres long where the page is printed at full size."


def sheet_title(title: str, kind: Sheet, version: int | None = None) -> str:
    """What a sheet is called."""
    return f"{title}: {_KINDS[kind]}" + (f", {version_words(version)}" if version else "")


def version_words(version: int) -> str:
    """A version in words."""
    return f"version {version}"


def question_heading(number: int, title: str, count: int) -> str:
    """The heading of an item; a number where there are several."""
    return title if count == 1 else f"{number}. {title}"


def key_sentence(key: str) -> str:
    """The key."""
    return f"The answer is {key}."


def scale_words(unit_mm: float) -> str:
    """The scale of a cut-out sheet, and how to print it."""
    return (
        f"1 unit is {length_in_words(unit_mm)} mm. Print at 100 %, not fitted to the page, "
        "then measure the line: it must be 100 mm long."
    )


def strip_heading(version: int | None) -> str:
    """The heading of a marking strip."""
    return "Marking strip" if version is None else f"Marking strip, {version_words(version)}"


def page_words() -> tuple[str, str]:
    """What stands before a page's number, and between it and the number of pages."""
    return "Page ", " of "

"""Printed sheets: their titles and the few words on them beside the question itself."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from ..words.messages import message, say, say_as
from ..words.names import length_in_words

__all__ = [
    "CutOutWords",
    "SheetKind",
    "answer_letter",
    "answers_heading",
    "answers_note",
    "because",
    "caution",
    "check_line",
    "check_line_alt",
    "cut_out_words",
    "date",
    "key",
    "key_sentence",
    "marking_columns",
    "name",
    "number",
    "options_follow",
    "options_heading",
    "page_words",
    "question_heading",
    "ring_one",
    "scale_words",
    "sheet_title",
    "strip_heading",
    "strip_note",
    "why_not",
]


class SheetKind(StrEnum):
    """The kinds of sheet, in the order in which they are made."""

    QUESTION = "question"
    ANSWER = "answer"
    MARKING = "marking"
    CUTOUT = "cutout"


_TITLES = {
    SheetKind.QUESTION: message("{title}: questions"),
    SheetKind.ANSWER: message("{title}: answers"),
    SheetKind.MARKING: message("{title}: marking sheet"),
}
_TITLES_OF_VERSIONS = {
    SheetKind.QUESTION: message("{title}: questions, version {version}"),
    SheetKind.ANSWER: message("{title}: answers, version {version}"),
    SheetKind.MARKING: message("{title}: marking sheet, version {version}"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOutWords:
    """What is said of all that there is to cut out, in the language that is spoken."""

    sheet: str  # the title of the sheet, with {title} for that of the lesson
    title: str  # the same without it
    purpose: str  # what it is for


def cut_out_words(of_kinds: Iterable[CutOutWords]) -> CutOutWords:
    """What is said of the cut-outs of several kinds of question together: of one kind, in that kind's own words."""
    several = set(of_kinds)
    if len(several) == 1:
        return several.pop()
    return CutOutWords(
        sheet=say("{title}: to cut out", title="{title}"),
        title=say("To cut out"),
        purpose=say("What there is to cut out of paper and turn by hand."),
    )


def sheet_title(title: str, kind: SheetKind, version: int | None = None) -> str:
    """What a sheet is called; one of cut-outs has the title that its questions' kinds give it."""
    if version:
        return say(_TITLES_OF_VERSIONS[kind], title=title, version=version)
    return say(_TITLES[kind], title=title)


def name() -> str:
    """Before the line for a learner's name."""
    return say_as("on a sheet", "Name")


def date() -> str:
    """Before the line for the date."""
    return say_as("on a sheet", "Date")


def ring_one() -> str:
    """Before the letters of the options."""
    return say("Ring one letter:")


def options_follow() -> str:
    """Under a question whose options have a page of their own."""
    return say("The options are on the next page. Lay it beside this one.")


def options_heading(heading: str) -> str:
    """Over that page, with the heading of the question."""
    return say("{title}: options", title=heading)


def because() -> str:
    """Before the lines for a reason."""
    return say("I know because")


def number() -> str:
    """Over the numbers of the items."""
    return say_as("on a sheet", "No.")


def answer_letter() -> str:
    """Over the letters that are answered."""
    return say_as("on a sheet", "Letter")


def key() -> str:
    """Over the letters that are right."""
    return say_as("on a sheet", "Key")


def answers_heading() -> str:
    """Over the table of answers."""
    return say("My answers")


def answers_note() -> str:
    """Under that heading."""
    return say("Write the letter of the option that you chose.")


def why_not() -> str:
    """Before the reasons against the other options."""
    return say("Why the others are out:")


def marking_columns() -> tuple[str, str, str]:
    """The columns of the marking sheet."""
    return (
        say_as("on a sheet", "Option"),
        say_as("on a sheet", "What a learner who chose it probably did"),
        say_as("on a sheet", "What to practise"),
    )


def strip_heading(version: int | None) -> str:
    """The heading of a marking strip."""
    return say("Marking strip") if version is None else say("Marking strip, version {version}", version=version)


def strip_note() -> str:
    """What to do with the strip."""
    return say(
        "Cut the strip out along its sides, and lay it beside the table of answers: its lines are as far apart as the "
        "table's."
    )


def caution() -> str:
    """For whoever lets children cut."""
    return say(
        "Scissors: an adult decides who cuts, and stays with children who do. Where your school or your authority has "
        "rules of its own, they come first."
    )


def check_line() -> str:
    """Beside the line that is to be measured."""
    return say("100 mm")


def check_line_alt() -> str:
    """That line in words."""
    return say("A line to measure: it is 100 millimetres long where the page is printed at full size.")


def question_heading(number: int, title: str, count: int) -> str:
    """The heading of an item; a number where there are several."""
    return title if count == 1 else f"{number}. {title}"


def key_sentence(key: str) -> str:
    """The key."""
    return say("The answer is {label}.", label=key)


def scale_words(unit_mm: float) -> str:
    """The scale of a cut-out sheet, and how to print it."""
    return say(
        "1 unit is {length} mm. Print at 100 %, not fitted to the page, then measure the line: it must be 100 mm long.",
        length=length_in_words(unit_mm),
    )


def page_words() -> tuple[str, str]:
    """What stands before a page's number, and between it and the number of pages, which nothing may follow."""
    before, between, _ = say("Page {page} of {pages}", page="\n", pages="\n").split("\n")
    return before, between

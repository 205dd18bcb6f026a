"""What is noticed about a series, for a teacher at the command line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..choice.series_survey import AskedTwice, Easier, Survey, SurveyedItem, TurnClass
from ..item.model import Series
from ..words.names import count_in_words

__all__ = ["not_listed", "not_naming", "series_headline", "survey_notes"]

_TURNS = {
    TurnClass.NONE: "no turn at all",
    TurnClass.SMALL_ANTICLOCKWISE: "less than a quarter turn anticlockwise",
    TurnClass.SMALL_CLOCKWISE: "less than a quarter turn clockwise",
    TurnClass.QUARTER_ANTICLOCKWISE: "a quarter turn anticlockwise",
    TurnClass.QUARTER_CLOCKWISE: "a quarter turn clockwise",
    TurnClass.LARGE_ANTICLOCKWISE: "more than a quarter turn anticlockwise",
    TurnClass.LARGE_CLOCKWISE: "more than a quarter turn clockwise",
    TurnClass.HALF: "half a turn",
    TurnClass.ODD: "a turn that is no multiple of 45 degrees",
}


def series_headline(series: Series, lessons: int, items: int) -> str:
    """The series in one line."""
    return f"Series {series.name}: {count_in_words(lessons, 'lesson')}, {count_in_words(items, 'item')}"


def survey_notes(survey: Survey, slips: Mapping[str, str]) -> Iterator[str]:
    """What a teacher should look at, a sentence each: repeats first, then what is missing, then the order.

    slips : by name, each as a phrase
    """
    yield from map(_asked_twice, survey.asked_twice)
    if survey.turns_never and survey.work_s:
        yield f"Turns never practised: {'; '.join(_TURNS[kind] for kind in survey.turns_never)}."
    if survey.slips_never and survey.shown:
        told = [f"{slip} ({slips[slip]})" for slip in survey.slips_never]
        yield f"Slips that no option shows: {'; '.join(told)}."
    yield from map(_easier, survey.easier)
    if len(survey.work_s) > 1 and not survey.easier:
        first, last = survey.work_s[0], survey.work_s[-1]
        yield (
            f"Difficulty is in order: from {first[0].solution.item.name} (about {first[1]:.0f} s of work, an estimate) "
            f"to {last[0].solution.item.name} (about {last[1]:.0f} s)."
        )


def not_listed(lesson: str) -> str:
    """A lesson names the series, which does not list it."""
    return f"The lesson {lesson} names the series, but is not in its list of lessons, so it has no number."


def not_naming(lesson: str) -> str:
    """The series lists a lesson that does not name it."""
    return f"The lesson {lesson} is in the list, but does not name the series, so it takes nothing from it."


def _asked_twice(twice: AskedTwice) -> str:
    flipped = ", flipped over" if twice.flipped else ""
    if twice.shown.solution.item.name == twice.earlier.solution.item.name and not twice.flipped:
        return f"Used twice: {_named(twice.shown)}, shown already in lesson {twice.earlier.lesson}."
    return f"Used twice: {_named(twice.shown)} asks what {_named(twice.earlier)} asks{flipped}."


def _easier(fall: Easier) -> str:
    return (
        f"Difficulty falls: {_named(fall.shown)} (about {fall.shown_s:.0f} s of work, an estimate) comes after "
        f"{_named(fall.before)} (about {fall.before_s:.0f} s)."
    )


def _named(shown: SurveyedItem) -> str:
    return f"{shown.solution.item.name} in lesson {shown.lesson}"

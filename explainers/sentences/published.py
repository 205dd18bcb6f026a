"""What is printed with a lesson: the lines of its title card, its times.

Read before the lesson by anyone, so nothing in here says which option fits.
"""

from __future__ import annotations

from ..item.model import Lesson
from ..words.messages import say, say_count

__all__ = ["card_lines", "chapter_line", "clock", "credit_lines", "lasts", "number_line", "series_line"]


def number_line(number: int) -> str:
    """A lesson's number."""
    return say("Lesson {number}", number=number)


def series_line(series: str, number: int | None) -> str:
    """The series and the number in it: "Quilt blocks, lesson 3"; either may be missing."""
    if number is None:
        return series
    return say("{series}, lesson {number}", series=series, number=number) if series else number_line(number)


def card_lines(lesson: Lesson) -> tuple[str, ...]:
    """What stands under the title on the title card; () where nothing of the kind is written."""
    series = series_line(lesson.series.title, lesson.number) if lesson.series else ""
    lines = (series, *lesson.card, lesson.credit or "")
    return tuple(line for line in lines if line)


def lasts(seconds: float) -> str:
    """How long a clip takes."""
    minutes, rest = divmod(round(seconds), 60)
    in_minutes = say_count("{count} minute", "{count} minutes", minutes)
    in_seconds = say_count("{count} second", "{count} seconds", rest)
    if minutes and rest:
        return say("The clip takes {minutes} and {seconds}, and has captions.", minutes=in_minutes, seconds=in_seconds)
    return say("The clip takes {time}, and has captions.", time=in_minutes if minutes else in_seconds)


def chapter_line(start_s: float, title: str) -> str:
    """A chapter with its time, such as "0:12 The question"."""
    return f"{clock(start_s)} {title}"  # as players read it, whatever the language


def clock(seconds: float) -> str:
    """A time as players show it, whole seconds that have passed: 0:07, 12:30, 1:02:03."""
    minutes, rest = divmod(int(seconds + 1e-6), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


def credit_lines(credit: str, licence: str) -> tuple[str, ...]:
    """Who made it, and what others may do with it; a line for each that is given."""
    lines = (
        say("Credit: {credit}", credit=credit) if credit else "",
        say("Licence: {licence}", licence=licence) if licence else "",
    )
    return tuple(line for line in lines if line)

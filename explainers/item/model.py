"""A lesson and a series as they were written: which questions are shown, in what manner, with which words around them.

No file format, no solving and no drawing here.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path

from ..style import PACE_NAMES
from .stops import Stop

__all__ = ["Help", "Lesson", "LessonPart", "Manner", "Series", "Shared", "SlipsTold"]


class Manner(StrEnum):
    """How a lesson shows an item."""

    WORKED_EXAMPLE = "worked-example"
    YOUR_TURN = "your-turn"  # tried first, then worked through
    QUESTION = "question"  # to try, without a solution
    HINTS = "hints"  # to try, then a hint at a time; never a solution
    SOLUTION = "solution"  # of a question that was asked elsewhere
    QUICK_CHECK = "quick-check"  # the options alone, beside the finished outline

    @property
    def asks_to_try(self) -> bool:
        """Whether learners get a pause to try first."""
        return self in (Manner.YOUR_TURN, Manner.QUESTION, Manner.HINTS, Manner.QUICK_CHECK)

    @property
    def solves(self) -> bool:
        """Whether learners are shown which option is right."""
        return self not in (Manner.QUESTION, Manner.HINTS)

    @property
    def works_through(self) -> bool:
        """Whether the pieces are laid one after the other, so that there is something to stop before."""
        return self in (Manner.WORKED_EXAMPLE, Manner.YOUR_TURN, Manner.SOLUTION)


class Help(StrEnum):
    """How much is said about a question."""

    FULL = "full"  # everything, whatever the lesson has said before
    BRIEF = "brief"  # what is the same in every question is said no more


class SlipsTold(StrEnum):
    """Whether it is told how a wrong option comes about, after what can be seen of it."""

    TOLD = "told"
    UNTOLD = "untold"


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonPart:
    """One item in a lesson."""

    show: Path  # the item's file, already joined to the lesson's folder
    manner: Manner
    pause_s: float | None = None  # None: the suggested one
    asks: tuple[Stop, ...] = ()  # where to stop and ask: places that its kind of question has
    help: Help | None = None  # None: fading, so that what the lesson has said once is not said again


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """What a series gives to all its lessons, and a lesson may give for itself."""

    language: str = "en-GB"
    pace: str = PACE_NAMES[0]  # one of PACE_NAMES
    theme: str | Path | None = None  # one of THEME_NAMES, or a file that is there
    opening: str | None = None
    closing: str | None = None
    card: tuple[str, ...] = ()  # further lines of the title card
    items_from: tuple[Path, ...] = ()  # further folders whose items may be shown
    template: Path | None = None  # a slide file that is there; its masters dress the deck
    voice: tuple[tuple[str, str], ...] = ()  # (key, value) as typed
    voice_command: tuple[str, ...] = ()  # the user's own program for a scratch voice, and its arguments
    credit: str | None = None
    licence: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Series(Shared):
    """What several lessons have in common, and their order where it is given."""

    name: str
    path: Path  # its own file
    title: str
    lessons: tuple[Path, ...] = ()  # in order, each once; () where lessons are not numbered

    def number_of(self, lesson: Path) -> int | None:
        """The number of a lesson's file, counted from 1; None where the series does not list it."""
        places = [path.resolve() for path in self.lessons]
        return places.index(lesson.resolve()) + 1 if lesson.resolve() in places else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson(Shared):
    """An ordered list of parts, with the words around them; what it leaves to its series is filled in already."""

    name: str
    title: str
    parts: tuple[LessonPart, ...]
    series: Series | None = None
    number: int | None = None  # in its series
    slips: SlipsTold = SlipsTold.UNTOLD
    at_most_s: float | None = None  # how long it may take at its own pace, pauses included; None: as long as it takes
    words: tuple[tuple[str, str], ...] = field(default=())  # (step id, the teacher's own sentence)

    @property
    def stem(self) -> str:
        """What its files are called: its name, after its number where it has one, so that files sort: 03-first-blocks.

        Two digits, or as many as the series needs.
        """
        if self.number is None or self.series is None:
            return self.name
        digits = max(2, len(str(len(self.series.lessons))))
        return f"{self.number:0{digits}d}-{self.name}"

    @property
    def files(self) -> tuple[Path, ...]:
        """Every file beside its own that decides how it looks, each once, in a fixed order."""
        named = [part.show for part in self.parts]
        named += [self.series.path] if self.series else []
        named += [self.theme] if isinstance(self.theme, Path) else []
        named += [self.template] if self.template else []
        return tuple(dict.fromkeys(named))

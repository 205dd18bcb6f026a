"""A lesson that may take only so long is told as fully as fits: what is left out, step by step."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from ..choice.stages.context import Part
from ..item.model import Help, Lesson, LessonPart, SlipsTold

__all__ = ["Telling", "fullest"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Telling:
    """A lesson, and what of the telling is left out to save time."""

    lesson: Lesson
    parts: frozenset[Part] = frozenset()
    left_out: tuple[str, ...] = ()  # for the teacher, a phrase each

    def without(self, part: Part, told: str) -> Telling:
        """The same without a part."""
        return replace(self, parts=self.parts | {part}, left_out=(*self.left_out, told))

    def with_lesson(self, lesson: Lesson, told: str) -> Telling:
        """Another lesson; the same telling where it is no other."""
        return self if lesson == self.lesson else replace(self, lesson=lesson, left_out=(*self.left_out, told))


def fullest(lesson: Lesson, seconds_of: Callable[[Telling], float]) -> Telling:
    """The fullest telling that takes no more than the lesson may; the shortest where none does.

    seconds_of : how long a telling takes
    """
    whole = Telling(lesson=lesson)
    if lesson.at_most_s is None:
        return whole
    telling = whole
    for shorter in _shorter_and_shorter(whole):
        telling = shorter
        if seconds_of(telling) <= lesson.at_most_s:
            break
    return telling


def _shorter_and_shorter(telling: Telling) -> Iterator[Telling]:
    yield telling
    lesson = telling.lesson
    telling = telling.with_lesson(replace(lesson, slips=SlipsTold.UNTOLD), "how wrong options come about")
    yield telling
    lesson = telling.lesson
    faded = replace(lesson, parts=tuple(_faded(part, is_first=n == 0) for n, part in enumerate(lesson.parts)))
    telling = telling.with_lesson(faded, "help that was asked for in full")
    yield telling
    telling = telling.without(Part.WALK, "the walk round the right option")
    yield telling
    telling = telling.without(Part.AHEAD, "looking ahead")
    yield telling
    telling = telling.without(Part.REMEMBER, "what to remember of each question")
    yield telling
    lesson = telling.lesson
    brief = replace(lesson, parts=tuple(replace(part, help=Help.BRIEF) for part in lesson.parts))
    yield telling.with_lesson(brief, "sentences that are the same in every question")


def _faded(part: LessonPart, *, is_first: bool) -> LessonPart:
    return part if is_first or part.help is not Help.FULL else replace(part, help=None)

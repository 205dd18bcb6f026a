"""The stages round a question: it is asked, learners try it, what was shown is compared or recalled."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...sentences import notes
from ...sentences.lesson import Chapter, Heading, heading
from ...storyboard.doing import Choice, Loose
from ...storyboard.model import PAUSE, TASK, Step, Still
from ..words import task as words
from ..words.alt import choices_alt
from .choosing import choice_to_note, choice_to_tell
from .context import AskedQuestion, StageContext
from .waiting import waiting

__all__ = [
    "check_to_try",
    "compare",
    "pause",
    "pause_in_check",
    "pause_to_note",
    "recall",
    "task",
    "task_to_try",
    "try_one_by_one",
]

_CLOCK_PATCHES = 6


def task(context: StageContext) -> Iterator[Step]:
    """The question read out."""
    yield _asked(context, context.asked, Chapter.QUESTION, Heading.QUESTION)


def task_to_try(context: StageContext) -> Iterator[Step]:
    """The question read out, and the learners asked to try it."""
    more = words.your_turn(context.settings.pause_s)
    yield _asked(context, context.asked, Chapter.YOUR_TURN, Heading.YOUR_TURN, more)


def check_to_try(context: StageContext) -> Iterator[Step]:
    """The outline with the options beside it, and the learners asked to try."""
    more = words.your_turn(context.settings.pause_s)
    yield _asked(context, context.compared, Chapter.YOUR_TURN, Heading.CHECK, more)


def recall(context: StageContext) -> Iterator[Step]:
    """The picture of a question whose solution is all that is told."""
    beats = (Still(figure=context.asked.figure),)
    told = words.recall(outline_given=context.solution.item.outline_given)
    yield context.step("recall", Chapter.QUESTION, heading(Heading.QUESTION), beats, told, note=notes.task_note())


def pause(context: StageContext) -> Iterator[Step]:
    """Time to try; of each option is known what to say to whoever chooses it."""
    asked = context.asked
    yield _pause(context, choice_to_tell(context, asked.cells) if asked.cells else None, asked.loose)


def pause_to_note(context: StageContext) -> Iterator[Step]:
    """Time to try where the solution is not told: a choice is only noted."""
    asked = context.asked
    yield _pause(context, choice_to_note(context, asked.cells) if asked.cells else None, asked.loose)


def pause_in_check(context: StageContext) -> Iterator[Step]:
    """Time to try in a quick check, whose options stand beside the outline."""
    asked = context.compared
    yield _pause(context, choice_to_tell(context, asked.cells) if asked.cells else None, asked.loose)


def compare(context: StageContext) -> Iterator[Step]:
    """The end of a question without its solution: answers are compared over its picture."""
    yield context.step(
        "compare",
        Chapter.YOUR_TURN,
        heading(Heading.YOUR_TURN),
        (Still(figure=context.last),),
        words.compare(),
        note=notes.compare_note(),
        reveals=False,
        goes_on=True,
    )


def try_one_by_one(context: StageContext) -> Iterator[Step]:
    """The pause of a quick check is over."""
    beats = (Still(figure=context.spread.figure(choices_alt(context.solution))),)
    yield context.step(
        "together",
        Chapter.OPTIONS,
        heading(Heading.TOGETHER),
        beats,
        words.try_options(sifted=bool(context.sifting.facts)),
    )


def _asked(
    context: StageContext, asked: AskedQuestion, chapter: Chapter, title: Heading, more: tuple[str, ...] = ()
) -> Step:
    step = context.step(
        TASK,
        chapter,
        heading(title),
        (Still(figure=asked.figure),),
        (*asked.narration, *more),
        note=notes.task_note(),
        facts=asked.facts,
        reveals=False,
    )
    return replace(step, loose=asked.loose)


def _pause(context: StageContext, choice: Choice | None, loose: tuple[Loose, ...]) -> Step:
    step = waiting(
        context,
        PAUSE,
        Chapter.YOUR_TURN,
        heading(Heading.YOUR_TURN),
        seconds=context.settings.pause_s,
        patches=_CLOCK_PATCHES,
        note=notes.your_turn_note(outline_given=context.solution.item.outline_given),
        reveals=False,
    )
    return replace(step, choice=choice, loose=loose)

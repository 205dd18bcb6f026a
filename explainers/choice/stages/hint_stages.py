"""The stages that only hint, over the question's own picture: never what comes out, nor which option is right."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...sentences.lesson import Chapter
from ...storyboard.model import Beat, Step, Still
from ...storyboard.run import Run
from ..words import hints as words
from .context import StageContext

__all__ = ["hint_to_count", "hint_to_go_round"]

_FADE_S = 0.7


def hint_to_count(context: StageContext) -> Iterator[Step]:
    """What to look at before any option is tried."""
    told = words.count_first(outline_given=context.solution.item.outline_given)
    yield _hint(context, "hint-count", words.count_heading(), told)


def hint_to_go_round(context: StageContext) -> Iterator[Step]:
    """How a flip is told from a turn; nothing says that there is one."""
    yield _hint(context, "hint-order", words.go_round_heading(), words.go_round())


def _hint(context: StageContext, stage: str, line: str, told: tuple[str, ...]) -> Step:
    asked, run = context.asked.figure, Run(context.last)
    beats: tuple[Beat, ...] = (Still(figure=asked),)
    if context.last != asked:
        run.move(asked, seconds=_FADE_S)
        beats = run.beats
    step = context.step(stage, Chapter.YOUR_TURN, line, beats, told, reveals=False, goes_on=True)
    return replace(step, facts=context.asked.facts)

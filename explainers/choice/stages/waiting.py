"""Time for learners: a calm countdown of a few stills over what was shown last."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...figure.decoration import counting_down
from ...figure.model import Figure
from ...figure.subject import Subject
from ...item.stops import Stop
from ...sentences.lesson import Chapter, Heading, heading
from ...storyboard.model import Beat, Step, Still
from ..fact import Fact
from ..words import task as words
from .context import StageContext

__all__ = ["ask_options", "stop", "waiting"]

# Long enough to look and point, too short to work anything out in writing: common practice, no source.
STOP_S = 6.0
_STOP_PATCHES = 3


def waiting(
    context: StageContext,
    stage: str,
    chapter: Chapter,
    title: str,
    *,
    seconds: float,
    patches: int,
    narration: Sequence[str] = (),
    note: str = "",
    facts: Sequence[Fact] = (),
    subject: Subject | None = None,
    reveals: bool = True,
    goes_on: bool = True,
) -> Step:
    """A step that waits; the clock is gone from the picture that the next step starts from.

    patches   : into how many stills of equal length the time is cut
    narration : spoken before the clock starts, over the picture without it
    goes_on   : whether it asks something of the step before, rather than beginning something new
    """
    shown = context.last
    each_s = seconds / patches

    def clock(passed: int) -> Figure:
        left_s = seconds - passed * each_s
        return counting_down(shown, left=patches - passed, patches=patches, left_s=left_s, theme=context.theme)

    beats: list[Beat] = [Still(figure=shown)] if narration else []
    beats += [Still(figure=clock(passed) if context.is_seen else shown, hold_s=each_s) for passed in range(patches)]
    step = context.step(
        stage,
        chapter,
        title,
        beats,
        narration,
        note=note,
        facts=facts,
        subject=subject,
        reveals=reveals,
        goes_on=goes_on,
    )
    context.last = shown
    return step


def stop(
    context: StageContext,
    stage: str,
    chapter: Chapter,
    narration: tuple[str, ...],
    facts: Sequence[Fact],
    subject: Subject | None = None,
    *,
    goes_on: bool = True,
) -> Step:
    """A question over the picture that was shown last, and a short time to answer it.

    Where a telling may stop is a stage of its own in the row of stages; it yields nothing where no stop is wanted.
    """
    return waiting(
        context,
        stage,
        chapter,
        heading(Heading.STOP),
        seconds=STOP_S,
        patches=_STOP_PATCHES,
        narration=narration,
        note=words.stop_note(),
        facts=facts,
        subject=subject,
        goes_on=goes_on,
    )


def ask_options(context: StageContext) -> Iterator[Step]:
    """A stop before the options are tried."""
    if Stop("options") in context.settings.asks:
        yield stop(context, "ask-options", Chapter.OPTIONS, words.ask_options(), ())

"""A part of a timed lesson: one step, or all steps of a piece, with their own times counted from 0."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..errors import OutputError
from .timeline import Cue, TimedChapter, Timeline

__all__ = ["excerpt"]


def excerpt(timeline: Timeline, step: str) -> Timeline:
    """Only the step of that id, or only the steps of that piece, option or item, such as all of corner-block.flag.

    Raises : OutputError where there is none
    """
    steps = tuple(one for one in timeline.storyboard.steps if step in (one.id, *one.belongs_to))
    if not steps:
        raise OutputError(f"there is no step {step}. To mend it: {_near(timeline)}.")
    wanted = {one.id for one in steps}
    begins: dict[str, int] = {}
    frames = 0
    for one in steps:
        start, end = timeline.step_span(one.id)
        begins[one.id] = frames - start
        frames += end - start
    return replace(
        timeline,
        storyboard=replace(timeline.storyboard, steps=steps),
        spans=tuple(
            replace(span, start=span.start + begins[span.step_id]) for span in timeline.spans if span.step_id in wanted
        ),
        cues=tuple(_moved(cue, begins[cue.step_id] / timeline.fps) for cue in timeline.cues if cue.step_id in wanted),
        chapters=tuple(_chapters(timeline, tuple(wanted), begins)),
    )


def _moved(cue: Cue, by_s: float) -> Cue:
    return replace(cue, start_s=cue.start_s + by_s, end_s=cue.end_s + by_s)


def _chapters(timeline: Timeline, wanted: tuple[str, ...], begins: dict[str, int]) -> Iterator[TimedChapter]:
    """Each chapter of which a step is left, as long as its steps."""
    last: TimedChapter | None = None
    for step in timeline.storyboard.steps:
        if step.id not in wanted:
            continue
        start, end = (frame + begins[step.id] for frame in timeline.step_span(step.id))
        if last is not None and last.title == step.chapter:
            last = replace(last, end=end)
            continue
        if last is not None:
            yield last
        last = TimedChapter(title=step.chapter, start=start, end=end)
    if last is not None:
        yield last


def _near(timeline: Timeline) -> str:
    """The ids of the steps, to choose from."""
    return f"write one of: {', '.join(one.id for one in timeline.storyboard.steps)}"

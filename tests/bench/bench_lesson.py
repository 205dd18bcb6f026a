"""The lesson that clip speed is measured on: planned questions, every motion and hold stretched to fixed numbers.

    .venv/bin/python tests/bench/bench_lesson.py

Each question is a planned demo question, worked or with its pause, stretched to exactly five minutes of which 15.5 %
move. A number in the corner of the stage makes every question different from every other, so that no picture of one
serves another; every hold has a caption of its own.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT))  # the tree that this file stands in, before any that is installed

from explainers import timeline_of
from explainers.figure.model import Dots, Figure, Label, Role
from explainers.figure.motion import Motion
from explainers.storyboard.model import Step, Still, Storyboard
from explainers.storyboard.timeline import FPS, Cue, Span, TimedChapter, Timeline

__all__ = ["alone", "bench_timeline", "other_words", "summary", "with_step_changed"]

QUESTION_FRAMES = 300 * FPS
MOVING_FRAMES = round(0.155 * QUESTION_FRAMES)
CHANGED_STEP = "q1.corner-block.flag.turn"

_INK = "#1F2A37"


def bench_timeline(questions: int = 2) -> Timeline:
    """A lesson of so many questions, a worked example and a question to try by turns, of 9,000 frames each."""
    steps: list[Step] = []
    spans: list[Span] = []
    chapters: list[TimedChapter] = []
    for number in range(1, questions + 1):
        start = len(chapters) * QUESTION_FRAMES
        planned_steps, planned_spans = _question(number % 2 == 1)
        marked: dict[int, Figure] = {}
        moved: dict[int, Motion] = {}
        prefix = f"q{number}."
        for step in planned_steps:
            beats = tuple(
                replace(beat, figure=_numbered(beat.figure, number, marked))
                if isinstance(beat, Still)
                else _motion_numbered(beat, number, marked, moved)
                for beat in step.beats
            )
            of = {"item": prefix + step.item} if step.item else {"lesson": prefix + step.lesson}
            steps.append(replace(step, **of, chapter=f"Question {number}", beats=beats))
        lengths = _stretched(planned_spans)
        for span, frames in zip(planned_spans, lengths, strict=True):
            shows = (
                _numbered(span.shows, number, marked)
                if isinstance(span.shows, Figure)
                else _motion_numbered(span.shows, number, marked, moved)
            )
            spans.append(Span(step_id=prefix + span.step_id, shows=shows, start=start, frames=frames))
            start += frames
        chapters.append(TimedChapter(title=f"Question {number}", start=start - QUESTION_FRAMES, end=start))
    board = Storyboard(name="bench", title="The bench lesson", language="en-GB", steps=tuple(steps))
    return Timeline(storyboard=board, spans=tuple(spans), cues=_cues(spans), chapters=tuple(chapters))


def other_words(timeline: Timeline) -> Timeline:
    """Every caption reworded, and every third hold half a second longer; all figures and motions as they were."""
    spans: list[Span] = []
    start = 0
    for number, span in enumerate(timeline.spans):
        longer = FPS // 2 if isinstance(span.shows, Figure) and number % 3 == 0 else 0
        spans.append(replace(span, start=start, frames=span.frames + longer))
        start += span.frames + longer
    moved = {old.start: new.start for old, new in zip(timeline.spans, spans, strict=True)} | {timeline.frames: start}
    chapters = tuple(replace(part, start=moved[part.start], end=moved[part.end]) for part in timeline.chapters)
    return replace(timeline, spans=tuple(spans), cues=_cues(spans, "Said in other words"), chapters=chapters)


def with_step_changed(timeline: Timeline, step_id: str = CHANGED_STEP) -> Timeline:
    """One more dot in every picture of one step: its holds and its motions have to be drawn again."""
    figures: dict[int, Figure] = {}
    motions: dict[int, Motion] = {}
    spans = tuple(
        span
        if span.step_id != step_id
        else replace(
            span,
            shows=_dotted(span.shows, figures)
            if isinstance(span.shows, Figure)
            else _motion_dotted(span.shows, figures, motions),
        )
        for span in timeline.spans
    )
    return replace(timeline, spans=spans)


def alone(timeline: Timeline, step_id: str = CHANGED_STEP) -> Timeline:
    """A clip of one step, to know what that step costs by itself."""
    first, after = timeline.step_span(step_id)
    spans = tuple(
        replace(span, start=span.start - first) for span in timeline.spans if first <= span.start and span.end <= after
    )
    chapters = (TimedChapter(title="The step", start=0, end=after - first),)
    return replace(timeline, spans=spans, cues=_cues(spans), chapters=chapters)


def summary(timeline: Timeline) -> str:
    """The numbers that the lesson is fixed by."""
    holds = [span for span in timeline.spans if isinstance(span.shows, Figure)]
    motions = [span for span in timeline.spans if isinstance(span.shows, Motion)]
    moving = sum(span.frames for span in motions)
    return (
        f"{timeline.frames} frames, {timeline.seconds:.0f} s, {len(timeline.chapters)} questions, "
        f"{len(holds)} holds, {len(motions)} motions, {moving} moving frames ({moving / timeline.frames:.1%}), "
        f"{len(timeline.cues)} captions, up to {max(len(span.shows.entries) for span in holds)} entries a picture"  # type: ignore[union-attr]
    )


@cache
def _question(worked: bool) -> tuple[tuple[Step, ...], tuple[Span, ...]]:
    """Steps and spans of one planned question."""
    if worked:
        timeline = timeline_of(ROOT / "items" / "corner-block.yaml")
        return timeline.storyboard.steps, timeline.spans
    timeline = timeline_of(ROOT / "items" / "first-blocks.yaml")
    steps = tuple(step for step in timeline.storyboard.steps if step.item == "border-block")
    own = {step.id for step in steps}
    return steps, tuple(span for span in timeline.spans if span.step_id in own)


def _stretched(spans: Sequence[Span]) -> list[int]:
    """Frames of each span: motions add up to MOVING_FRAMES, holds fill the question; proportions are kept."""
    moving = [index for index, span in enumerate(spans) if isinstance(span.shows, Motion)]
    lengths = [0] * len(spans)
    for chosen, total in (
        (moving, MOVING_FRAMES),
        ([index for index in range(len(spans)) if index not in moving], QUESTION_FRAMES - MOVING_FRAMES),
    ):
        whole = sum(spans[index].frames for index in chosen)
        before = after = 0
        for index in chosen:  # bounds are rounded, never lengths, so that the sum is exact
            after += spans[index].frames
            lengths[index] = round(after * total / whole) - round(before * total / whole)
            before = after
    return lengths


def _cues(spans: Sequence[Span], words: str = "Hold") -> tuple[Cue, ...]:
    holds = [span for span in spans if isinstance(span.shows, Figure)]
    return tuple(
        Cue(
            id=f"{span.step_id}/{number}",
            step_id=span.step_id,
            start_s=span.start / FPS,
            end_s=span.end / FPS,
            lines=(f"{words} {number} of {len(holds)},", f"{span.frames} frames of {span.step_id.split('.')[-1]}."),
        )
        for number, span in enumerate(holds, start=1)
    )


def _numbered(figure: Figure, number: int, known: dict[int, Figure]) -> Figure:
    """The figure with the question's number in its corner; the same one for the same figure, as a planner gives it."""
    if id(figure) not in known:
        label = Label(
            id="bench.number", group="bench", role=Role.WORD, text=str(number), at=(15.6, 1.0), size=0.3, colour=_INK
        )
        known[id(figure)] = replace(figure, entries=(label, *figure.entries))
    return known[id(figure)]


def _motion_numbered(motion: Motion, number: int, known: dict[int, Figure], made: dict[int, Motion]) -> Motion:
    if id(motion) not in made:
        made[id(motion)] = replace(
            motion, start=_numbered(motion.start, number, known), end=_numbered(motion.end, number, known)
        )
    return made[id(motion)]


def _dotted(figure: Figure, known: dict[int, Figure]) -> Figure:
    if id(figure) not in known:
        dot = Dots(id="bench.dot", group="bench", role=Role.WORD, centres=((15.2, 1.0),), radius=0.05, fill=_INK)
        known[id(figure)] = replace(figure, entries=(*figure.entries, dot))
    return known[id(figure)]


def _motion_dotted(motion: Motion, known: dict[int, Figure], made: dict[int, Motion]) -> Motion:
    if id(motion) not in made:
        made[id(motion)] = replace(motion, start=_dotted(motion.start, known), end=_dotted(motion.end, known))
    return made[id(motion)]


if __name__ == "__main__":
    print(summary(bench_timeline()))

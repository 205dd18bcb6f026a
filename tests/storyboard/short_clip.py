"""A short timeline made by hand: holds of one frame and of two runs, a turn, a shift with a fade, a hole, dashes."""

from __future__ import annotations

from dataclasses import replace

from storyboard.sample_board import pointed, sheet

from explainers.figure.model import Figure, Label, moved_entry
from explainers.figure.motion import Glide, Motion
from explainers.figure.subject import Subject
from explainers.storyboard.model import Step, Still, Storyboard
from explainers.storyboard.timeline import Cue, Span, TimedChapter, Timeline

__all__ = ["short_timeline", "turned"]


def turned(start: Figure) -> Motion:
    """The flag turns by 135 degrees about its middle; the heading's words stay."""
    glide = Glide(group="flag", about=(12.0, 4.0), turn_deg=135.0)
    return Motion(start=start, end=_moved(start, glide), moves=(glide,), seconds=0.4)


def slid_with_pointers(start: Figure) -> Motion:
    """The flag shifts while the pointers appear."""
    glide = Glide(group="flag", about=(12.0, 4.0), by=(-3.0, 1.0))
    return Motion(start=start, end=pointed(_moved(start, glide)), moves=(glide,), seconds=0.5)


def _moved(figure: Figure, glide: Glide) -> Figure:
    there = glide.at(1.0)
    moved = tuple(moved_entry(entry, there) if entry.group == glide.group else entry for entry in figure.entries)
    return replace(figure, entries=moved)


def renamed(figure: Figure, heading: str) -> Figure:
    """The figure under another heading."""
    return replace(
        figure,
        entries=tuple(
            replace(entry, text=heading) if isinstance(entry, Label) and entry.id == "heading" else entry
            for entry in figure.entries
        ),
    )


def short_timeline() -> Timeline:
    """148 frames; three single frames in a row among them."""
    first = sheet("A block with a hole")
    turn = turned(first)
    slide = slid_with_pointers(turn.end)
    last = renamed(slide.end, "It is done")
    parts: list[tuple[str, Figure | Motion, int]] = [
        ("sample.task", first, 61),  # two runs, neither of one frame
        ("sample.flag.turn", first, 1),
        ("sample.flag.turn", turn, 12),
        ("sample.flag.turn", turn.end, 1),
        ("sample.flag.meet", turn.end, 1),
        ("sample.flag.meet", slide, 15),
        ("sample.flag.meet", slide.end, 17),
        ("sample.end", last, 39),
        ("sample.end", first, 1),
    ]
    spans = []
    start = 0
    for step_id, shows, frames in parts:
        spans.append(Span(step_id=step_id, shows=shows, start=start, frames=frames))
        start += frames
    steps = (
        Step(
            item="sample",
            stage="task",
            chapter="The block",
            heading="H",
            beats=(Still(figure=first),),
            narration=("One.",),
        ),
        Step(
            item="sample",
            subject=Subject(thing="piece", name="flag"),
            stage="turn",
            chapter="The block",
            heading="H",
            beats=(Still(figure=first), turn, Still(figure=turn.end)),
            narration=("Two.",),
        ),
        Step(
            item="sample",
            subject=Subject(thing="piece", name="flag"),
            stage="meet",
            chapter="The block",
            heading="H",
            beats=(Still(figure=turn.end), slide, Still(figure=slide.end)),
            narration=("Three.",),
        ),
        Step(
            item="sample",
            stage="end",
            chapter="It is done",
            heading="H",
            beats=(Still(figure=last), Still(figure=first)),
            narration=("Four.",),
        ),
    )
    cues = (
        Cue(id="sample.task/1", step_id="sample.task", start_s=0.0, end_s=1.5, lines=("This is the base,", "a ring.")),
        Cue(id="sample.flag.turn/1", step_id="sample.flag.turn", start_s=2.1, end_s=2.75, lines=("Turn it 135°.",)),
        Cue(
            id="sample.flag.meet/1", step_id="sample.flag.meet", start_s=2.75, end_s=3.5, lines=("K meets K & stays.",)
        ),
    )
    return Timeline(
        storyboard=Storyboard(name="sample-lesson", title="Blocks & holes", language="en-GB", steps=steps),
        spans=tuple(spans),
        cues=cues,
        chapters=(
            TimedChapter(title="The block", start=0, end=108),
            TimedChapter(title="It is done", start=108, end=start),
        ),
    )

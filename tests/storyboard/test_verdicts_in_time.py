"""Nothing is given away before its time: no frame of a demo lesson shows a verdict before the caption that tells it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from explainers.figure.model import Entry, Figure, Label, Role
from explainers.figure.motion import Motion
from explainers.figure.subject import Thing
from explainers.intake.workspace import load_lesson
from explainers.lesson.planner import plan_lesson
from explainers.outputs.shared.seen_and_said import MomentKind, moments
from explainers.storyboard.model import Step, Storyboard
from explainers.storyboard.paces import pace_called
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline

ITEMS = Path(__file__).parents[2] / "items"
LESSONS = sorted(path for path in ITEMS.glob("*.yaml") if "\nlesson:" in f"\n{path.read_text(encoding='utf-8')}")
# What a verdict is told by, in the sentences of the tool: written here by hand, apart from where the pictures are made.
TELLS = {
    "sift": re.compile(r"\b(out|cannot be right)\b"),
    "rule-out": re.compile(r"\b(flipped|here)\b", re.IGNORECASE),
    "keep": re.compile(r"\bevery side fits\b"),
    "answer": re.compile(r"\bthe answer is\b", re.IGNORECASE),
}
NO_VERDICT = re.compile(r"Option [A-Z]|[^:]*")  # a heading that says nothing of an option


@pytest.fixture(scope="module", params=LESSONS, ids=lambda path: path.stem)
def timeline(request: pytest.FixtureRequest) -> Timeline:
    lesson, solutions = load_lesson(request.param)
    return pace(plan_lesson(lesson, solutions), pace_called(lesson.pace))


def judging(board: Storyboard) -> Iterator[Step]:
    """The steps in which an option is ruled out, or told to be right, in the tool's own words."""
    return (step for step in board.steps if step.stage.split(".")[0] in TELLS and not step.teachers_own)


def verdicts(figure: Figure) -> set[str]:
    """A heading that tells of an option, a cross or a tick beside one, a ring where it differs."""
    return set(_verdicts(figure.entries))


def signs(figure: Figure) -> set[str]:
    """Only the crosses and ticks: once they are told, they may be seen again."""
    return set(_verdicts(tuple(e for e in figure.entries if e.role != Role.HEADING and e.subject is not None)))


def _verdicts(entries: tuple[Entry, ...]) -> Iterator[str]:
    for entry in entries:
        if isinstance(entry, Label) and entry.role == Role.HEADING:
            if not NO_VERDICT.fullmatch(entry.text):
                yield entry.text
        elif (
            entry.role in (Role.WRONG, Role.RIGHT)
            and entry.opacity > 0.0
            and (entry.subject is None or entry.subject.thing == Thing.OPTION)
        ):
            yield entry.id if entry.subject is None else f"{entry.subject.group}: {entry.role}"


def too_early(timeline: Timeline) -> list[str]:
    """Each verdict that a frame shows before it is told."""
    found = []
    said = [moment for moment in moments(timeline) if moment.kind is MomentKind.SAID]
    known: dict[str, set[str]] = {}
    for step in judging(timeline.storyboard):
        tells = TELLS[step.stage.split(".")[0]]
        told = next(moment for moment in said if moment.step.id == step.id and tells.search(moment.text))
        before = known.setdefault(step.item, set())
        before |= _unheaded(step.stills[0])
        for at, figure in frames_of(timeline, step):
            new = verdicts(figure) - before
            if new and at < told.start_s - 1e-6:
                found.append(f"{step.id} shows {sorted(new)} at {at:.2f} s, told at {told.start_s:.2f} s")
                break
        known[step.item] |= signs(step.picture)
    return found


def _unheaded(figure: Figure) -> set[str]:
    return set(_verdicts(tuple(entry for entry in figure.entries if entry.role != Role.HEADING)))


def frames_of(timeline: Timeline, step: Step) -> Iterator[tuple[float, Figure]]:
    """The frames of a step, a still once."""
    for span in timeline.spans:
        if span.step_id != step.id:
            continue
        if isinstance(span.shows, Motion):
            for frame in range(span.frames):
                yield (span.start + frame) / timeline.fps, span.shows.figure_at(frame / span.frames)
        else:
            yield span.start / timeline.fps, span.shows


def test_no_verdict_is_seen_before_it_is_told(timeline: Timeline) -> None:
    assert any(True for _ in judging(timeline.storyboard))
    assert too_early(timeline) == []


def test_a_step_ends_under_the_heading_that_says_the_point(timeline: Timeline) -> None:
    for step in judging(timeline.storyboard):
        (shown,) = (e.text for e in step.picture.entries if isinstance(e, Label) and e.role == Role.HEADING)
        assert shown == step.heading and len(shown) <= 34
        # The answer is said with the first words of its step; where no heading says more, the look itself is named.
        if step.heading_before:
            assert NO_VERDICT.fullmatch(step.heading_before)
        else:
            assert step.stage == "answer"


def test_a_heading_that_comes_too_early_is_seen(timeline: Timeline) -> None:
    """The measure itself: with its verdict over every still, each of these steps is caught."""
    board = timeline.storyboard
    steps = tuple(_judged_at_once(step) if step in tuple(judging(board)) else step for step in board.steps)
    caught = too_early(pace(replace(board, steps=steps)))
    wanted = [step for step in judging(board) if step.heading_before and not NO_VERDICT.fullmatch(step.heading)]
    assert len(wanted) > 2
    assert [line.split(" ")[0] for line in caught] == [step.id for step in wanted]


def _judged_at_once(step: Step) -> Step:
    def headed(figure: Figure) -> Figure:
        return replace(
            figure,
            entries=tuple(
                replace(entry, text=step.heading) if isinstance(entry, Label) and entry.role == Role.HEADING else entry
                for entry in figure.entries
            ),
        )

    beats = tuple(
        replace(beat, start=headed(beat.start), end=headed(beat.end))
        if isinstance(beat, Motion)
        else replace(beat, figure=headed(beat.figure))
        for beat in step.beats
    )
    return replace(step, beats=beats)

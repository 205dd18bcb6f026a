"""The step that counts the corners: where it stands, and that its picture marks what it says."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from demo_items import demo_items

from explainers.choice.model import Solution
from explainers.figure.model import Circle, Dots, Figure, Label, Lines, Role
from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.item.stops import Stop
from explainers.kinds.join_and_cut.facts.tally import TallyFact
from explainers.lesson.planner import plan_lesson
from explainers.storyboard.model import Step
from explainers.storyboard.pacing import pace

ITEMS = demo_items("join-and-cut")
each_item = pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
LONGEST_S = 24.0  # with the pauses for breath; most take about fifteen


@cache
def solved(path: Path) -> Solution:
    return load_solution(path, pairs=True)


def told(path: Path, manner: Manner, language: str = "en-GB", asks: tuple[Stop, ...] = ()) -> tuple[Step, ...]:
    part = LessonPart(show=path, manner=manner, asks=asks)
    return plan_lesson(Lesson(name="one", title="One", language=language, parts=(part,)), [solved(path)]).steps


def ahead_of(path: Path, language: str = "en-GB") -> Step:
    (step,) = (step for step in told(path, Manner.WORKED_EXAMPLE, language) if step.stage == "ahead")
    return step


@each_item
def test_it_stands_before_the_outline_alone_and_after_every_piece_and_pause(path: Path) -> None:
    for manner in Manner:
        stages = [step.stage for step in told(path, manner)]
        if not manner.works_through:
            assert "ahead" not in stages
            continue
        assert Counter(stages)["ahead"] == 1
        at = stages.index("ahead")
        assert stages[at + 1] == "outline" and stages[at - 1] in ("join", "cut")
        assert "pause" not in stages[at:]
    asked = [step.stage for step in told(path, Manner.YOUR_TURN, asks=(Stop("outline"),))]
    assert asked[asked.index("ahead") - 1] == "ask-outline", "it answers what the stop asks"


def signs(figure: Figure) -> tuple[int, int, int]:
    """How many dots, crosses and rings are pointed with."""
    pointers = [entry for entry in figure.entries if entry.role == Role.POINTER]
    dots = sum(len(entry.centres) for entry in pointers if isinstance(entry, Dots))
    crosses = sum(len(entry.segments) // 2 for entry in pointers if isinstance(entry, Lines))
    rings = sum(isinstance(entry, Circle) for entry in pointers)
    assert all(isinstance(entry, Dots | Lines | Circle | Label) for entry in pointers), "nothing else is pointed at"
    return dots, crosses, rings


@each_item
def test_what_is_said_is_what_is_marked(path: Path) -> None:
    step = ahead_of(path)
    (fact,) = step.facts
    assert isinstance(fact, TallyFact)
    words = " ".join(step.narration)
    before, *_, counted, settled = step.stills
    assert signs(before) == (0, 0, 0)
    dots, crosses, rings = signs(settled)
    assert dots == solved(path).outline.corner_count
    if crosses or rings:
        assert signs(counted) == (fact.corners.came, 0, 0), "each corner has a dot of its own"
    assert bool(crosses) == ("cross" in words) and bool(rings) == ("ring" in words)
    assert ("each cross" in words or "crosses" in words) == (crosses > 1)
    assert ("each ring" in words) == (rings > 1)
    assert re.search(rf"\b{dots} (?:are left|corners)", words)
    total = settled.entry("corners-sum")
    assert isinstance(total, Label) and total.text.endswith(f" = {dots}")
    assert str(dots) in settled.alt


@each_item
def test_it_is_short(path: Path) -> None:
    part = LessonPart(show=path, manner=Manner.WORKED_EXAMPLE)
    board = plan_lesson(Lesson(name="one", title="One", parts=(part,)), [solved(path)])
    timeline = pace(board)
    frames = sum(span.frames for span in timeline.spans if span.step_id == f"{path.stem}.ahead")
    assert frames / 30 <= LONGEST_S


@each_item
@pytest.mark.parametrize("language", ["en-US", "de"])
def test_it_is_told_in_every_language(path: Path, language: str) -> None:
    step = ahead_of(path, language)
    assert len(step.narration) == len(ahead_of(path).narration)
    assert step.note and step.heading
    assert (step.narration == ahead_of(path).narration) is (language == "en-US")

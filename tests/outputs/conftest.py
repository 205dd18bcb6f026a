"""Clips that several tests look at, each made once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from outputs.html_pages import browser  # noqa: F401  the fixture, for every module here
from storyboard.short_clip import short_timeline

from explainers.batch import timeline_of
from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.lesson.planner import plan_lesson
from explainers.outputs.clip.writer import write_clip
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline

ITEMS = Path(__file__).resolve().parent.parent.parent / "items"


@pytest.fixture(scope="session")
def own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Clips of a whole run are made before any module has a cache of its own."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EXPLAINERS_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(scope="session")
def short_clip(tmp_path_factory: pytest.TempPathFactory, own_cache: None) -> tuple[Timeline, Path]:
    """The short hand-made clip at full size."""
    timeline = short_timeline()
    return timeline, write_clip(timeline, tmp_path_factory.mktemp("short"))[0]


@pytest.fixture(scope="session")
def demo_preview(
    tmp_path_factory: pytest.TempPathFactory, own_cache: None, cases: Callable[[int, int], int]
) -> tuple[Timeline, Path]:
    """An item told as in the demo lesson, as a preview: every kind of motion, and the countdown; or that lesson."""
    if cases(0, 1):
        timeline = timeline_of(ITEMS / "first-blocks.yaml")
    else:
        part = LessonPart(show=ITEMS / "border-block.yaml", manner=Manner.YOUR_TURN, pause_s=15)
        lesson = Lesson(name="one-block", title="One block", parts=(part,))
        timeline = pace(plan_lesson(lesson, [load_solution(part.show)]))
    return timeline, write_clip(timeline, tmp_path_factory.mktemp("demo"), preview=True)[0]

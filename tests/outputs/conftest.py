"""Clips that several tests look at, each made once."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from outputs.html_pages import browser  # noqa: F401  the fixture, for every module here
from storyboard.short_clip import short_timeline

from explainers.batch import timeline_of
from explainers.outputs.clip.writer import write_clip
from explainers.storyboard.timeline import Timeline

DEMO = Path(__file__).resolve().parent.parent.parent / "items" / "first-blocks.yaml"


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
def demo_preview(tmp_path_factory: pytest.TempPathFactory, own_cache: None) -> tuple[Timeline, Path]:
    """The whole demo lesson as a preview: every kind of motion, and the countdown."""
    timeline = timeline_of(DEMO)
    return timeline, write_clip(timeline, tmp_path_factory.mktemp("demo"), preview=True)[0]

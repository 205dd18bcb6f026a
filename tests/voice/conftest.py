"""The command as a teacher runs it, its pictures flat and small, and every shot that is drawn noted."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from outputs.html_pages import browser  # noqa: F401  the fixture, for every module here
from outputs.test_drawn_shots import Drawer
from typer.testing import CliRunner, Result

from explainers.cli.main import app
from explainers.outputs.clip import drawn_shots
from explainers.outputs.clip import writer as clip
from explainers.outputs.clip.drawing_job import DrawingJob, skips_path
from explainers.video.segment import Segment, write_segment
from explainers.video.skip_packets import skip_packets

ITEMS = Path(__file__).parent.parent.parent / "items"


@pytest.fixture
def items(tmp_path: Path) -> Path:
    """A copy of the demo items, beside which a voice may be kept."""
    folder = tmp_path / "items"
    folder.mkdir()
    for path in ITEMS.glob("*.yaml"):
        shutil.copy(path, folder / path.name)
    return folder


class FlatDrawer(Drawer):
    """Flat pictures, with the packets of unmoving frames that a whole clip needs."""

    def __call__(self, job: DrawingJob, folder: Path, progress: Callable[[int, int], None] | None = None) -> None:
        super().__call__(job, folder, progress)
        skips = skip_packets(job.options)
        assert skips is not None
        write_segment(skips_path(folder), Segment(header=b"", packets=skips))


@pytest.fixture
def drawer(monkeypatch: pytest.MonkeyPatch) -> Drawer:
    """Stands where pictures are drawn."""
    drawer = FlatDrawer()
    monkeypatch.setattr(drawn_shots, "draw", drawer)
    monkeypatch.setattr(clip, "SIZE", (64, 64))
    return drawer


@pytest.fixture
def run() -> Callable[..., Result]:
    """`explainers ...`"""
    return lambda *words: CliRunner().invoke(app, [str(word) for word in words])

"""What is drawn and what is not: counted, with a stand-in for the drawing process, then with the real one."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import textwrap
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from storyboard.short_clip import short_timeline

from explainers.cache.claims import Claims
from explainers.cache.place import shared_store
from explainers.errors import OutputError
from explainers.figure.model import Figure
from explainers.outputs.clip import drawing_process, drawn_by, drawn_shots
from explainers.outputs.clip.assembly import clip_job
from explainers.outputs.clip.drawing_job import DrawingJob, png_path, segment_path
from explainers.outputs.clip.drawn_shots import have_drawn
from explainers.outputs.clip.stills import named_stills, write_stills
from explainers.outputs.clip.writer import KeyFrames, write_clip
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline
from explainers.video.encoder import EncoderOptions, SegmentEncoder
from explainers.video.segment import write_segment

TIMELINE = short_timeline()
OPTIONS = EncoderOptions(width=64, height=64)
TESTS = str(Path(__file__).parent.parent)


class Drawer:
    """Stands where the drawing process is called: flat pictures, every shot noted, a failure on request."""

    def __init__(self) -> None:
        self.drawn: list[str] = []
        self.fail_at: int | None = None

    def __call__(self, job: DrawingJob, folder: Path, progress: Callable[[int, int], None] | None = None) -> None:
        done = 0
        for number, shot in enumerate(job.shots):
            if self.fail_at == number:
                raise OutputError("the process that draws was ended by signal 9")
            self.drawn.append(shot.name)
            done += shot.frames
            if progress is not None:
                progress(done, job.pictures)
            for idr_id in shot.idr_ids:
                encoder = SegmentEncoder(job.options, idr_id=idr_id, key_frames=shot.key_frames)
                for _ in range(shot.frames):
                    encoder.add(np.full((job.options.height, job.options.width, 4), 9, dtype=np.uint8))
                write_segment(segment_path(folder, shot.name, idr_id), encoder.finish())
            if shot.png:
                png_path(folder, shot.name).write_bytes(shot.name.encode())


@pytest.fixture
def drawer(monkeypatch: pytest.MonkeyPatch) -> Drawer:
    drawer = Drawer()
    monkeypatch.setattr(drawn_shots, "draw", drawer)
    return drawer


def had(job: DrawingJob, folder: Path) -> int:
    folder.mkdir()
    drawn = have_drawn(job, folder)
    for shot in job.shots:
        for idr_id in shot.idr_ids:
            assert segment_path(folder, shot.name, idr_id).exists()
        assert not shot.png or png_path(folder, shot.name).exists()
    return drawn


def with_words(timeline: Timeline, *extra: str) -> Timeline:
    """The lesson planned anew, after a teacher has changed what is said, noted and told of its pictures."""
    steps = []
    for step in timeline.storyboard.steps:
        beats = tuple(
            replace(beat, figure=told(beat.figure))
            if hasattr(beat, "figure")
            else replace(beat, start=told(beat.start), end=told(beat.end))
            for beat in step.beats
        )
        steps.append(replace(step, narration=(*step.narration, *extra), note="Wait here.", chapter="A", beats=beats))
    return pace(replace(timeline.storyboard, title="Another", steps=tuple(steps)))


def told(figure: Figure) -> Figure:
    return replace(
        figure, alt="Another text.", entries=tuple(replace(entry, alt="Another.") for entry in figure.entries)
    )


def test_everything_is_drawn_once(drawer: Drawer, tmp_path: Path) -> None:
    job = clip_job(TIMELINE, OPTIONS)
    assert had(job, tmp_path / "a") == 31
    assert drawer.drawn == [shot.name for shot in job.shots]
    assert had(job, tmp_path / "b") == 0
    assert len(drawer.drawn) == len(job.shots)


def test_other_words_draw_nothing(drawer: Drawer, tmp_path: Path) -> None:
    paced = pace(TIMELINE.storyboard)
    had(clip_job(paced, OPTIONS), tmp_path / "a")
    drawer.drawn.clear()
    other = with_words(paced, "A sentence that was not there before, of many words.", "One more.")
    assert other.frames > paced.frames + 30 and other.cues != paced.cues
    assert had(clip_job(other, OPTIONS), tmp_path / "b") == 0
    assert drawer.drawn == []


def test_a_changed_motion_is_drawn_and_nothing_else(drawer: Drawer, tmp_path: Path) -> None:
    had(clip_job(TIMELINE, OPTIONS), tmp_path / "a")
    drawer.drawn.clear()
    turn = TIMELINE.spans[2].shows
    (glide,) = turn.moves  # type: ignore[union-attr]
    spans = list(TIMELINE.spans)
    spans[2] = replace(spans[2], shows=replace(turn, moves=(replace(glide, turn_deg=135.0 - 360.0),)))  # the other way
    assert had(clip_job(replace(TIMELINE, spans=tuple(spans)), OPTIONS), tmp_path / "b") == 12
    assert len(drawer.drawn) == 1 and drawer.drawn[0].startswith("motion-")


@pytest.mark.parametrize("what", ["size", "source", "library"])
def test_another_way_of_drawing_draws_all_anew(
    drawer: Drawer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    job = clip_job(TIMELINE, OPTIONS)
    had(job, tmp_path / "a")
    if what == "size":
        job = replace(job, options=replace(OPTIONS, width=128))
    elif what == "source":
        (tmp_path / "new.py").write_text("# another way to draw\n")
        before = drawn_by.source_files()
        monkeypatch.setattr(drawn_by, "source_files", lambda: (*before, tmp_path / "new.py"))
    else:
        monkeypatch.setattr(drawn_by.metadata, "version", lambda library: "999")
    drawn_by.drawn_by.cache_clear()
    try:
        assert had(job, tmp_path / "b") == 31
    finally:
        monkeypatch.undo()
        drawn_by.drawn_by.cache_clear()


def test_the_source_that_draws_is_all_there() -> None:
    names = {path.name for path in drawn_by.source_files()}
    assert {"worker.py", "renderer.py", "mobjects.py", "motion.py", "encoder.py", "faces.py"} <= names


def test_stills_are_kept_too(drawer: Drawer, tmp_path: Path) -> None:
    stills = {figure for _, figure in named_stills(TIMELINE.storyboard)}
    write_stills(TIMELINE, tmp_path / "a")
    assert len(drawer.drawn) == len(stills)
    write_stills(with_words(TIMELINE), tmp_path / "b")
    assert len(drawer.drawn) == len(stills)


def test_a_run_that_fails_has_not_drawn_in_vain(drawer: Drawer, tmp_path: Path) -> None:
    job = clip_job(TIMELINE, OPTIONS)
    drawer.fail_at = 4
    with pytest.raises(OutputError, match="signal 9"):
        had(job, tmp_path / "a")
    drawer.fail_at = None
    drawer.drawn.clear()
    assert had(job, tmp_path / "b") == 2
    assert drawer.drawn == [shot.name for shot in job.shots[4:]]


def test_a_damaged_entry_is_drawn_anew(drawer: Drawer, tmp_path: Path) -> None:
    job = clip_job(TIMELINE, OPTIONS)
    had(job, tmp_path / "a")
    drawer.drawn.clear()
    entries = [path for path in shared_store().folder.glob("??/*") if path.stat().st_size > 0]
    for path in entries:
        path.write_bytes(path.read_bytes()[:-1])
    assert had(job, tmp_path / "b") == 31
    assert had(job, tmp_path / "c") == 0


@pytest.mark.parametrize("place", ["a file", "read only", "no room"])
def test_a_cache_that_cannot_be_used_is_passed_over(
    drawer: Drawer,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
    place: str,
) -> None:
    if place == "a file":
        (tmp_path / "cache").write_text("no folder")
    elif place == "read only":
        if os.geteuid() == 0:
            pytest.skip("root may write anywhere")
        (tmp_path / "cache").mkdir(mode=0o555)
    else:
        monkeypatch.setenv("EXPLAINERS_CACHE_MB", "0")
    monkeypatch.setenv("EXPLAINERS_CACHE", str(tmp_path / "cache"))
    job = clip_job(TIMELINE, OPTIONS)
    assert had(job, tmp_path / "a") == had(job, tmp_path / "b") == 31
    assert len(caplog.records) == (0 if place == "no room" else 2)  # one a run
    if place == "a file":
        assert (tmp_path / "cache").read_text() == "no folder"


def test_a_bound_smaller_than_the_lesson_still_gives_the_lesson(
    drawer: Drawer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("EXPLAINERS_CACHE_MB", "0.002")
    job = clip_job(TIMELINE, OPTIONS)
    had(job, tmp_path / "a")
    assert shared_store().contents().bytes <= 2000
    had(job, tmp_path / "b")


OWNER = """
import sys, time
from pathlib import Path
sys.path.insert(0, sys.argv[1])
import outputs.test_drawn_shots as shots
from explainers.outputs.clip import drawn_shots
from explainers.outputs.clip.assembly import clip_job
drawer = shots.Drawer()
def slow(job, folder, progress=None):
    print("drawing", flush=True)
    sys.stdin.readline()
    drawer(job, folder, progress)
drawn_shots.draw = slow
folder = Path(sys.argv[2])
folder.mkdir()
drawn_shots.have_drawn(clip_job(shots.TIMELINE, shots.OPTIONS), folder)
"""


@pytest.mark.skipif(os.name != "posix", reason="there are no such locks here")
@pytest.mark.parametrize("killed", [False, True])
def test_what_another_run_is_drawing_is_waited_for(
    drawer: Drawer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, killed: bool
) -> None:
    owner = subprocess.Popen(
        [sys.executable, "-c", OWNER, TESTS, str(tmp_path / "other")],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert owner.stdin is not None and owner.stdout is not None
    waits = 0

    def waited(seconds: float) -> None:
        nonlocal waits
        waits += 1
        if waits == 1:
            if killed:
                owner.kill()
            else:
                owner.stdin.write("go on\n")  # type: ignore[union-attr]
                owner.stdin.flush()  # type: ignore[union-attr]
        sleep(seconds)

    sleep = time.sleep
    monkeypatch.setattr(drawn_shots.time, "sleep", waited)
    try:
        assert owner.stdout.readline() == "drawing\n"
        assert had(clip_job(TIMELINE, OPTIONS), tmp_path / "a") == (31 if killed else 0)
        assert waits > 0
    finally:
        owner.kill()
        owner.wait()
        owner.stdin.close()
        owner.stdout.close()


def test_a_run_that_has_all_it_wants_waits_for_nobody(drawer: Drawer, tmp_path: Path) -> None:
    job = clip_job(TIMELINE, OPTIONS)
    had(job, tmp_path / "a")
    with Claims(shared_store().folder):
        assert had(job, tmp_path / "b") == 0


# With the real process -------------------------------------------------------------------------------------------


def clip_of(timeline: Timeline, folder: Path, **options: object) -> bytes:
    return write_clip(timeline, folder, preview=True, **options)[0].read_bytes()  # type: ignore[arg-type]


def test_a_second_clip_starts_no_process_and_is_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = clip_of(TIMELINE, tmp_path / "a")
    monkeypatch.setattr(drawing_process.subprocess, "Popen", None)  # to call it is an error
    seen: list[object] = []
    assert clip_of(TIMELINE, tmp_path / "b", progress=lambda *news: seen.append(news)) == first
    assert seen == []
    # Packets of unmoving frames that have been lost are derived again, without drawing.
    skips = [path for path in shared_store().folder.glob("??/*") if b"\0\0\0\0" in path.read_bytes()[51:76]]
    assert len(skips) == 1
    skips[0].unlink()
    assert clip_of(TIMELINE, tmp_path / "c") == first
    assert skips[0].exists()
    # Short motions and all stills serve a clip with fewer key frames too.
    assert len(clip_of(TIMELINE, tmp_path / "d", key_frames=KeyFrames.HOLDS)) < len(first)


def test_a_killed_process_leaves_what_it_had_drawn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[subprocess.Popen[str]] = []
    start = subprocess.Popen

    def remembered(*args: object, **kwargs: object) -> subprocess.Popen[str]:
        started.append(start(*args, **kwargs))  # type: ignore[call-overload]
        return started[-1]

    monkeypatch.setattr(drawing_process.subprocess, "Popen", remembered)

    def kill_late(done: int, total: int) -> None:
        if done == 20:
            os.kill(started[0].pid, signal.SIGKILL)

    with pytest.raises(OutputError, match="signal 9"):
        clip_of(TIMELINE, tmp_path / "a", progress=kill_late)
    assert list((tmp_path / "a").iterdir()) == []
    seen: list[tuple[int, int]] = []
    resumed = clip_of(TIMELINE, tmp_path / "a", progress=lambda *news: seen.append(news))
    assert 2 <= seen[-1][1] < 31 and seen[-1][0] == seen[-1][1]  # less than all
    monkeypatch.setenv("EXPLAINERS_CACHE", str(tmp_path / "empty"))
    assert resumed == clip_of(TIMELINE, tmp_path / "b")


def test_nothing_missing_means_no_animation_library(tmp_path: Path) -> None:
    code = textwrap.dedent("""
        import sys
        from pathlib import Path
        sys.path.insert(0, sys.argv[1])
        from storyboard.short_clip import short_timeline
        from explainers.outputs.clip.writer import write_clip
        write_clip(short_timeline(), Path(sys.argv[2]), preview=True)
        assert not {"manim", "scenes", "manimpango"} & set(sys.modules)
        """)
    clip_of(TIMELINE, tmp_path / "a")
    done = subprocess.run(
        [sys.executable, "-c", code, TESTS, str(tmp_path / "b")], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "b" / "sample-lesson.mp4").read_bytes() == (tmp_path / "a" / "sample-lesson.mp4").read_bytes()

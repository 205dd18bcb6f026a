"""One thing measured in a process of its own: a clip made, a job drawn, frames encoded.

    .venv/bin/python tests/bench/measured_runs.py clip LESSON FOLDER [KEY_FRAMES]
    .venv/bin/python tests/bench/measured_runs.py draw LESSON OPTIONS
    .venv/bin/python tests/bench/measured_runs.py bound LESSON OPTIONS

LESSON is `words`, `step`, `alone` or a number of questions; the first three are changes of the bench lesson. Each run
prints one JSON object. `clip_speed.py` starts them.
"""

from __future__ import annotations

import json
import multiprocessing
import os
import resource
import sys
from collections.abc import Callable, Iterable, Sequence
from contextlib import redirect_stdout
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from bench_lesson import alone, bench_timeline, other_words, with_step_changed

from explainers.figure.model import Figure
from explainers.outputs.clip.assembly import clip_job, placed_spans
from explainers.outputs.clip.drawing_job import DrawingJob, skips_path
from explainers.outputs.clip.writer import KeyFrames, write_clip
from explainers.storyboard.timeline import Span, Timeline
from explainers.video.encoder import EncoderOptions
from explainers.video.segment import Segment, write_segment
from explainers.video.skip_packets import skip_packets

OPTIONS = {
    "shipped": EncoderOptions(),
    # Quality held instead of the quantiser, as most people have it; the look-ahead and all else as the preset has it.
    "veryfast": EncoderOptions(
        preset="veryfast", x264="crf=18:keyint=infinite:scenecut=0:bframes=0:stitchable=1:threads=1"
    ),
}

_FRAMES_IN_MEMORY = 700  # of 3 MB each; encoded, then forgotten


def lesson(name: str) -> Timeline:
    """The bench lesson, changed or of another length."""
    if name == "words":
        return other_words(bench_timeline())
    if name == "step":
        return with_step_changed(bench_timeline())
    if name == "alone":
        return alone(with_step_changed(bench_timeline()))
    return bench_timeline(int(name))


def clip(name: str, folder: str, key_frames: str = "seeking") -> dict[str, Any]:
    """A clip through the package's own door; seconds leave out what runs before this module does."""
    timeline = lesson(name)
    start = perf_counter()
    seen = [0]
    path, *_ = write_clip(
        timeline,
        Path(folder),
        key_frames=KeyFrames(key_frames),
        progress=lambda done, total: seen.__setitem__(0, done),
    )
    return {
        "seconds": perf_counter() - start,
        "pictures": seen[0],
        "bytes": path.stat().st_size,
        "path": str(path),
        # The asking process and the drawing one live at the same time: their peaks are added.
        "megabytes": (_peak_kb(resource.RUSAGE_SELF) + _peak_kb(resource.RUSAGE_CHILDREN)) / 1000,
    }


def draw(name: str, options: str) -> dict[str, Any]:
    """Draw, convert and encode every shot, the animation library loaded already; nothing is assembled."""
    import manim  # noqa: F401  # loaded before the clock starts

    import scenes.motion_scene
    import scenes.renderer  # noqa: F401
    from scenes.worker import draw as draw_job

    job = _job(lesson(name), OPTIONS[options])
    with TemporaryDirectory() as folder, open(os.devnull, "w") as silence:
        # Given beforehand: with other options a hold may have to be encoded, which the bound does not do either.
        skips = skip_packets(OPTIONS["shipped"])
        assert skips is not None
        write_segment(skips_path(Path(folder)), Segment(header=b"", packets=skips))
        start, cpu = perf_counter(), sum(os.times()[:2])
        with redirect_stdout(silence):
            draw_job(job, Path(folder))
        return {"seconds": perf_counter() - start, "cpu": sum(os.times()[:2]) - cpu, "pictures": job.pictures}


def bound(name: str, options: str) -> dict[str, Any]:
    """Encode the distinct frames, in memory as yuv420p, in two processes that have half of the shots each.

    One encoder a process, an IDR picture at the start of each shot; drawing and converting are not counted.
    """
    chosen = OPTIONS[options]
    job = _job(lesson(name), chosen)
    seconds = cpu = 0.0
    frames = 0
    for shots in _drawn_in_lots(job):
        frames += sum(map(len, shots))
        wall_s, cpu_s = _encoded_on_both_cores(shots, chosen)
        seconds += wall_s
        cpu += cpu_s
    return {"seconds": seconds, "cpu": cpu, "pictures": frames}


def _job(timeline: Timeline, options: EncoderOptions) -> DrawingJob:
    return clip_job(timeline, options, placed_spans(timeline))


def _drawn_in_lots(job: DrawingJob) -> Iterable[list[list[Any]]]:
    """Converted frames of each shot, as many shots at a time as memory should hold; drawn by manim's own renderer."""
    from manim import config
    from manim.renderer.cairo_renderer import CairoRenderer

    from scenes.motion_scene import SpanScene

    class Kept(CairoRenderer):  # type: ignore[misc]  # manim is not checked
        def __init__(self) -> None:
            super().__init__()
            self.frames: list[Any] = []

        def add_frame(self, frame: Any, num_frames: int = 1) -> None:
            self.frames.append(job.options.converted(frame))

    config.pixel_width, config.pixel_height, config.frame_rate = job.options.width, job.options.height, job.options.fps
    config.dry_run, config.disable_caching = True, True
    config.progress_bar, config.verbosity = "none", "ERROR"
    lot: list[list[Any]] = []
    with TemporaryDirectory() as folder:
        config.media_dir = folder
        for shot in job.shots:
            kept = Kept()
            frames = shot.frames if not isinstance(shot.shows, Figure) else 1
            SpanScene(spans=[Span(step_id="s", shows=shot.shows, start=0, frames=frames)], renderer=kept).render()
            lot.append(kept.frames)
            if sum(map(len, lot)) >= _FRAMES_IN_MEMORY:
                yield lot
                lot = []
    if lot:
        yield lot


def _encoded_on_both_cores(shots: Sequence[list[Any]], options: EncoderOptions) -> tuple[float, float]:
    """Wall seconds of the slower half, processor seconds of both."""
    halves: list[list[list[Any]]] = [[], []]
    for shot in sorted(shots, key=len, reverse=True):
        min(halves, key=lambda half: sum(map(len, half))).append(shot)
    fork: Any = multiprocessing.get_context("fork")  # so that no frame is copied
    together, answers = fork.Barrier(2), fork.SimpleQueue()

    def encode(half: list[list[Any]]) -> None:
        from av.video.frame import PictureType

        context = options.opened_context()
        together.wait()
        start, cpu = perf_counter(), sum(os.times()[:2])
        count = 0
        for shot in half:
            for number, frame in enumerate(shot):
                frame.pts, count = count, count + 1
                frame.pict_type = PictureType.NONE if number else PictureType.I
                for packet in context.encode(frame):
                    bytes(packet)
        for packet in context.encode(None):
            bytes(packet)
        answers.put((perf_counter() - start, sum(os.times()[:2]) - cpu))

    processes = [fork.Process(target=encode, args=(half,)) for half in halves]
    for process in processes:
        process.start()
    measured = [answers.get() for _ in processes]
    for process in processes:
        process.join()
    return max(wall for wall, _ in measured), sum(cpu for _, cpu in measured)


def _peak_kb(who: int) -> int:
    return resource.getrusage(who).ru_maxrss


if __name__ == "__main__":
    kind, *arguments = sys.argv[1:]
    runs: dict[str, Callable[..., dict[str, Any]]] = {"clip": clip, "draw": draw, "bound": bound}
    print(json.dumps(runs[kind](*arguments)))

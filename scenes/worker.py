"""The process that draws: a job in, pictures and encoded segments out.

    python -m scenes.worker FOLDER

FOLDER holds the job (see `explainers.outputs.clip.drawing_job`) and takes what is made. Each line on standard output
is one JSON object: how far the work is, or what stopped it. manim lives in this process alone.
"""

from __future__ import annotations

import contextlib
import json
import shutil
import sys
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path

from explainers.errors import ExplainersError
from explainers.outputs.clip.drawing_job import DrawingJob, Shot, png_path, read_job, segment_path, skips_path
from explainers.safe_write import reported
from explainers.storyboard.timeline import Span
from explainers.video.encoder import EncoderOptions, Pixels, SegmentEncoder
from explainers.video.encoding_pool import EncodingPool, SegmentQueue
from explainers.video.rolling_frame import PixelBox, RollingFrame
from explainers.video.segment import Segment, read_segment, write_segment
from explainers.video.skip_packets import LONGEST_GOP, skip_packets

from .png import png_bytes

__all__ = ["main"]


class _Files:
    """Takes the pictures of one shot after the other and has written what each shot asks for."""

    def __init__(self, job: DrawingJob, folder: Path, skips: tuple[bytes, ...] | None, pool: EncodingPool) -> None:
        self._job = job
        self._folder = folder
        self._skips = skips
        self._pool = pool
        self._frame = RollingFrame(job.options) if any(shot.idr_ids for shot in job.shots) else None
        self._shots: Iterator[Shot] = iter(job.shots)
        self._shot: Shot | None = None
        self._segments: SegmentQueue | None = None
        self._begun = False  # whether the segment has had its first picture
        self._done = 0
        self._total = job.pictures

    def begin(self) -> None:
        self._shot = shot = next(self._shots)
        self._begun = False
        if not shot.idr_ids:
            self._segments = None
            return

        def write(number: int, segment: Segment) -> None:
            write_segment(segment_path(self._folder, shot.name, shot.idr_ids[number]), segment)

        self._segments = self._pool.segments(
            [
                partial(SegmentEncoder, self._job.options, idr_id=idr_id, key_frames=shot.key_frames)
                for idr_id in shot.idr_ids
            ],
            write,
            # A still whose unmoving frames cannot be had for nothing is encoded for as long as its run is.
            repeats=LONGEST_GOP if shot.is_still and self._skips is None else 1,
        )

    def picture(self, pixels: Pixels, changed: Sequence[PixelBox]) -> None:
        shot = self._shot
        assert shot is not None
        if self._frame is not None:
            parts = self._frame.update(pixels, changed)
            if self._segments is not None:
                self._segments.put(parts if self._begun else [self._frame.whole()])
                self._begun = True
        if shot.png:
            self._pool.run(partial(_write_png, png_path(self._folder, shot.name), pixels[:, :, :3].copy()))
        self._done += 1
        _say(done=self._done, total=self._total)

    def end(self) -> None:
        if self._segments is not None:
            self._segments.end()


def draw(job: DrawingJob, folder: Path) -> None:
    """Draw and encode every shot of a job into a folder.

    Raises : FontError for a typeface or a character that is missing, OutputError if a file cannot be written
    """
    with reported(folder.parent), ThreadPoolExecutor(max_workers=1) as beside:
        deriving = beside.submit(_skips, job, folder)  # while the animation library is loaded
        _settle_manim(job.options, folder)

        from .motion_scene import SpanScene
        from .renderer import PictureRenderer

        skips = deriving.result()
        spans = [Span(step_id=shot.name, shows=shot.shows, start=0, frames=shot.frames) for shot in job.shots]
        with EncodingPool(job.options) as pool:
            renderer = PictureRenderer(_Files(job, folder, skips, pool), job.options.fps)
            SpanScene(spans=spans, fps=job.options.fps, renderer=renderer).render()


def _skips(job: DrawingJob, folder: Path) -> tuple[bytes, ...] | None:
    """The packets of unmoving frames: those already there, else derived; None where none can be used or are asked."""
    path = skips_path(folder)
    if path.exists():
        return read_segment(path).packets
    skips = skip_packets(job.options) if any(shot.idr_ids for shot in job.shots) else None
    if skips is not None:
        write_segment(path, Segment(header=b"", packets=skips))
    return skips


def _write_png(path: Path, pixels: Pixels) -> None:
    """Write a picture that may be looked for while others are drawn: whole, then renamed."""
    unfinished = path.with_suffix(".part")
    unfinished.write_bytes(png_bytes(pixels))
    unfinished.replace(path)


def _settle_manim(options: EncoderOptions, folder: Path) -> None:
    """Set manim's one global configuration, before any scene is built."""
    from manim import config

    from .mobjects import FRAME_HEIGHT, FRAME_WIDTH

    config.media_dir = str(folder / "manim")
    config.renderer = "cairo"
    config.pixel_width, config.pixel_height, config.frame_rate = options.width, options.height, options.fps
    config.frame_width, config.frame_height = FRAME_WIDTH, FRAME_HEIGHT
    config.background_opacity = 1.0
    config.dry_run = True
    config.disable_caching = True
    config.progress_bar = "none"
    config.verbosity = "ERROR"


def _remove(folder: Path) -> None:
    """Remove a folder into which threads may be writing still: a file that comes between makes it fail once."""
    for _ in range(40):
        shutil.rmtree(folder, ignore_errors=True)
        if not folder.exists():
            return
        time.sleep(0.05)


class _AbandonedError(Exception):
    """Whoever asked for the work is gone."""


def _say(**words: object) -> None:
    try:
        print(json.dumps(words), flush=True)
    except BrokenPipeError as error:
        raise _AbandonedError from error


def main(arguments: list[str] | None = None) -> int:
    """Do the job in the folder named; the exit code is 0, or 1 after saying what is wrong."""
    folder = Path((sys.argv[1:] if arguments is None else arguments)[0])
    try:
        draw(read_job(folder), folder)
    except ExplainersError as error:
        _say(error=type(error).__name__, message=str(error))
        return 1
    except _AbandonedError:
        _remove(folder)  # nobody else will
        with contextlib.suppress(OSError):
            sys.stdout.close()
        return 1
    except KeyboardInterrupt:
        return 1  # the process that asked was interrupted too, and says so
    return 0


if __name__ == "__main__":
    sys.exit(main())

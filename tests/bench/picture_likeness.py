"""How near the pictures of a clip are to those that were drawn: SSIM on luma, and which pictures were drawn.

    .venv/bin/python tests/bench/picture_likeness.py OUR_CLIP PLAIN_CLIP PLAIN_CLIP ...

Each clip is held against what its own scene draws, put into luma by the matrix that the clip itself is written with:
the first of our scene (BT.709), the others of the plain scene (BT.601, as manim writes). Looked at are all frames of
the first SPANS spans, every EVERYth of them. Prints one JSON list, an object for each clip.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

SPANS = 24
EVERY = 5

os.environ["BENCH_SPANS"] = str(SPANS)

import av
import numpy as np
from bench_lesson import bench_timeline
from manim import config
from manim.renderer.cairo_renderer import CairoRenderer

from explainers.figure.model import Figure
from explainers.video.encoder import EncoderOptions

Luma = np.ndarray[Any, Any]


def ssim(first: Luma, second: Luma) -> Luma:
    """SSIM of each 8 x 8 block of two luma planes (Wang et al. 2004, constants 0.01 and 0.03, plain means)."""
    a, b = (_blocks(plane) for plane in (first, second))
    mean_a, mean_b = a.mean(axis=(1, 3)), b.mean(axis=(1, 3))
    spread_a, spread_b = a.var(axis=(1, 3)), b.var(axis=(1, 3))
    both = (a * b).mean(axis=(1, 3)) - mean_a * mean_b
    c1, c2 = (0.01 * 255) ** 2, (0.03 * 255) ** 2
    like: Luma = ((2 * mean_a * mean_b + c1) * (2 * both + c2)) / (
        (mean_a**2 + mean_b**2 + c1) * (spread_a + spread_b + c2)
    )
    return like


def luma(frame: av.VideoFrame) -> Luma:
    """The luma plane of a yuv420p picture."""
    plane = frame.planes[0]
    rows: Luma = np.frombuffer(bytes(plane), dtype=np.uint8).reshape(frame.height, plane.line_size)
    return rows[:, : frame.width]


def likeness(clip: Path, drawn: dict[int, Luma], moving: set[int]) -> dict[str, float]:
    """Mean SSIM over the frames looked at, over those that move, and over blocks with something in them."""
    whole, busy = [], []
    moving_only = []
    with av.open(str(clip)) as container:
        for number, frame in enumerate(container.decode(video=0)):
            if number > max(drawn):
                break
            if number in drawn:
                like = ssim(luma(frame), drawn[number])
                filled = _blocks(drawn[number]).var(axis=(1, 3)) > 1.0
                whole.append(float(like.mean()))
                busy.append(float(like[filled].mean()))
                if number in moving:
                    moving_only.append(whole[-1])
    return {
        "all": float(np.mean(whole)),
        "moving": float(np.mean(moving_only)),
        "busy": float(np.mean(busy)),
        "frames": len(whole),
    }


def _blocks(plane: Luma) -> Luma:
    rows, columns = plane.shape[0] // 8, plane.shape[1] // 8
    return plane[: rows * 8, : columns * 8].astype(np.float64).reshape(rows, 8, columns, 8)


class _Kept(CairoRenderer):  # type: ignore[misc]  # manim is not checked
    """manim's own way of drawing; luma of the frames looked at is kept, nothing encoded."""

    def __init__(self, bt709: bool) -> None:
        super().__init__()
        self.bt709 = bt709
        self.number = 0
        self.drawn: dict[int, Luma] = {}

    def add_frame(self, frame: Any, num_frames: int = 1) -> None:
        wanted = [k for k in range(self.number, self.number + num_frames) if k % EVERY == 0]
        if wanted:
            if self.bt709:
                converted = EncoderOptions().converted(frame)
            else:
                converted = av.VideoFrame.from_ndarray(frame, format="rgba").reformat(format="yuv420p")
            plane = luma(converted).copy()
            self.drawn.update(dict.fromkeys(wanted, plane))
        self.number += num_frames


def _scenes() -> Iterator[tuple[Any, _Kept]]:
    from plain_lesson import PlainLesson

    from scenes.motion_scene import SpanScene

    kept = _Kept(bt709=True)
    yield SpanScene(spans=bench_timeline().spans[:SPANS], renderer=kept), kept
    kept = _Kept(bt709=False)
    yield PlainLesson(renderer=kept), kept


def main() -> None:
    """Draw both scenes, then decode the clips."""
    ours, *plain = map(Path, sys.argv[1:])
    config.pixel_width, config.pixel_height, config.frame_rate = 1920, 1080, 30
    config.dry_run, config.disable_caching = True, True
    config.progress_bar, config.verbosity = "none", "ERROR"
    moving = {
        number
        for span in bench_timeline().spans[:SPANS]
        if not isinstance(span.shows, Figure)
        for number in range(span.start, span.end)
    }
    found = []
    with TemporaryDirectory() as folder:
        config.media_dir = folder
        for (scene, kept), clips in zip(_scenes(), ([ours], plain), strict=True):
            scene.render()
            found += [likeness(clip, kept.drawn, moving) for clip in clips]
    print(json.dumps(found))


if __name__ == "__main__":
    main()

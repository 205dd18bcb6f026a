"""What threads encode is what one thread encodes, and a failure in a thread is not lost."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from threading import Event

import av
import numpy as np
import pytest

from explainers.video.changed_parts import PixelBox
from explainers.video.encoder import EncoderOptions, SegmentEncoder
from explainers.video.encoding_pool import EncodingPool
from explainers.video.rolling_frame import RollingFrame
from explainers.video.segment import Segment

OPTIONS = EncoderOptions(width=320, height=180)
SHOTS = 12


def pictures(shot: int) -> list[np.ndarray]:
    """A square on its way; each shot has another number of frames, some a single one."""
    frames = []
    for k in range(1 + 5 * (shot % 4)):
        pixels = np.full((180, 320, 4), 255, dtype=np.uint8)
        pixels[20 + shot : 80 + shot, 7 * k : 60 + 7 * k, :3] = (31 + 10 * shot, 41, 200 - 10 * shot)
        frames.append(pixels)
    return frames


def changed(shot: int, k: int) -> list[PixelBox]:
    """Where picture k of a shot differs from the one before."""
    return [(max(0, 7 * k - 7), 20 + shot, min(320, 60 + 7 * k), 80 + shot)] if k else [(0, 0, 320, 180)]


def alone(shot: int, idr_id: int) -> Segment:
    """Every picture converted whole, all encoded in this thread."""
    encoder = SegmentEncoder(OPTIONS, idr_id=idr_id)
    for k, pixels in enumerate(pictures(shot)):
        (left, top, right, bottom), reach = changed(shot, k)[0], 4
        box = (left - left % 2 - reach, top - top % 2 - reach, right + right % 2 + reach, bottom + bottom % 2 + reach)
        within = (max(0, box[0]), max(0, box[1]), min(320, box[2]), min(180, box[3]))
        encoder.add_frame(OPTIONS.converted(pixels), [within])
    return encoder.finish()


def in_threads(threads: int, room: int) -> dict[tuple[int, int], Segment]:
    made: dict[tuple[int, int], Segment] = {}
    rolling = RollingFrame(OPTIONS)
    with EncodingPool(OPTIONS, threads=threads, room=room) as pool:
        for shot in range(SHOTS):

            def keep(number: int, segment: Segment, shot: int = shot) -> None:
                made[shot, number] = segment

            queue = pool.segments([partial(SegmentEncoder, OPTIONS, idr_id=idr_id) for idr_id in (0, 1)], keep)
            for k, pixels in enumerate(pictures(shot)):
                parts = rolling.update(pixels, changed(shot, k))
                queue.put(parts if k else [rolling.whole()])
            queue.end()
    return made


def luma(segment: Segment) -> list[np.ndarray]:
    decoder = av.CodecContext.create("h264", "r")
    decoder.extradata = segment.header
    frames = [frame for packet in segment.packets for frame in decoder.decode(av.Packet(packet))]
    return [np.asarray(frame.to_ndarray())[:180] for frame in [*frames, *decoder.decode(None)]]


@pytest.mark.parametrize(("threads", "room"), [(1, 0), (2, 300_000), (3, 10_000_000)])
def test_threads_make_the_same_packets(threads: int, room: int) -> None:
    made = in_threads(threads, room)
    assert made == {(shot, idr_id): alone(shot, idr_id) for shot in range(SHOTS) for idr_id in (0, 1)}


def test_decoded_pictures_are_those_that_were_drawn() -> None:
    # Each thread lays all its pictures on one frame: one laid on it too early would show here.
    for (shot, _), segment in in_threads(threads=2, room=300_000).items():
        drawn = pictures(shot)
        shown = luma(segment)
        assert len(shown) == len(drawn)
        for mine, pixels in zip(shown, drawn, strict=True):
            plane = OPTIONS.converted(pixels).to_ndarray()[:180]
            assert np.abs(mine.astype(int) - plane).mean() < 1.0


@pytest.mark.parametrize("where", ["encoder", "frame", "finish", "task"])
def test_a_failure_in_a_thread_is_raised(where: str) -> None:
    class Failing(SegmentEncoder):
        def add_frame(self, frame: av.VideoFrame, changed: Sequence[PixelBox] | None = None) -> None:
            if where == "frame":
                raise OSError("no room")
            super().add_frame(frame, changed)

    def make() -> SegmentEncoder:
        if where == "encoder":
            raise OSError("no room")
        return Failing(OPTIONS)

    def written(number: int, segment: Segment) -> None:
        if where == "finish":
            raise OSError("no room")

    def task() -> None:
        if where == "task":
            raise OSError("no room")

    rolling = RollingFrame(OPTIONS)
    whole = rolling.update(pictures(0)[0], [])

    def draw() -> None:
        with EncodingPool(OPTIONS, threads=2, room=200_000) as pool:
            for _ in range(20):
                queue = pool.segments([make], written)
                for _ in range(4):
                    queue.put(whole)
                queue.end()
                pool.run(task)

    with pytest.raises(OSError, match="no room"):
        draw()


def test_what_stops_the_drawing_stops_the_threads() -> None:
    started, went_on = Event(), Event()

    def draw() -> None:
        with EncodingPool(OPTIONS, threads=1) as pool:
            pool.run(lambda: started.wait(10) and None)  # type: ignore[func-returns-value]
            pool.run(went_on.set)
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        draw()
    started.set()
    assert not went_on.wait(0.2)

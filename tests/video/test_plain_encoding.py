"""An encoder whose segments cannot be joined: every frame is encoded again, and the clip is the same to look at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pytest

from explainers.video.assembly import Labels, write_mp4, written_parts
from explainers.video.encoder import EncoderOptions, SegmentEncoder
from explainers.video.plain_encoding import plainly_encoded, segments_can_be_joined
from explainers.video.segment import Segment

OPTIONS = EncoderOptions(width=320, height=192)
REORDERING = replace(OPTIONS, x264=OPTIONS.x264.replace("bframes=0", "bframes=2:b-adapt=0"))


def segment_of(options: EncoderOptions, levels: list[int]) -> Segment:
    encoder = SegmentEncoder(options)
    for level in levels:
        encoder.add(np.full((options.height, options.width, 4), level, dtype=np.uint8))
    return encoder.finish()


def test_our_own_segments_can_be_joined_and_reordered_ones_cannot() -> None:
    assert segments_can_be_joined(OPTIONS)
    assert not segments_can_be_joined(REORDERING)


@pytest.mark.parametrize("options", [OPTIONS, REORDERING], ids=["in order", "reordered"])
def test_every_frame_comes_out_in_its_place(options: EncoderOptions, tmp_path: Path) -> None:
    still, motion = segment_of(options, [40]), segment_of(options, [80, 120, 160, 200, 240])

    def runs() -> Iterator[tuple[Segment, tuple[int, ...]]]:
        yield still, (7, 6)
        yield motion, (5,)
        yield still, (1,)
        yield still, (2,)

    path = tmp_path / "plain.mp4"
    assert write_mp4(path, options, plainly_encoded(options, runs()), Labels(title="Plain")) == 21
    assert written_parts(path).frames == 21
    with av.open(str(path)) as container:
        video = container.streams.video[0]
        assert bool(video.codec_context.has_b_frames) is (options is REORDERING)
        video.codec_context.options = {"err_detect": "explode"}
        frames = list(container.decode(video))
    assert [Fraction(frame.pts) * video.time_base for frame in frames] == [Fraction(k, 30) for k in range(21)]
    lumas = [int(np.frombuffer(frame.planes[0], dtype=np.uint8)[0]) for frame in frames]
    meant = [16 + 219 * level / 255 for level in [40] * 13 + [80, 120, 160, 200, 240] + [40] * 3]
    assert lumas == pytest.approx(meant, abs=2)
    assert {0, 7, 13, 18, 19} <= {number for number, frame in enumerate(frames) if frame.key_frame}

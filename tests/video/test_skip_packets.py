"""A hold is one picture and packets that say that nothing moves: the decoded frames are equal to the last bit."""

from __future__ import annotations

from dataclasses import replace

import av
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainers.video.encoder import EncoderOptions, Pixels, SegmentEncoder
from explainers.video.segment import Segment
from explainers.video.skip_packets import LONGEST_GOP, hold_packets, skip_packets

SMALL = EncoderOptions(width=320, height=192)


def noise(options: EncoderOptions, seed: int = 1) -> Pixels:
    """A picture with nothing flat in it: the hardest to hold still."""
    values = np.random.default_rng(seed).integers(0, 256, (options.height, options.width, 4))
    return values.astype(np.uint8)


def encoded(options: EncoderOptions, pixels: Pixels, frames: int = 1) -> Segment:
    encoder = SegmentEncoder(options)
    for _ in range(frames):
        encoder.add(pixels)
    return encoder.finish()


def decoded(segment: Segment, packets: tuple[bytes, ...]) -> list[bytes]:
    """The planes of every frame, from a decoder that stops at the first fault."""
    decoder = av.CodecContext.create("h264", "r")
    decoder.extradata = segment.header
    decoder.options = {"err_detect": "explode"}
    frames = [frame for packet in packets for frame in decoder.decode(av.Packet(packet))]
    frames.extend(decoder.decode(None))
    return [b"".join(bytes(plane) for plane in frame.planes) for frame in frames]


@pytest.mark.parametrize("options", [SMALL, EncoderOptions(width=640, height=360)])
def test_every_frame_of_a_hold_is_the_first_one(options: EncoderOptions) -> None:
    skips = skip_packets(options)
    assert skips is not None
    segment = encoded(options, noise(options))
    packets = hold_packets(segment, 133, skips)
    frames = decoded(segment, packets)
    assert len(frames) == 133
    assert set(frames) == {frames[0]}
    assert sum(len(packet) for packet in packets) < 3 * len(segment.packets[0]) + 133 * 40


def test_a_hold_after_another_picture_shows_nothing_of_it() -> None:
    skips = skip_packets(SMALL)
    first, second = encoded(SMALL, noise(SMALL, 1)), encoded(SMALL, noise(SMALL, 2))
    frames = decoded(first, hold_packets(first, 9, skips) + hold_packets(second, 9, skips))
    assert set(frames[:9]) == {frames[0]}
    assert set(frames[9:]) == {decoded(second, second.packets)[0]}


def test_without_skip_packets_real_frames_are_repeated() -> None:
    segment = encoded(SMALL, noise(SMALL), frames=LONGEST_GOP)
    packets = hold_packets(segment, 150, None)
    assert len(decoded(segment, packets)) == 150
    assert packets[:50] == packets[50:100] == packets[100:]
    with pytest.raises(ValueError, match="cannot be made"):
        hold_packets(encoded(SMALL, noise(SMALL)), 2, None)


def test_an_encoder_whose_packets_say_more_is_not_believed() -> None:
    assert skip_packets(replace(SMALL, x264=SMALL.x264 + ":bframes=2")) is None
    assert skip_packets(replace(SMALL, x264=SMALL.x264 + ":keyint=24:intra-refresh=1")) is None


@given(frames=st.integers(min_value=1, max_value=1000))
def test_runs_are_of_two_to_sixty_frames(frames: int) -> None:
    skips = tuple(bytes([number]) for number in range(16))
    packets = hold_packets(Segment(header=b"", packets=(b"idr",)), frames, skips)
    assert len(packets) == frames
    starts = [number for number, packet in enumerate(packets) if packet == b"idr"]
    lengths = [end - start for start, end in zip(starts, [*starts[1:], frames], strict=True)]
    assert starts[0] == 0
    assert max(lengths) <= LONGEST_GOP
    assert frames == 1 or min(lengths) >= 2
    for start, length in zip(starts, lengths, strict=True):
        assert [packet[0] for packet in packets[start + 1 : start + length]] == [n % 16 for n in range(1, length)]


def test_one_key_frame_a_hold_still_shows_the_first_picture() -> None:
    segment = encoded(SMALL, noise(SMALL))
    packets = hold_packets(segment, 133, skip_packets(SMALL), None)
    assert [number for number, packet in enumerate(packets) if packet == segment.packets[0]] == [0]
    frames = decoded(segment, packets)
    assert len(frames) == 133 and set(frames) == {frames[0]}

"""What is told of a frame makes the encoder quicker; what it shows is the same, told or not."""

from __future__ import annotations

from collections.abc import Iterator

import av
import numpy as np
import pytest

from explainers.video import changed_parts, encoder
from explainers.video.changed_parts import PixelBox, can_be_told
from explainers.video.encoder import EncoderOptions, SegmentEncoder
from explainers.video.segment import Segment

OPTIONS = EncoderOptions(width=320, height=192)


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Hints switched on."""
    monkeypatch.setenv(changed_parts.SWITCH, "1")
    can_be_told.cache_clear()
    if not can_be_told():
        pytest.skip("this build of the encoder takes no hints")
    yield
    can_be_told.cache_clear()


def pictures() -> list[np.ndarray]:
    """A textured square on its way over a texture."""
    rng = np.random.default_rng(3)
    ground, square = rng.integers(90, 120, (192, 320, 4)), rng.integers(0, 255, (48, 48, 4))
    frames = []
    for k in range(12):
        pixels = ground.astype(np.uint8)
        pixels[60:108, 10 + 6 * k : 58 + 6 * k] = square
        frames.append(pixels)
    return frames


def changed(k: int) -> list[PixelBox]:
    return [(6 * k - 2, 52, 64 + 6 * k, 116)]


def encoded(told: list[list[PixelBox] | None]) -> Segment:
    segment_encoder = SegmentEncoder(OPTIONS)
    for pixels, boxes in zip(pictures(), told, strict=True):
        segment_encoder.add_frame(OPTIONS.converted(pixels), boxes)
    return segment_encoder.finish()


def luma(segment: Segment) -> np.ndarray:
    decoder = av.CodecContext.create("h264", "r")
    decoder.extradata = segment.header
    frames = [frame for packet in segment.packets for frame in decoder.decode(av.Packet(packet))]
    return np.stack([np.asarray(frame.to_ndarray())[:192] for frame in [*frames, *decoder.decode(None)]]).astype(int)


@pytest.mark.usefixtures("told")
def test_pictures_are_as_true_when_told() -> None:
    drawn = np.stack([OPTIONS.converted(pixels).to_ndarray()[:192] for pixels in pictures()]).astype(int)
    for told in ([None] * 12, [changed(k) for k in range(12)]):
        assert np.abs(luma(encoded(told)) - drawn).mean() < 3.0  # noise at a quantiser of 18


@pytest.mark.usefixtures("told")
def test_what_is_told_is_believed() -> None:
    nothing_new: list[list[PixelBox] | None] = [[] for _ in range(12)]
    still = luma(encoded(nothing_new))
    away_from_the_corner = still[:, 16:, 16:]
    assert (away_from_the_corner == away_from_the_corner[0]).all()
    moving = luma(encoded([None] * 12))
    assert (moving[5] != moving[0]).any()


@pytest.mark.usefixtures("told")
def test_what_was_told_of_a_frame_is_forgotten() -> None:
    one, other = (OPTIONS.converted(pictures()[k]) for k in (0, 11))
    untold, told = SegmentEncoder(OPTIONS), SegmentEncoder(OPTIONS)
    for segment_encoder in (untold, told):
        segment_encoder.add_frame(one)
        if segment_encoder is told:
            changed_parts.tell_changed(other, [])
        segment_encoder.add_frame(other)
    assert told.finish() == untold.finish()


def test_an_encoder_that_cannot_be_told_works_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(changed_parts, "can_be_told", lambda: False)
    monkeypatch.setattr(encoder, "can_be_told", lambda: False)
    assert "mb_info" not in OPTIONS.settings()
    assert encoded([changed(k) for k in range(12)]) == encoded([None] * 12)


def test_nothing_is_told_unless_it_is_wished_for() -> None:
    assert not can_be_told()
    assert encoded([changed(k) for k in range(12)]) == encoded([None] * 12)


def test_a_build_that_is_not_known_is_told_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(changed_parts.SWITCH, "1")
    monkeypatch.setattr(av, "__version__", "999.0.0")
    can_be_told.cache_clear()
    try:
        assert not can_be_told()
    finally:
        can_be_told.cache_clear()

"""A frame converted part by part is the frame converted whole."""

from __future__ import annotations

import numpy as np
import pytest

from explainers.video.encoder import EncoderOptions
from explainers.video.rolling_frame import RollingFrame, empty_frame, planes_of

OPTIONS = EncoderOptions(width=320, height=180)


def shown(rolling: RollingFrame) -> list[np.ndarray]:
    """The whole picture, laid on a frame."""
    frame = empty_frame(OPTIONS)
    rolling.whole().lay_on(planes_of(frame))
    return [plane.copy() for plane in planes_of(frame)]


def noise(rng: np.random.Generator, width: int, height: int) -> np.ndarray:
    return rng.integers(0, 256, (height, width, 4), dtype=np.uint8)


def test_changed_boxes_are_all_that_is_needed() -> None:
    rng = np.random.default_rng(5)
    pixels = noise(rng, 320, 180)
    rolling, elsewhere = RollingFrame(OPTIONS), empty_frame(OPTIONS)
    for part in rolling.update(pixels, []):  # the first picture is taken whole
        part.lay_on(planes_of(elsewhere))
    for _ in range(60):
        boxes = []
        for column in range(rng.integers(0, 3)):  # side by side, so that they do not overlap
            left, top = int(rng.integers(160 * column, 160 * column + 150)), int(rng.integers(0, 160))
            right, bottom = int(rng.integers(left + 1, 160 * column + 161)), int(rng.integers(top + 1, 181))
            pixels[top:bottom, left:right] = noise(rng, right - left, bottom - top)
            boxes.append((left, top, right, bottom))
        for part in rolling.update(pixels, boxes):
            part.lay_on(planes_of(elsewhere))
        whole = planes_of(OPTIONS.converted(pixels))
        for mine, other, expected in zip(shown(rolling), planes_of(elsewhere), whole, strict=True):
            assert (mine == expected).all() and (other == expected).all(), boxes


def test_a_change_that_is_not_told_is_not_seen() -> None:
    pixels = np.zeros((180, 320, 4), dtype=np.uint8)
    rolling = RollingFrame(OPTIONS)
    rolling.update(pixels, [])
    pixels[:, :160] = 255
    (part,) = rolling.update(pixels, [(100, 20, 160, 40)])
    luma = shown(rolling)[0]
    assert luma[30, 120] == 235 and luma[100, 120] == 16 and luma[30, 20] == 16
    left, top, right, bottom = part.box
    assert part.size == (right - left) * (bottom - top) * 3 // 2  # a quarter as many values of each colour as of luma


def test_what_is_handed_out_is_free() -> None:
    pixels = np.zeros((180, 320, 4), dtype=np.uint8)
    rolling = RollingFrame(OPTIONS)
    (first,) = rolling.update(pixels, [])
    copy = rolling.whole()
    pixels[:] = 255
    rolling.update(pixels, [(0, 0, 320, 180)])
    assert first.planes[0].max() == copy.planes[0].max() == 16


def test_there_is_no_whole_before_the_first_picture() -> None:
    with pytest.raises(ValueError, match="no picture"):
        RollingFrame(OPTIONS).whole()


@pytest.mark.parametrize("name", ["colorspace", "color_range"])
def test_empty_frames_are_tagged_as_converted_ones(name: str) -> None:
    converted = OPTIONS.converted(np.zeros((180, 320, 4), dtype=np.uint8))
    assert getattr(empty_frame(OPTIONS), name) == getattr(converted, name) == 1

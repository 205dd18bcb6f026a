"""A frame converted part by part is the frame converted whole."""

from __future__ import annotations

import numpy as np
import pytest

from explainers.video.encoder import EncoderOptions
from explainers.video.rolling_frame import RollingFrame, empty_frame

OPTIONS = EncoderOptions(width=320, height=180)


def planes(frame: object) -> list[np.ndarray]:
    return [
        np.frombuffer(plane, dtype=np.uint8).reshape(plane.height, plane.line_size)[:, : plane.width].copy()
        for plane in frame.planes  # type: ignore[attr-defined]
    ]


def noise(rng: np.random.Generator, width: int, height: int) -> np.ndarray:
    return rng.integers(0, 256, (height, width, 4), dtype=np.uint8)


def test_changed_boxes_are_all_that_is_needed() -> None:
    rng = np.random.default_rng(5)
    pixels = noise(rng, 320, 180)
    rolling = RollingFrame(OPTIONS)
    rolling.update(pixels, [])  # the first picture is taken whole
    slots = [empty_frame(OPTIONS) for _ in range(3)]
    for number in range(150):
        shown = slots[2 if number in (5, 140) else rng.integers(2)]  # one of them is left behind for long
        boxes = []
        for _ in range(rng.integers(0, 3)):
            left, top = int(rng.integers(0, 300)), int(rng.integers(0, 160))
            right, bottom = int(rng.integers(left + 1, 321)), int(rng.integers(top + 1, 181))
            pixels[top:bottom, left:right] = noise(rng, right - left, bottom - top)
            boxes.append((left, top, right, bottom))
        rolling.update(pixels, boxes)
        rolling.copy_to(shown)
        for mine, whole in zip(planes(shown), planes(OPTIONS.converted(pixels)), strict=True):
            assert (mine == whole).all(), boxes


def test_a_change_that_is_not_told_is_not_seen() -> None:
    pixels = np.zeros((180, 320, 4), dtype=np.uint8)
    rolling = RollingFrame(OPTIONS)
    rolling.update(pixels, [])
    pixels[:, :160] = 255
    rolling.update(pixels, [(100, 20, 160, 40)])
    shown = empty_frame(OPTIONS)
    rolling.copy_to(shown)
    luma = planes(shown)[0]
    assert luma[30, 120] == 235 and luma[100, 120] == 16 and luma[30, 20] == 16


def test_a_copy_is_free() -> None:
    pixels = np.zeros((180, 320, 4), dtype=np.uint8)
    rolling, first = RollingFrame(OPTIONS), empty_frame(OPTIONS)
    rolling.update(pixels, [])
    rolling.copy_to(first)
    pixels[:] = 255
    rolling.update(pixels, [(0, 0, 320, 180)])
    assert planes(first)[0].max() == 16


@pytest.mark.parametrize("name", ["colorspace", "color_range"])
def test_empty_frames_are_tagged_as_converted_ones(name: str) -> None:
    converted = OPTIONS.converted(np.zeros((180, 320, 4), dtype=np.uint8))
    assert getattr(empty_frame(OPTIONS), name) == getattr(converted, name) == 1

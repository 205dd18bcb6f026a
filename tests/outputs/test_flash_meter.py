"""The meter of flashes counts what WCAG 2.2 counts, and nothing else."""

from __future__ import annotations

import numpy as np
import pytest
from outputs.flash_meter import LARGEST_PART, FlashMeter, block_luminance

WHITE, BLACK = 255, 0


def measured(levels: list[int], *, fps: float = 30.0, part: slice = slice(None)) -> FlashMeter:
    """A meter that has seen grey levels one after the other, in a part of the columns of a white picture."""
    meter = FlashMeter()
    for number, level in enumerate(levels):
        picture = np.full((96, 192, 3), WHITE, dtype=np.uint8)
        picture[:, part] = level
        meter.show(picture, number / fps)
    return meter


def test_luminance_is_that_of_wcag() -> None:
    # Relative luminance as WCAG 2.2 defines it: the formula for a grey, the weights for the three primaries.
    grey = np.full((8, 8, 3), 118, dtype=np.uint8)
    assert block_luminance(grey)[0, 0] == pytest.approx(((118 / 255 + 0.055) / 1.055) ** 2.4, abs=1e-6)
    primaries = np.zeros((8, 24, 3), dtype=np.uint8)
    for channel in range(3):
        primaries[:, 8 * channel : 8 * channel + 8, channel] = 255
    assert block_luminance(primaries)[0] == pytest.approx([0.2126, 0.7152, 0.0722], abs=1e-6)


def test_three_flashes_a_second_pass_and_four_do_not() -> None:
    three = [WHITE] * 5 + [BLACK] * 5
    assert measured(three * 10).largest_part == 0.0  # a pair of changes every third of a second
    four = [WHITE] * 4 + [BLACK] * 3
    assert measured(four * 10).largest_part == 1.0


def test_a_fade_that_comes_and_goes_is_a_flash_too() -> None:
    up_and_down = [40, 90, 140, 190, 140, 90]  # five times a second, never more than 50 levels from frame to frame
    assert measured(up_and_down * 10).largest_part == 1.0


def test_small_changes_and_changes_among_light_greys_are_none() -> None:
    # 190 and 200 differ by 0.06 of luminance; 232 and 255 by 0.19, but the darker one is above 0.80.
    assert measured([190, 200] * 30).most_changes == 0
    assert measured([232, 255] * 30).most_changes == 0
    assert measured([225, 255] * 30).largest_part == 1.0  # 0.75: dark enough


def test_rising_in_one_direction_is_no_flash() -> None:
    assert measured([0, 60, 120, 160, 200, 230, 255]).most_changes == 1


def test_what_is_small_may_flash() -> None:
    few = measured([WHITE, BLACK] * 30, part=slice(0, 8))  # one column of blocks of the eight in a field
    assert 0.0 < few.largest_part <= LARGEST_PART
    assert measured([WHITE, BLACK] * 30, part=slice(0, 24)).largest_part > LARGEST_PART

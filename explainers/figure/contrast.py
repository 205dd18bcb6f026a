"""Contrast of two colours, by the formulas of WCAG 2.2.

Source: relative luminance and contrast ratio as defined there; thresholds of 1.4.3 (text) and 1.4.11 (graphics).
Nothing is rounded: 4.499 is less than 4.5.
"""

from __future__ import annotations

from ..style.themes import is_colour

__all__ = [
    "GRAPHICS",
    "TEXT",
    "contrast_of_luminances",
    "contrast_ratio",
    "linear_rgb",
    "luminance_of_linear",
    "relative_luminance",
]

TEXT = 4.5  # success criterion 1.4.3, text of any size
GRAPHICS = 3.0  # success criterion 1.4.11, parts of a picture needed to understand it


def relative_luminance(colour: str) -> float:
    """From 0 (black) to 1 (white) of a colour written "#RRGGBB"; ValueError for any other writing."""
    return luminance_of_linear(*linear_rgb(colour))


def contrast_ratio(one: str, other: str) -> float:
    """From 1 (no difference) to 21 (black against white), whichever of the two is the lighter."""
    return contrast_of_luminances(relative_luminance(one), relative_luminance(other))


def contrast_of_luminances(one: float, other: float) -> float:
    """The same from two relative luminances."""
    darker, lighter = sorted((one, other))
    return (lighter + 0.05) / (darker + 0.05)


def linear_rgb(colour: str) -> tuple[float, float, float]:
    """Red, green and blue, each from 0 to 1, as amounts of light; ValueError for any writing but "#RRGGBB"."""
    if not is_colour(colour):
        raise ValueError(f"{colour!r} is not a colour; write it as a hash and six hexadecimal digits, such as #1F2A37")
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return red, green, blue


def luminance_of_linear(red: float, green: float, blue: float) -> float:
    """Relative luminance of amounts of light."""
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    # 0.04045 since May 2021; the 0.03928 of older texts gives the same for every 8-bit value.
    return float(channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4)

"""Contrast of two colours, by the formulas of WCAG 2.2.

Source: relative luminance and contrast ratio as defined there; thresholds of 1.4.3 (text) and 1.4.11 (graphics).
Nothing is rounded: 4.499 is less than 4.5.
"""

from __future__ import annotations

import re

from ..errors import ThemeError

__all__ = ["GRAPHICS", "TEXT", "contrast_ratio", "relative_luminance"]

TEXT = 4.5  # success criterion 1.4.3, text of any size
GRAPHICS = 3.0  # success criterion 1.4.11, parts of a picture needed to understand it

_HEX = re.compile(r"#[0-9A-Fa-f]{6}")


def relative_luminance(colour: str) -> float:
    """From 0 (black) to 1 (white) of a colour written "#RRGGBB"; ThemeError for any other writing."""
    if not _HEX.fullmatch(colour):
        raise ThemeError(f"{colour!r} is not a colour; write it as a hash and six hexadecimal digits, such as #1F2A37")
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast_ratio(one: str, other: str) -> float:
    """From 1 (no difference) to 21 (black against white), whichever of the two is the lighter."""
    darker, lighter = sorted((relative_luminance(one), relative_luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def _linear(channel: float) -> float:
    # 0.04045 since May 2021; the 0.03928 of older texts gives the same for every 8-bit value.
    return float(channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4)

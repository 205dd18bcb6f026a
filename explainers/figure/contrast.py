"""Contrast of two colours, by the formulas of WCAG 2.2, to all eyes.

Source: relative luminance and contrast ratio as defined there; thresholds of 1.4.3 (text) and 1.4.11 (graphics).
Nothing is rounded: 4.499 is less than 4.5.

Eyes that lack one kind of cone see a colour as its matrix in `DEFICIENCIES` gives it.

Source: G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color
Vision Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009), 1291-1298: the matrices of
severity 1.0, applied to linear RGB. The one for tritan eyes is an approximation. Grey needs no matrix: contrast is made
of luminance alone, so that a pair which is told apart by it is told apart in greyscale.
"""

from __future__ import annotations

from ..style import is_colour

__all__ = [
    "DEFICIENCIES",
    "GRAPHICS",
    "TEXT",
    "contrast_ratio",
    "contrast_seen",
    "luminance_seen",
    "relative_luminance",
]

TEXT = 4.5  # success criterion 1.4.3, text of any size
GRAPHICS = 3.0  # success criterion 1.4.11, parts of a picture needed to understand it

MatrixRow = tuple[float, float, float]
# Rows for red, green, blue of what is seen.
DEFICIENCIES: dict[str, tuple[MatrixRow, MatrixRow, MatrixRow]] = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def relative_luminance(colour: str) -> float:
    """From 0 (black) to 1 (white) of a colour written "#RRGGBB"; ValueError for any other writing."""
    return _luminance_of_linear(*_linear_rgb(colour))


def contrast_ratio(one: str, other: str) -> float:
    """From 1 (no difference) to 21 (black against white), whichever of the two is the lighter."""
    return _contrast_of_luminances(relative_luminance(one), relative_luminance(other))


def _contrast_of_luminances(one: float, other: float) -> float:
    """Contrast ratio of two relative luminances, 1 to 21."""
    darker, lighter = sorted((one, other))
    return (lighter + 0.05) / (darker + 0.05)


def _linear_rgb(colour: str) -> tuple[float, float, float]:
    """Red, green and blue, each from 0 to 1, as amounts of light; ValueError for any writing but "#RRGGBB"."""
    if not is_colour(colour):
        raise ValueError(f"{colour!r} is not a colour; write it as a hash and six hexadecimal digits, such as #1F2A37")
    red, green, blue = (_linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return red, green, blue


def _luminance_of_linear(red: float, green: float, blue: float) -> float:
    """Relative luminance of amounts of light."""
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    # 0.04045 since May 2021; the 0.03928 of older texts gives the same for every 8-bit value.
    return float(channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4)


def luminance_seen(colour: str, kind: str) -> float:
    """Relative luminance, from 0 to 1, of "#RRGGBB" as eyes of a kind in ``DEFICIENCIES`` see it."""
    red, green, blue = _linear_rgb(colour)
    # What the matrices put outside the colours of a screen is shown as the nearest that there is.
    seen = [min(1.0, max(0.0, r * red + g * green + b * blue)) for r, g, b in DEFICIENCIES[kind]]
    return _luminance_of_linear(seen[0], seen[1], seen[2])


def contrast_seen(one: str, other: str, kind: str) -> float:
    """From 1 to 21, as eyes of that kind see the two colours."""
    return _contrast_of_luminances(luminance_seen(one, kind), luminance_seen(other, kind))

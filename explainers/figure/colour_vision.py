"""How a colour looks to eyes that lack one kind of cone.

Source: G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color
Vision Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009), 1291-1298: the matrices of
severity 1.0, applied to linear RGB. The one for tritan eyes is an approximation. Grey needs no matrix: contrast is made
of luminance alone, so that a pair which is told apart by it is told apart in greyscale.
"""

from __future__ import annotations

from .contrast import contrast_of_luminances, linear_rgb, luminance_of_linear

__all__ = ["DEFICIENCIES", "contrast_seen", "luminance_seen"]

Row = tuple[float, float, float]

# Rows for red, green, blue of what is seen.
DEFICIENCIES: dict[str, tuple[Row, Row, Row]] = {
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


def luminance_seen(colour: str, kind: str) -> float:
    """Relative luminance, from 0 to 1, of "#RRGGBB" as eyes of a kind in ``DEFICIENCIES`` see it."""
    red, green, blue = linear_rgb(colour)
    # What the matrices put outside the colours of a screen is shown as the nearest that there is.
    seen = [min(1.0, max(0.0, r * red + g * green + b * blue)) for r, g, b in DEFICIENCIES[kind]]
    return luminance_of_linear(seen[0], seen[1], seen[2])


def contrast_seen(one: str, other: str, kind: str) -> float:
    """From 1 to 21, as eyes of that kind see the two colours."""
    return contrast_of_luminances(luminance_seen(one, kind), luminance_seen(other, kind))

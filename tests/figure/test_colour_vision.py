"""What eyes without one kind of cone see, and that every theme of ours is told apart by them."""

from __future__ import annotations

import pytest

from explainers.figure.contrast import (
    DEFICIENCIES,
    GRAPHICS,
    TEXT,
    contrast_ratio,
    contrast_seen,
    luminance_seen,
    relative_luminance,
)
from explainers.figure.themes import THEMES
from explainers.style import THEME_NAMES

# Machado, Oliveira & Fernandes 2009, severity 1.0, applied to linear RGB; rows for red, green, blue. Typed here a
# second time: a wrong tritan row that is found in public code also sums to 1, so that sums alone would not show it.
MACHADO = {
    "protan": (
        (0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900),
    ),
}  # fmt: skip


def test_the_matrices_are_those_that_were_published() -> None:
    assert DEFICIENCIES == MACHADO


@pytest.mark.parametrize("eyes", MACHADO)
def test_greys_stay_what_they_are(eyes: str) -> None:
    for grey in ("#000000", "#777777", "#FFFFFF"):
        assert luminance_seen(grey, eyes) == pytest.approx(relative_luminance(grey), abs=1e-5)
    assert contrast_seen("#000000", "#FFFFFF", eyes) == pytest.approx(21.0, abs=1e-4)


def test_red_is_dark_to_protan_eyes_and_light_to_deutan_ones() -> None:
    red = relative_luminance("#FF0000")
    # Of pure red they see the first column of their matrix, weighed as luminance is.
    protan = 0.2126 * 0.152286 + 0.7152 * 0.114503 + 0.0722 * 0.0
    deutan = 0.2126 * 0.367322 + 0.7152 * 0.280085 + 0.0722 * 0.0
    assert luminance_seen("#FF0000", "protan") == pytest.approx(protan)
    assert luminance_seen("#FF0000", "deutan") == pytest.approx(deutan)
    assert protan < red < deutan


@pytest.mark.parametrize("name", THEME_NAMES)
@pytest.mark.parametrize("eyes", ["grey", *MACHADO])
def test_patterns_and_outlines_are_seen_without_full_colour(name: str, eyes: str) -> None:
    """WCAG 2.2, technique G111: colour is never the only sign."""

    def seen(one: str, other: str) -> float:
        pair = theme.entry(one), theme.entry(other)
        return contrast_ratio(*pair) if eyes == "grey" else contrast_seen(*pair, eyes)

    theme = THEMES[name]
    assert seen("join.pattern", "join.fill") >= GRAPHICS
    assert seen("cut.pattern", "cut.fill") >= GRAPHICS
    for cloth in ("base", "join.fill", "cut.fill", "outline", "option"):
        assert seen("ink", cloth) >= TEXT
        for sign in ("right", "wrong", "attention"):
            assert seen(sign, cloth) >= GRAPHICS

"""Contrast, and themes that are held against it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from explainers.errors import ThemeError
from explainers.figure.contrast import GRAPHICS, TEXT, contrast_ratio, relative_luminance
from explainers.figure.theme import DEFAULT_THEME, LEAST_TYPE, Theme, load_theme

# Against white, to four decimals: computed for our reference list from the formulas of WCAG 2.2. The pairs lie on
# either side of the thresholds of 1.4.3 and 1.4.11: a ratio rounded to one decimal would let #777777 and #959595 pass.
ON_WHITE = [
    ("#000000", 21.0),
    ("#767676", 4.5422),
    ("#777777", 4.4781),
    ("#949494", 3.0335),
    ("#959595", 2.9953),
    ("#595959", 7.0047),
    ("#5A5A5A", 6.8969),
    ("#0000FF", 8.5925),
    ("#FF0000", 3.9985),
    ("#00FF00", 1.3722),
]

# Machado, Oliveira & Fernandes 2009, severity 1.0, applied to linear RGB; rows for red, green, blue.
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


@pytest.mark.parametrize(("colour", "ratio"), ON_WHITE)
def test_contrast_on_white(colour: str, ratio: float) -> None:
    assert contrast_ratio(colour, "#FFFFFF") == pytest.approx(ratio, abs=5e-5)
    assert contrast_ratio("#FFFFFF", colour) == contrast_ratio(colour, "#FFFFFF")


def test_yellow_on_black() -> None:
    assert contrast_ratio("#FFFF00", "#000000") == pytest.approx(19.556, abs=5e-4)


def test_thresholds_are_not_rounded_up() -> None:
    assert contrast_ratio("#767676", "#FFFFFF") >= TEXT > contrast_ratio("#777777", "#FFFFFF")
    assert contrast_ratio("#949494", "#FFFFFF") >= GRAPHICS > contrast_ratio("#959595", "#FFFFFF")


def test_luminance_of_the_primaries() -> None:
    # The weights of WCAG 2.2's relative luminance are those of the pure channels.
    assert [relative_luminance(c) for c in ("#FF0000", "#00FF00", "#0000FF")] == pytest.approx([0.2126, 0.7152, 0.0722])


@pytest.mark.parametrize("colour", ["red", "#FFF", "#GGGGGG", "#1234567", "#12345\n", ""])
def test_a_colour_has_one_writing(colour: str) -> None:
    with pytest.raises(ThemeError, match="is not a colour"):
        relative_luminance(colour)


def test_the_first_theme_passes() -> None:
    assert DEFAULT_THEME.checked() is DEFAULT_THEME
    assert load_theme() is DEFAULT_THEME


def test_a_theme_on_the_boundary_is_held_to_it() -> None:
    white = dict.fromkeys(("paper", "table", "tray"), "#FFFFFF")
    assert load_theme({**white, "quiet": "#767676"}).quiet == "#767676"
    with pytest.raises(ThemeError, match=r"quiet on paper: contrast 4\.4781 is below 4\.5"):
        load_theme({**white, "quiet": "#777777"})


def test_a_sign_on_the_boundary_is_held_to_it() -> None:
    grey = {"join": "#FFFFFF", "join_pattern": "#949494"}
    assert load_theme(grey).join_pattern == "#949494"
    with pytest.raises(ThemeError, match=r"join_pattern on join: contrast 2\.9953 is below 3 "):
        load_theme({**grey, "join_pattern": "#959595"})


def test_every_fault_of_a_theme_is_named() -> None:
    faulty = replace(DEFAULT_THEME, quiet="#CCCCCC", word_size=0.2, hatch_width=0.01, words={"join": "x", "cut": "x"})
    with pytest.raises(ThemeError) as caught:
        faulty.checked()
    for part in ("quiet on paper", "word_size: 0.2", "hatch_width: 0.01", "words: join and cut"):
        assert part in str(caught.value)


@pytest.mark.parametrize(
    ("entries", "part"),
    [
        ({"papier": "#FFFFFF"}, "no entry 'papier'; did you mean 'paper'"),
        ({"ink": 3}, "'ink' cannot be 3"),
        ({"side_width": "thick"}, "'side_width' cannot be 'thick'"),
        ({"side_width": True}, "'side_width' cannot be True"),
        ({"cut_dash": [0.1]}, "'cut_dash' cannot be"),
        ({"cut_dash": [0.1, "x"]}, "'cut_dash' cannot be"),
        ({"cut_dash": [0.0, 0.1]}, "cut_dash"),
        ({"side_width": float("nan")}, "side_width"),
        ({"side_width": float("inf")}, "side_width"),
        ({"word_size": float("nan")}, "word_size"),
        ({"words": {"join": ""}}, "words"),
    ],
)
def test_an_entry_that_cannot_be_used_is_named(entries: dict[str, object], part: str) -> None:
    with pytest.raises(ThemeError) as caught:
        load_theme(entries)
    assert part in str(caught.value)


def test_a_theme_comes_from_a_file(tmp_path: Path) -> None:
    path = tmp_path / "theme.toml"
    lines = ['name = "print"', "side_width = 0.05", "cut_dash = [0.2, 0.1]", "[words]", 'join = "sew"']
    path.write_text("\n".join(lines), encoding="utf-8")
    theme = load_theme(path)
    assert (theme.name, theme.side_width, theme.cut_dash) == ("print", 0.05, (0.2, 0.1))
    assert dict(theme.words) == {"join": "sew", "cut": "cut"}
    assert hash(theme) != hash(DEFAULT_THEME)
    path.write_text("name = ", encoding="utf-8")
    with pytest.raises(ThemeError, match=r"theme\.toml cannot be read"):
        load_theme(path)


def test_no_type_is_smaller_than_32_px() -> None:
    assert LEAST_TYPE * 120 == 32
    sizes = [getattr(DEFAULT_THEME, name) for name in Theme.__slots__ if name.endswith("_size")]
    assert min(sizes) >= LEAST_TYPE


@pytest.mark.parametrize("kind", ["grey", *MACHADO])
def test_patterns_and_outlines_are_seen_without_full_colour(kind: str) -> None:
    """WCAG 2.2, technique G111: colour is never the only sign."""
    theme = DEFAULT_THEME
    for pattern, cloth in (("join_pattern", "join"), ("cut_pattern", "cut")):
        assert _contrast_seen(getattr(theme, pattern), getattr(theme, cloth), kind) >= GRAPHICS
    for cloth in ("base", "join", "cut", "outline", "option"):
        assert _contrast_seen(theme.ink, getattr(theme, cloth), kind) >= TEXT


def _contrast_seen(one: str, other: str, kind: str) -> float:
    darker, lighter = sorted(_luminance_seen(colour, kind) for colour in (one, other))
    return (lighter + 0.05) / (darker + 0.05)


def _luminance_seen(colour: str, kind: str) -> float:
    if kind == "grey":
        return relative_luminance(colour)
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    seen = [min(1.0, max(0.0, sum(m * c for m, c in zip(row, linear, strict=True)))) for row in MACHADO[kind]]
    return sum(weight * c for weight, c in zip((0.2126, 0.7152, 0.0722), seen, strict=True))

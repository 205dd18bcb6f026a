"""Contrast, our themes, and what a theme is held to."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from explainers.errors import ThemeError
from explainers.figure.contrast import GRAPHICS, TEXT, contrast_ratio, relative_luminance
from explainers.figure.theme import DEFAULT_THEME, Theme
from explainers.figure.theme_checks import LEAST_TYPE, PAIRS, faults_of_theme
from explainers.figure.themes import PRINT, THEMES
from explainers.style import ENTRIES, PLACES, THEME_NAMES

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


def told(theme: Theme) -> str:
    """All faults of a theme as one text."""
    faults = faults_of_theme(theme)
    assert faults
    return str(ThemeError(faults))


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
    with pytest.raises(ValueError, match="is not a colour"):
        relative_luminance(colour)
    assert "colours.ink" in told(replace(DEFAULT_THEME, ink=colour))


@pytest.mark.parametrize("name", THEME_NAMES)
def test_our_themes_pass(name: str) -> None:
    assert THEMES[name].name == name
    assert not faults_of_theme(THEMES[name])


def test_the_first_theme_is_the_usual_one() -> None:
    assert THEMES[THEME_NAMES[0]] is DEFAULT_THEME


def test_print_is_black_on_white() -> None:
    colours = {PRINT.entry(entry) for entry, _ in ENTRIES["colours"].values()}
    assert colours == {"#000000", "#FFFFFF", PRINT.stitch_to_come}
    assert all(PRINT.entry(cloth) == "#FFFFFF" for cloth in ("base", "join.fill", "cut.fill", "outline", "option"))


def test_dark_has_light_lines_on_dark_ground() -> None:
    dark = THEMES["dark"]
    for below in ("paper", "table", "tray", "base", "join.fill", "cut.fill", "outline", "option"):
        assert relative_luminance(dark.entry(below)) < 0.08 < relative_luminance(dark.ink)


def test_a_theme_on_the_boundary_is_held_to_it() -> None:
    white = replace(DEFAULT_THEME, paper="#FFFFFF", table="#FFFFFF", tray="#FFFFFF", quiet="#767676")
    assert not faults_of_theme(white)
    assert "#777777 with paper (4.4781), table (4.4781) and tray (4.4781) is less than the 4.5" in told(
        replace(white, quiet="#777777")
    )


def test_a_pattern_on_the_boundary_is_held_to_it() -> None:
    grey = DEFAULT_THEME.having({"paper": "#FFFFFF", "join.fill": "#FFFFFF", "join.pattern": "#949494"})
    assert not faults_of_theme(grey)
    assert "#959595 with join (2.9953) and paper (2.9953) is less than the 3 " in told(
        grey.having({"join.pattern": "#959595"})
    )


def test_a_pair_that_only_some_eyes_can_see_is_refused() -> None:
    # Against this paper pure red has more than 3 in full colour and less as deutan eyes see it.
    red = DEFAULT_THEME.having({"join.fill": "#FFFFFF", "join.pattern": "#FF0000"})
    assert contrast_ratio(red.fabrics["join"].pattern, red.paper) > GRAPHICS
    assert "as deutan eyes see it, is less than the 3" in told(red)


@pytest.mark.parametrize("lower", sorted({pair[0] for pair in PAIRS}))
def test_no_colour_may_be_lost_on_its_ground(lower: str) -> None:
    for name, below, _ in PAIRS:
        if name == lower:
            lost = DEFAULT_THEME.having({lower: DEFAULT_THEME.entry(below)})
            assert re.search(rf"{PLACES[lower]}: .*{PLACES[below].split('.')[1]} \(1\.0000\)", told(lost)), below


def test_the_shade_that_is_advised_will_do() -> None:
    faint = replace(DEFAULT_THEME, quiet="#AAAAAA", attention="#B08050", right="#88CC99")
    for fault in faults_of_theme(faint):
        shade = re.search(r"#[0-9A-F]{6}", fault.fix)
        assert shade, fault
        better = replace(faint, **{fault.field.split(".")[1]: shade[0]})
        assert fault.field not in {other.field for other in faults_of_theme(better)}


def test_a_fault_is_told_where_the_file_has_an_entry() -> None:
    dim = replace(DEFAULT_THEME, paper="#888888")
    assert {fault.field for fault in faults_of_theme(dim, written=["paper"])} == {"colours.paper"}
    assert "colours.paper" not in {fault.field for fault in faults_of_theme(dim)}


@pytest.mark.parametrize(
    ("changes", "part"),
    [
        ({"word_size": 0.2}, "sizes.word: type of 0.2 is smaller than 32 px"),
        ({"degrees_size": 0.6}, "sizes.degrees: type of 0.6 has no room in every picture. To mend it: write 0.42"),
        ({"hatch_width": 0.01}, "weights.pattern: a weight of 0.01 is thinner than 3 px"),
        ({"side_width": float("nan")}, "weights.side: nan is not a number above 0"),
        ({"tick": float("inf")}, "lengths.tick: inf is not a number above 0"),
        ({"dash": (0.0, 0.1)}, "lengths.cut-dash: 0 is not a number above 0"),
        ({"dash": (0.2, 0.05)}, "the dashes run together"),
        ({"outline_width": 0.05}, "weights.outline: outline (0.05) is less than 1.5 times side (0.036)"),
        ({"pointer_width": 0.1}, "weights.pointer: pointer (0.1) is less than 1.5 times mark"),
        ({"agree_width": 0.06}, "weights.agreeing: agreeing (0.06) is less"),
        ({"differ_width": 0.06}, "weights.differing: differing (0.06) is less"),
        ({"join.pattern_name": "lines"}, "join and cut both wear lines"),
        ({"join.pattern_name": "plain", "cut.pattern_name": "plain"}, "join and cut both wear plain"),
        ({"join.pattern_name": "checks"}, "lines and checks are too much alike"),
        ({"join.pattern_name": "stars"}, "'stars' is not a pattern"),
        ({"differs_pattern": "plain"}, "'plain' shows no difference"),
        ({"pattern_spacing": 0.1}, "the dots of a pattern run together"),
        ({"join.word": "Sew", "cut.word": "sew"}, "words: join and cut need a word each, and not the same one"),
        ({"join.word": "sew together", "cut.word": "cut"}, "words: the word sew together is too wide"),
        ({"join.word": "", "cut.word": "cut"}, "words: join and cut need a word each"),
        ({"join.word": "縫う", "cut.word": "cut"}, "words: Atkinson Hyperlegible has no glyph for"),
        ({"typeface": "Handwriting"}, "typeface: the typeface Handwriting does not come with this package"),
    ],
)
def test_what_cannot_be_used_is_named_with_a_way_to_mend_it(changes: dict[str, object], part: str) -> None:
    said = told(DEFAULT_THEME.having(changes))
    assert part in said
    assert "To mend it:" in said


def test_every_fault_of_a_theme_is_told() -> None:
    faulty = DEFAULT_THEME.having(
        {"quiet": "#CCCCCC", "word_size": 0.2, "hatch_width": 0.01, "join.word": "x", "cut.word": "x"}
    )
    assert {"colours.quiet", "sizes.word", "weights.pattern", "words"} <= {f.field for f in faults_of_theme(faulty)}


def test_no_type_is_smaller_than_32_px() -> None:
    assert LEAST_TYPE * 120 == 32
    for theme in THEMES.values():
        assert min(getattr(theme, name) for name in Theme.__slots__ if name.endswith("_size")) >= LEAST_TYPE

"""Words as they are said."""

from __future__ import annotations

import pytest

from explainers.storyboard.spoken import spoken_words, words_a_minute


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Turn the flag.", 3),
        ("135 degrees", 6),  # one hundred and thirty-five degrees
        ("180°", 5),  # one hundred and eighty degrees
        ("22.5°", 5),  # twenty-two point five degrees
        ("7", 1),
        ("20", 1),
        ("100", 2),
        ("1,200", 4),  # one thousand two hundred
        ("1005", 4),  # one thousand and five
        ("0.25", 4),  # zero point two five
        ("A right-angled corner", 4),
        ("It doesn't meet.", 3),
        ("-90", 2),  # minus ninety
        ("", 0),
        ("—", 0),
    ],
)
def test_figures_count_as_they_are_read_out(text: str, words: int) -> None:
    assert spoken_words(text) == words


def test_two_words_in_a_second_are_120_a_minute() -> None:
    # BBC Subtitle Guidelines, section 4 (references.md, 2.3).
    assert words_a_minute("Turn it.", 1.0) == 120.0


def test_figures_are_read_with_the_signs_of_their_language() -> None:
    assert spoken_words("22,5 Grad", "de") == spoken_words("22.5 degrees") == 5
    assert spoken_words("1.000 Teile", "de") == spoken_words("1,000 pieces") == 3
    assert words_a_minute("Drehe es um 22,5 Grad.", 8.0, "de") == 60.0

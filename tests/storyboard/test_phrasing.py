"""Captions are cut where a reader would breathe."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.storyboard.phrasing import CaptionShape, captions_of

SCHOOL = CaptionShape()
TORN_AFTER = {"the", "a", "of", "to", "its", "their", "side", "option", "135", "own", "not", "on", "in"}


def test_a_short_sentence_stays_whole_on_one_line() -> None:
    assert captions_of("A half turn either way will do.", SCHOOL) == (("A half turn either way will do.",),)


def test_two_lines_are_balanced_and_broken_at_a_phrase() -> None:
    assert captions_of("Which option is the outline of the finished block?", SCHOOL) == (
        ("Which option is the outline", "of the finished block?"),
    )


def test_a_verb_keeps_the_word_that_completes_it() -> None:
    assert captions_of("We work through one question together.", SCHOOL) == (
        ("We work through", "one question together."),
    )


def test_no_words_no_caption() -> None:
    assert captions_of("  \n ", SCHOOL) == ()


def test_a_cut_falls_after_a_comma_rather_than_anywhere() -> None:
    captions = captions_of("When a piece is joined, the marked sides meet and the cloth lies on both sides.", SCHOOL)
    assert captions[0][-1].endswith("joined,")


def test_a_list_of_options_stays_together() -> None:
    assert captions_of("Here are the options A, B, C, D and E.", SCHOOL) == (
        ("Here are the options", "A, B, C, D and E."),
    )


SENTENCES = (
    "Turn the flag 135 degrees anticlockwise about its own middle, then bring side K to the side marked K on the base.",
    "Option B is ruled out because its notch lies on the left of the long side and not on the right.",
    "The corner at the top left is 135 degrees in option D but 90 degrees in the outline, so they differ there.",
    "Remember: when a piece is joined, the two marked sides meet and the cloth lies on opposite sides of them.",
)


@pytest.mark.parametrize("sentence", SENTENCES)
def test_no_phrase_is_torn(sentence: str) -> None:
    lines = [line for caption in captions_of(sentence, SCHOOL) for line in caption]
    for line in lines[:-1]:
        assert line.split()[-1] not in TORN_AFTER, f"{line!r} ends in the middle of a phrase"
    for line in lines[1:]:
        assert line.split()[0] not in {"K", "B", "D", "degrees", "degrees,", "of"}, f"{line!r} starts inside a phrase"


@given(words=st.lists(st.text(alphabet="abcdefgh ,.1", min_size=1, max_size=9), min_size=1, max_size=60))
@settings(max_examples=100, deadline=None)
def test_words_and_order_are_kept_and_every_caption_fits(words: list[str]) -> None:
    sentence = " ".join(words)
    captions = captions_of(sentence, SCHOOL)
    assert " ".join(line for caption in captions for line in caption).split() == sentence.split()
    for caption in captions:
        assert 1 <= len(caption) <= SCHOOL.max_lines
        assert all(0 < len(line) <= SCHOOL.max_characters for line in caption)


def test_a_word_longer_than_a_line_stands_alone() -> None:
    long_word = "x" * 50
    captions = captions_of(f"See {long_word} here.", SCHOOL)
    assert (long_word,) in captions


def test_german_is_cut_by_its_own_little_words() -> None:
    german = CaptionShape(language="de")
    sentence = "Drehe das Teil „flag“ um 135 Grad gegen den Uhrzeigersinn, bis sich die Marken an der Seite treffen."
    lines = [line for caption in captions_of(sentence, german) for line in caption]
    assert " ".join(lines) == sentence
    torn_after = {"das", "um", "135", "gegen", "den", "bis", "die", "an", "der"}
    assert not {line.split()[-1] for line in lines[:-1]} & torn_after


def test_a_language_without_a_table_is_cut_at_its_signs_and_evenly() -> None:
    unknown = CaptionShape(language="xx")
    assert captions_of("Lorem ipsum dolor sit amet, consectetur adipiscing elit sed.", unknown) == (
        ("Lorem ipsum dolor sit amet,", "consectetur adipiscing elit sed."),
    )

"""Names, numbers and turns in words: grammar over whole ranges, and every number read back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from oracles.sentence_parser import amounts_of, counts_of, faults_of, turn_of

from explainers.words.names import (
    area_in_words,
    count_in_words,
    degrees_in_words,
    length_in_words,
    lengths_in_words,
    list_in_words,
    number_of,
    ordinal,
    plural,
    the_piece,
    turn_in_words,
    units_in_words,
)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("flag", "the flag"),
        ("big-corner-patch", "the big corner patch"),
        ("block-2", "block 2"),
        ("p1", "piece p1"),
        ("x", "piece X"),
        ("part-b", "part B"),
        ("the-flag", "the flag"),
        ("my-flag", "my flag"),
        ("a-frame", "a frame"),
        ("flag-", "the flag"),
    ],
)
def test_a_piece_is_named_as_a_teacher_would_name_it(name: str, words: str) -> None:
    assert the_piece(name) == words


@pytest.mark.parametrize(("count", "words"), [(0, "no corners"), (1, "1 corner"), (2, "2 corners"), (21, "21 corners")])
def test_a_count_agrees_with_its_noun(count: int, words: str) -> None:
    assert number_of(count, "corner") == words


@pytest.mark.parametrize(
    ("noun", "many"), [("patch", "patches"), ("body", "bodies"), ("day", "days"), ("box", "boxes")]
)
def test_a_plural_is_spelt_right(noun: str, many: str) -> None:
    assert plural(noun) == many


@given(st.integers(0, 40))
def test_a_count_in_words_is_read_back(count: int) -> None:
    assert counts_of(count_in_words(count, "piece"), "piece") == [count]
    assert counts_of(number_of(count, "corner"), "corner") == [count]


@pytest.mark.parametrize(
    ("number", "word"),
    [(1, "first"), (3, "third"), (10, "tenth"), (11, "11th"), (12, "12th"), (21, "21st"), (22, "22nd"), (103, "103rd")],
)  # fmt: skip
def test_an_ordinal_has_the_right_ending(number: int, word: str) -> None:
    assert ordinal(number) == word


@pytest.mark.parametrize(
    ("labels", "words"), [([], ""), (["A"], "A"), (["A", "B"], "A and B"), (list("ABC"), "A, B and C")]
)
def test_a_list_has_one_and(labels: list[str], words: str) -> None:
    assert list_in_words(labels) == words


@pytest.mark.parametrize(
    ("length", "words"),
    [
        (3.0, "3"), (2.5, "2.5"), (1.25, "1.25"), (8**0.5, "about 2.8"), (2.9999999, "3"), (100.0, "100"), (0.0, "0"),
        (1.96, "1.96"), (1.964, "about 2"), (1e-9, "about 1e-09"), (250000.0, "250000"),
    ],
)  # fmt: skip
def test_a_length_has_no_more_decimals_than_it_needs(length: float, words: str) -> None:
    assert length_in_words(length) == words


@given(st.floats(0.01, 10_000))
def test_a_length_is_read_back(length: float) -> None:
    [amount] = amounts_of(units_in_words(length))
    assert amount.unit == "units"
    assert amount.value == pytest.approx(length, abs=0.0501 if amount.about else 0.0011)


@given(st.floats(0.01, 500), st.floats(0.01, 500))
def test_two_lengths_that_can_be_told_apart_are_told_apart(one: float, other: float) -> None:
    if abs(one - other) < 0.01:
        return
    first, second = lengths_in_words(one, other)
    assert first != second
    (low,), (high,) = amounts_of(first), amounts_of(second)
    assert (low.value < high.value) == (one < other)


def test_an_area_agrees_with_its_unit() -> None:
    assert area_in_words(1.0) == "1 square unit"
    assert area_in_words(12.0) == "12 square units"


@pytest.mark.parametrize(
    ("turn_deg", "words"),
    [
        (0.0, "no turn"),
        (180.0, "half a turn"),
        (-179.95, "half a turn"),
        (90.0, "a quarter turn anticlockwise"),
        (-90.0, "a quarter turn clockwise"),
        (135.0, "135 degrees anticlockwise"),
        (-45.0, "45 degrees clockwise"),
        (1.0, "1 degree anticlockwise"),
        (22.5, "22.5 degrees anticlockwise"),
        (-36.87, "about 37 degrees clockwise"),
        (89.6, "89.6 degrees anticlockwise"),
        (89.65, "about 89.7 degrees anticlockwise"),
        (134.97, "135 degrees anticlockwise"),
    ],
)
def test_a_turn_is_said_the_way_a_teacher_says_it(turn_deg: float, words: str) -> None:
    assert turn_in_words(turn_deg) == words


@given(st.floats(-180, 180, exclude_min=True))
def test_a_turn_is_read_back_with_its_direction(turn_deg: float) -> None:
    found = turn_of(turn_in_words(turn_deg))
    assert found is not None
    value, about = found
    away = abs((value - turn_deg + 180) % 360 - 180)
    assert away <= (0.501 if about else 0.101)
    # "about" never blurs the angles that learners know by name.
    assert not (about and value % 45 == 0)


@given(st.integers(0, 360))
def test_degrees_are_spelt_for_every_whole_angle(angle_deg: int) -> None:
    words = degrees_in_words(float(angle_deg))
    assert words == ("1 degree" if angle_deg == 1 else f"{angle_deg} degrees")
    assert faults_of(f"It measures {words}.") == []

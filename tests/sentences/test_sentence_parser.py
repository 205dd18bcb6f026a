"""The oracle itself: it finds what is there, and what is wrong."""

from __future__ import annotations

import pytest
from oracles.sentence_parser import (
    Amount,
    amounts_of,
    counts_of,
    faults_of,
    marks_of,
    moved_part_of,
    options_of,
    piece_named_in,
    ratios_of,
    slips_of,
    turn_of,
)


def test_numbers_come_with_their_unit() -> None:
    assert amounts_of("It is about 2.8 units long, but the side is 3.") == [
        Amount(2.8, True, "units"),
        Amount(3.0, False, ""),
    ]
    assert amounts_of("It measures 1 degree.") == [Amount(1.0, False, "degrees")]


@pytest.mark.parametrize(
    ("text", "turn"),
    [
        ("Turn the flag 135 degrees anticlockwise.", (135.0, False)),
        ("Turn the flag about 37 degrees clockwise.", (-37.0, True)),
        ("Give the flag a quarter turn clockwise.", (-90.0, False)),
        ("Give the flag half a turn.", (180.0, False)),
        ("The flag needs no turn.", (0.0, False)),
        ("That is less than half a turn.", None),
        ("The flag turns.", None),
    ],
)
def test_turns_are_read_with_their_direction(text: str, turn: tuple[float, bool] | None) -> None:
    assert turn_of(text) == turn


def test_names_are_read_whole() -> None:
    assert piece_named_in("Turn the big corner.", "big-corner")
    assert not piece_named_in("Turn the bigger corner.", "big-corner")
    assert not piece_named_in("Flagstones lie here.", "flag")
    assert marks_of("Slide it until the marks K meet.") == ["K"]
    assert marks_of("Join the leaf where the leaves meet.") == ["leaf"]
    assert marks_of("Find the bell on the heart. Find the other bell on the base.") == ["bell", "bell"]
    assert options_of("So option B is out.") == ["B"]
    assert options_of("Look at options B, D and E together.") == ["B", "D", "E"]
    assert counts_of("two pieces to join and 1 piece to cut", "piece") == [2, 1]


def test_slips_are_read_with_their_pieces() -> None:
    assert slips_of(["In option B, the long bar is cut away, not joined.", "So it is out."]) == [
        ("other-way-round", {"piece": "the long bar", "done": "cut away", "asked": "joined"})
    ]
    assert slips_of(["In option B, the bar is left out.", "Also, the flag and the star change places."]) == [
        ("left-out", {"piece": "the bar"}),
        ("swapped", {"piece": "the flag", "other": "the star"}),
    ]
    with pytest.raises(ValueError, match="0 kinds"):
        slips_of(["In option B, the bar sings."])


def test_ratios_and_moved_parts_are_read() -> None:
    assert ratios_of(["Here a side of option B is 2 times as long as the next.", "It is 1.5 times as long."]) == [
        2.0,
        1.5,
    ]
    assert ratios_of(["Here two sides of option B that meet are equally long."]) == [1.0]
    assert ratios_of(["In the outline, the next one is longer: 4 times as long as it."]) == [0.25]
    assert ratios_of(["Here a side of option B is longer."]) == []
    part = "Here option B has a part where the outline has none."
    assert moved_part_of([part, "In the outline, that part is on another side."]) == ("part", False)
    gap = "Here option B has a gap where the outline has none."
    assert moved_part_of([gap, "In the outline, that gap is on the side next to this one."]) == ("gap", True)
    assert moved_part_of([gap, "In the outline, that part is on another side."]) is None
    assert moved_part_of([part.replace("none", "one"), "In the outline, that part is on another side."]) is None


@pytest.mark.parametrize(
    ("sentence", "fault"),
    [
        ("It has 1 corners.", "plural after 1"),
        ("It has 2 corner.", "singular after many"),
        ("It is 1 degrees wide.", "plural after 1"),
        ("Turn the  flag.", "two spaces"),
        ("Turn the flag", "no full stop or question mark"),
        ("turn the flag.", "no capital letter"),
        ("Turn the the flag.", "a word twice"),
        ("It is a angle.", "a before a vowel"),
        ("It is an flag.", "an before a consonant"),
        ("It is 2.828 long.", "more than two decimals"),
        ("It is 3.0 long.", "a needless decimal"),
        ("Well done!", "exclamation mark"),
        ("Turn it counterclockwise.", "not British"),
        ("Look at this edge.", "not our word"),
        ("One two three four five six seven eight nine ten one two three four five six seven.", "17 words"),
    ],
)
def test_bad_english_is_found(sentence: str, fault: str) -> None:
    assert fault in faults_of(sentence)


@pytest.mark.parametrize(
    "sentence", ["It has 1 corner.", "It has 21 corners.", "It is 1.5 units long.", "It is an hour.", "Is it a unit?"]
)
def test_good_english_is_let_through(sentence: str) -> None:
    assert faults_of(sentence) == []

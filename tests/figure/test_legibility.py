"""The checker finds what makes a figure hard to read, and passes over what cannot be seen."""

from __future__ import annotations

from dataclasses import replace

import pytest

from explainers.figure.legibility import LEAST_SIDE, overlaps, too_small
from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role

INK = "#1F2A37"
WORD = Label(id="word", group="w", role=Role.WORD, text="join", at=(5.0, 5.0), size=0.36, colour=INK)


def square(left: float, bottom: float, side: float) -> tuple[tuple[float, float], ...]:
    return ((left, bottom), (left + side, bottom), (left + side, bottom + side), (left, bottom + side))


def area(name: str, left: float, bottom: float, side: float, *, fill: str | None = "#C9DDE8") -> Area:
    return Area(
        id=name, group=name, role="base", rings=(square(left, bottom, side),), fill=fill, stroke=INK, width=0.04
    )


def faults(*entries: Entry) -> list[str]:
    return overlaps(Figure(background="#FAF6EC", entries=entries))


def test_a_word_inside_its_cloth_is_fine() -> None:
    assert faults(area("base", 3.0, 3.0, 4.0), WORD) == []


CROSSING: list[Entry] = [
    area("x", 5.0, 5.0, 2.0),
    area("x", 5.0, 5.0, 2.0, fill=None),
    Lines(id="x", group="x", role=Role.MARK, segments=(((4.0, 4.0), (6.0, 6.0)),), stroke=INK, width=0.04),
    Lines(id="x", group="x", role="cut", segments=(((4.0, 4.0), (6.0, 6.0)),), stroke=INK, width=0.02),
    Dots(id="x", group="x", role="join", centres=((5.1, 5.0),), radius=0.04, fill=INK),
    Arrow(id="x", group="x", role=Role.TURN, path=((5.0, 3.0), (5.0, 5.0)), stroke=INK, width=0.04, head=0.2),
    Circle(id="x", group="x", role=Role.POINTER, centre=(6.0, 5.0), radius=1.0, stroke=INK, width=0.05),
]


@pytest.mark.parametrize("entry", CROSSING, ids=lambda entry: f"{type(entry).__name__}-{entry.role}")
def test_a_word_crossed_by_ink_is_named(entry: Entry) -> None:
    for entries in ((entry, WORD), (WORD, entry)):
        assert faults(*entries) == ["label 'word' ('join') is crossed by 'x'"]
    assert faults(replace(entry, opacity=0.4), WORD) == []
    assert faults(entry, replace(WORD, opacity=0.4)) == []


def test_a_ring_round_a_word_does_not_cross_it() -> None:
    assert faults(WORD, Circle(id="x", group="x", role=Role.POINTER, centre=(5.0, 5.0), radius=0.8, stroke=INK)) == []


def test_a_stroke_under_opaque_cloth_is_not_seen() -> None:
    crossed = area("under", 5.0, 5.0, 2.0)
    cover = replace(area("cover", 3.0, 3.0, 5.0), stroke=None)
    assert faults(crossed, cover, WORD) == []
    assert faults(crossed, replace(cover, opacity=0.9), WORD) != []
    assert faults(crossed, replace(cover, fill=None), WORD) != []
    assert faults(cover, crossed, WORD) != []


def test_hatching_under_a_letter_s_own_disc_is_not_seen() -> None:
    letter = replace(WORD, text="K")
    hatching = Lines(id="h", group="h", role="cut", segments=(((4.0, 4.0), (6.0, 6.0)),), stroke=INK, width=0.02)
    disc = Circle(id="d", group="d", role=Role.MARK, centre=(5.0, 5.0), radius=0.25, fill="#F3DDD3")
    assert faults(hatching, disc, letter) == []
    assert faults(disc, hatching, letter) == ["label 'word' ('K') is crossed by 'h'"]
    assert faults(hatching, replace(disc, radius=0.1), letter) != []


def test_cloth_with_a_hole_covers_nothing_there() -> None:
    crossed = Lines(id="x", group="x", role=Role.MARK, segments=(((4.0, 4.0), (6.0, 6.0)),), stroke=INK, width=0.04)
    cover = replace(area("cover", 2.0, 2.0, 6.0), stroke=None)
    with_hole = replace(cover, rings=(*cover.rings, square(4.2, 4.2, 1.6)))
    assert faults(crossed, cover, WORD) == []
    assert faults(crossed, with_hole, WORD) != []


def test_a_word_that_is_covered_is_passed_over() -> None:
    cover = replace(area("cover", 3.0, 3.0, 5.0), stroke=None)
    assert faults(WORD, replace(WORD, id="two"), cover) == []


def test_two_words_in_one_place_are_named() -> None:
    assert faults(WORD, replace(WORD, id="two", at=(5.3, 5.1))) == [
        "label 'word' ('join') overlaps label 'two' ('join')"
    ]
    assert faults(WORD, replace(WORD, id="two", at=(6.0, 5.0))) == []


@pytest.mark.parametrize(("at", "fault"), [
    ((0.1, 5.0), "leaves the stage"),
    ((15.9, 5.0), "leaves the stage"),
    ((5.0, 8.95), "leaves the stage"),
    ((5.0, 1.3), "reaches into the strip for captions"),
])  # fmt: skip
def test_a_word_off_its_stage_is_named(at: tuple[float, float], fault: str) -> None:
    assert faults(replace(WORD, at=at)) == [f"label 'word' ('join') {fault}"]


def test_small_type_and_short_sides_are_named() -> None:
    small = replace(WORD, size=31.9 / 120)
    short = replace(area("base", 3.0, 3.0, 0.19))
    figure = Figure(background="#FFFFFF", entries=(small, short))
    assert too_small(figure) == ["label 'word' ('join') is set at 31.9 px", "'base' has a side of 22.8 px"]
    assert LEAST_SIDE * 120 == 24
    right = Figure(background="#FFFFFF", entries=(replace(WORD, size=32 / 120), area("base", 3.0, 3.0, LEAST_SIDE)))
    assert too_small(right) == []


def test_panels_and_clocks_may_be_small() -> None:
    patch = replace(area("clock", 3.0, 3.0, 0.1), role=Role.CLOCK)
    assert too_small(Figure(background="#FFFFFF", entries=(patch, replace(patch, id="b", role=Role.PANEL)))) == []

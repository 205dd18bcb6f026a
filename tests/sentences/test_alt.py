"""Alt texts: enough to draw the outline again, blind to where it lies, silent about which option fits."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import fact_samples as samples
import pytest
from demo_items import demo_items
from hypothesis import given
from hypothesis import strategies as st
from oracles.alt_parser import marked_side_in, rings_drawn_from

from explainers.choice.words.alt import option_alt, options_told, outline_alt, turn_alt
from explainers.geometry.congruence import Match, congruence
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.words.alt import base_alt, piece_alt
from explainers.kinds.registry import solve

DRAWN = [path for path in demo_items() if "corners" in path.read_text(encoding="utf-8").partition("\noptions:")[2]]
SHAPES = [samples.SQUARE, samples.WIDE, samples.CLIPPED, samples.NOTCHED, samples.L_BLOCK]


@pytest.mark.parametrize("shape", SHAPES)
@given(turn_deg=st.integers(-179, 180))
def test_an_outline_can_be_drawn_again_from_its_words(shape: Outline, turn_deg: int) -> None:
    words = outline_alt(shape.moved(Similarity(turn_deg=float(turn_deg), shift=(3.0, -7.0))))
    [ring] = rings_drawn_from(words)
    assert congruence(Outline.of(ring), shape, 0.05).kind is Match.BY_TURNING


def test_an_outline_and_its_mirror_image_are_told_apart() -> None:
    [ring] = rings_drawn_from(outline_alt(samples.L_BLOCK.mirrored()))
    assert congruence(Outline.of(ring), samples.L_BLOCK, 0.05).kind is Match.MIRROR_ONLY


def test_a_hole_is_told_with_its_place() -> None:
    words = outline_alt(samples.RING.moved(Similarity(shift=(10.0, 10.0))))
    outer, hole = rings_drawn_from(words)
    assert len(outer) == len(hole) == 4
    assert "It has a hole with 4 corners; its lowest corner lies 1 across and 1 up," in words


def test_two_holes_are_numbered() -> None:
    other = Outline.of(samples.RING.exterior, (samples.RING.holes[0], ((3.0, 3.0), (3.5, 3.0), (3.0, 3.5))))
    words = outline_alt(other)
    assert "Hole 1 of 2 has 4 corners" in words
    assert "Hole 2 of 2 has 3 corners" in words
    assert len(rings_drawn_from(words)) == 3


@pytest.mark.parametrize("turned", [0.0, 30.0, 90.0, -135.0, 180.0, 400.0])
def test_a_piece_is_told_as_the_sheet_shows_it(turned: float) -> None:
    words = piece_alt(samples.piece("big-corner", turned=turned, of="flag"))
    assert words.startswith("The big corner, a piece to join. ")
    assert words.endswith("It must meet mark K on the flag.")
    [ring] = rings_drawn_from(words)
    number, start, end = marked_side_in(words, "K")
    (ax, ay), (bx, by) = ring[number - 1], ring[number % len(ring)]
    assert (start, end) == (None, None)
    assert ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 == pytest.approx(2.0, abs=0.02)


def test_a_mark_on_a_part_of_a_side_says_where() -> None:
    words = base_alt(samples.SQUARE, [("K", ((4.0, 3.0), (4.0, 1.0)))])
    assert marked_side_in(words, "K") == (2, 1.0, 3.0)


def test_a_mark_off_the_outside_is_told_by_its_place() -> None:
    words = base_alt(samples.RING, [("R", ((1.0, 1.0), (2.0, 1.0)))])
    assert "Mark R is on a line from 1 across and 1 up to 2 across and 1 up, counted from" in words


@pytest.mark.parametrize("times", [0.005, 0.02, 10.0])
@pytest.mark.parametrize("path", DRAWN, ids=lambda path: path.stem)
def test_an_option_typed_in_other_units_keeps_every_corner(path: Path, times: float) -> None:
    asked = load_solution(path).item
    options = tuple(
        option if option.corners is None else replace(
            option,
            corners=tuple((x * times, y * times) for x, y in option.corners),
            holes=tuple(tuple((x * times, y * times) for x, y in hole) for hole in option.holes),
        )
        for option in asked.options
    )  # fmt: skip
    told = options_told(solve(replace(asked, options=options, made=None)))[1:]
    drawn = [(option, words) for option, words in zip(options, told, strict=True) if option.corners is not None]
    for option, words in drawn:
        assert [len(ring) for ring in rings_drawn_from(words)] == [len(option.corners or ()), *map(len, option.holes)]


def test_an_option_gets_nothing_but_its_label_and_its_outline() -> None:
    assert option_alt("B", samples.SQUARE) == f"Option B. {outline_alt(samples.SQUARE)}"


def test_a_turn_is_told_with_an_article() -> None:
    assert turn_alt(-135.0) == "An arrow that shows a turn of 135 degrees clockwise."
    assert turn_alt(180.0) == "An arrow that shows half a turn."

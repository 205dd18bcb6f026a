"""Side marks: bar, ticks, letter."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.figure.model import Circle, Dots, Label, Lines, Role
from explainers.figure.side_marks import end_dot_radius, mark_alt, side_mark_entries, tick_reach, tick_segments
from explainers.figure.theme import DEFAULT_THEME as THEME
from explainers.kinds.join_and_cut.drawing.assembly_drawing import piece_subject
from explainers.typeface.faces import label_disc_radius

START, END = (1.0, 1.0), (3.0, 1.0)


def marks(**changes: object) -> dict[str, object]:
    arguments: dict[str, object] = {"ticks": 1, "mark": "K", "letter_at": (2.0, 1.6), "theme": THEME, **changes}
    entries = side_mark_entries("m", piece_subject(0), START, END, **arguments)  # type: ignore[arg-type]
    assert {entry.group for entry in entries} == {"piece-1"}
    assert {entry.role for entry in entries} == {Role.MARK}
    return {entry.id: entry for entry in entries}


def test_a_whole_side_is_a_bar_ticks_and_a_letter() -> None:
    drawn = marks()
    assert set(drawn) == {"m.bar", "m.ticks", "m.letter"}
    letter = drawn["m.letter"]
    assert isinstance(letter, Label)
    assert (letter.text, letter.at, letter.size, letter.bold) == ("K", (2.0, 1.6), THEME.mark_size, True)


def test_a_part_of_a_side_has_dots_at_its_ends() -> None:
    """Plainly wider than the bar, and no strokes, which would pass for ticks."""
    drawn = marks(partial=True)
    ends, bar = drawn["m.ends"], drawn["m.bar"]
    assert isinstance(ends, Dots) and isinstance(bar, Lines)
    assert [x for x, _ in ends.centres] == [1.0, 3.0]
    assert {y for _, y in ends.centres} == {bar.segments[0][0][1]}
    assert 2 * ends.radius >= 1.5 * bar.width


@given(ticks=st.integers(1, 6), length=st.floats(0.6, 4.0))
@settings(max_examples=60, deadline=None)
def test_ticks_keep_off_the_dots_at_the_ends(ticks: int, length: float) -> None:
    radius = end_dot_radius(length, THEME)
    along = [x for stroke in tick_segments((0.0, 0.0), (length, 0.0), ticks=ticks, theme=THEME) for x, _ in stroke]
    assert min(along) - THEME.tick_width / 2 > radius
    assert max(along) + THEME.tick_width / 2 < length - radius


@pytest.mark.parametrize(("inside", "side"), [(1, 1), (-1, -1), ((0.3, 2.0), 1), ((0.3, -0.1), -1)])
def test_the_bar_lies_on_the_inner_side(inside: object, side: int) -> None:
    bar = marks(inside=inside)["m.bar"]
    assert isinstance(bar, Lines)
    ((ax, ay), (bx, by)) = bar.segments[0]
    assert ay == by
    assert (ay - 1.0) * side > 0
    # Its outer rim is the outer rim of the outline's own stroke, along the side and at both corners.
    assert abs(ay - 1.0) + THEME.side_width / 2 == pytest.approx(THEME.mark_width / 2)
    assert ax - THEME.mark_width / 2 == pytest.approx(1.0 - THEME.side_width / 2)
    assert bx + THEME.mark_width / 2 == pytest.approx(3.0 + THEME.side_width / 2)


@pytest.mark.parametrize(("ticks", "strokes", "alt"), [
    (1, 1, "side with mark K, and one tick"),
    (2, 2, "side with mark K, and two ticks"),
    (3, 3, "side with mark K, and three ticks"),
    (4, 2, "side with mark K, and one cross"),
    (5, 4, "side with mark K, and two crosses"),
    (6, 6, "side with mark K, and three crosses"),
])  # fmt: skip
def test_one_to_three_strokes_then_one_to_three_crosses(ticks: int, strokes: int, alt: str) -> None:
    drawn = marks(ticks=ticks)
    assert isinstance(drawn["m.ticks"], Lines)
    assert len(drawn["m.ticks"].segments) == strokes
    assert mark_alt(ticks, "K") == alt


def test_ticks_tell_pieces_apart_at_every_turn() -> None:
    """Turned by any angle and laid on its middle, no sign is another: the trap of numerals such as IV and VI."""

    def distances(ticks: int) -> tuple[float, ...]:
        """Between all ends of its strokes: the same at every turn."""
        ends = [end for stroke in tick_segments((-1.0, 0.0), (1.0, 0.0), ticks=ticks, theme=THEME) for end in stroke]
        return tuple(sorted(round(math.dist(p, q), 6) for p in ends for q in ends))

    assert len({distances(ticks) for ticks in range(1, 7)}) == 6


def test_seven_pieces_are_too_many() -> None:
    with pytest.raises(ValueError, match="1 to 6"):
        tick_segments(START, END, ticks=7, theme=THEME)


@given(ticks=st.integers(1, 6), length=st.floats(0.2, 4.0), bearing=st.floats(-180, 180), side=st.sampled_from([1, -1]))
@settings(max_examples=60, deadline=None)
def test_ticks_stay_within_their_side(ticks: int, length: float, bearing: float, side: int) -> None:
    turn = math.radians(bearing)
    end = (length * math.cos(turn), length * math.sin(turn))
    for a, b in tick_segments((0.0, 0.0), end, inside=side, ticks=ticks, theme=THEME):
        along = [(x * end[0] + y * end[1]) / length for x, y in (a, b)]
        assert -1e-9 <= min(along) <= max(along) <= length + 1e-9
        crossed = shapely.LineString(((0.0, 0.0), end)).distance(shapely.LineString((a, b)))
        assert crossed < 1e-9
        assert max(math.dist((end[0] / 2, end[1] / 2), p) for p in (a, b)) <= tick_reach(ticks, THEME)


def test_a_backed_letter_stands_on_a_disc_that_holds_it() -> None:
    drawn = marks(backed="#FFFFFF", mark="AK")
    back, letter = drawn["m.letter-back"], drawn["m.letter"]
    assert isinstance(back, Circle)
    assert isinstance(letter, Label)
    assert back.radius > label_disc_radius(letter)
    assert list(drawn).index("m.letter-back") < list(drawn).index("m.letter")


def test_a_mark_without_a_letter() -> None:
    assert set(marks(letter_at=None, backed="#FFFFFF")) == {"m.bar", "m.ticks"}

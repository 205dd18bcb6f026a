"""Marks and pieces that can be read two ways, options that are hard to tell apart on paper."""

from __future__ import annotations

import pytest
from small_items import L_BLOCK, SQUARE, TRIANGLE, WRONG, flag, item

from explainers.geometry.rigid_motion import Ring
from explainers.item.model import Does, Item, Option, Piece, WarningKind
from explainers.solution.model import Warning_
from explainers.solution.solver import solve


def warned(shown: Item, kind: WarningKind) -> list[Warning_]:
    return [warning for warning in solve(shown).warnings if warning.kind is kind]


def second(**changes: object) -> Piece:
    """A flag at the other arm of the block."""
    return flag(**{"name": "tip", "meets": ((2.0, 4.0), (0.0, 4.0)), "mark": "A", **changes})


def test_a_plain_item_reads_one_way() -> None:
    shown = item(flag(), second())
    assert not warned(shown, WarningKind.TWO_WAY_MARK)
    assert not warned(shown, WarningKind.SYMMETRIC_PIECE)


@pytest.mark.parametrize(("one", "other"), [("b", "q"), ("6", "9"), ("M", "W"), ("N", "Z"), ("k", "K"), ("I", "l")])
def test_marks_that_look_alike_on_sides_of_the_same_length(one: str, other: str) -> None:
    (warning,) = warned(item(flag(mark=one), second(mark=other)), WarningKind.TWO_WAY_MARK)
    assert warning.field == "pieces[1].mark"
    assert "look alike" in warning.message


def test_marks_that_look_alike_on_sides_of_other_lengths_cannot_be_taken_for_each_other() -> None:
    short = second(mark="9", corners=((0, 0), (1, 0), (0, 2)), side=((0, 0), (1, 0)), meets=((1, 4), (0, 4)))
    assert not warned(item(flag(mark="6"), short), WarningKind.TWO_WAY_MARK)


@pytest.mark.parametrize(("stops_at", "count"), [(3.9, 1), (3.95, 1), (3.6, 0), (4.0, 0)])
def test_a_mark_that_stops_just_short_of_a_corner(stops_at: float, count: int) -> None:
    start = stops_at - 2.0
    shown = item(flag(meets=((start, 0), (stops_at, 0))), base=SQUARE)
    found = warned(shown, WarningKind.TWO_WAY_MARK)
    assert len(found) == count
    assert all("just short of a corner" in warning.message and "base" in warning.message for warning in found)


@pytest.mark.parametrize(
    ("corners", "positions"),
    [
        (((0, 0), (2, 0), (2, 2), (0, 2)), 4),
        (((0, 0), (2, 0), (2, 1), (0, 1)), 2),
        (((0, 0), (2, 0), (3, 1), (1, 1)), 2),
        (((0, 0), (2, 0), (1, 3**0.5)), 3),
        (((0, 0), (2, 0), (1, 2)), 0),  # flips onto itself, but no turn lays it on itself
        (TRIANGLE, 0),
    ],
)
def test_a_piece_that_fits_with_more_than_one_end(corners: Ring, positions: int) -> None:
    found = warned(item(flag(corners=corners, turned=20.0)), WarningKind.SYMMETRIC_PIECE)
    assert [f"{positions} turned positions" in warning.message for warning in found] == [True] * bool(positions)
    assert not any("as it lies" in warning.message for warning in found)


@pytest.mark.parametrize(("turned", "as_it_lies"), [(90.0, True), (91.0, False)])
def test_a_symmetric_piece_whose_turn_changes_nothing(turned: float, as_it_lies: bool) -> None:
    strip = flag(corners=((0, 0), (2, 0), (2, 1), (0, 1)), turned=turned)
    (warning,) = warned(item(strip), WarningKind.SYMMETRIC_PIECE)
    assert ("but for its mark it is shown as it lies" in warning.message) is as_it_lies


def test_an_option_of_another_area_that_is_nowhere_far_off() -> None:
    """A frame a little too wide all round: 5 % more area, but under 3 mm anywhere."""
    bar = Piece(
        name="bar",
        does=Does.JOIN,
        corners=((0, 0), (4, 0), (4, 4), (0, 4)),
        side=((0, 0), (4, 0)),
        meets=((4, 0), (4, 4)),
        turned=10.0,
    )
    wider = Option(corners=((0, 0), (8, 0), (8, 4.2), (0, 4.2)))
    (warning,) = warned(item(bar, base=SQUARE, options=(Option(), wider, WRONG[1])), WarningKind.NEARLY_RIGHT)
    assert warning.field == "options[1]"
    assert "by at most about 1 mm" in warning.message


def test_the_other_block_reads_one_way_too() -> None:
    assert not warned(item(flag(), base=L_BLOCK), WarningKind.TWO_WAY_MARK)

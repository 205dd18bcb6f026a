"""Marks and pieces that can be read two ways, options that are hard to tell apart on paper."""

from __future__ import annotations

from dataclasses import replace

import pytest
from small_items import L_BLOCK, SQUARE, TRIANGLE, WRONG, flag, item

from explainers.choice.model import Warning_
from explainers.choice.question import Option, WarningKind
from explainers.geometry.congruence import motions_onto
from explainers.geometry.rigid_motion import Ring
from explainers.kinds.join_and_cut.model import Does, Item, Piece, PieceWarning
from explainers.kinds.join_and_cut.solving.solver import solve


def warned(shown: Item, kind: str) -> list[Warning_]:
    return [warning for warning in solve(shown).warnings if warning.kind is kind]


def second(**changes: object) -> Piece:
    """A flag at the other arm of the block."""
    return flag(**{"name": "tip", "meets": ((2.0, 4.0), (0.0, 4.0)), "mark": "A", **changes})


# A piece on top of the tip, whose far side lies there.
ON_TIP = {"of": "tip", "meets": ((2.0, 2.0), (0.0, 2.0)), "turned": 180.0}


def test_a_plain_item_reads_one_way() -> None:
    shown = item(flag(), second())
    assert not warned(shown, PieceWarning.TWO_WAY_MARK)
    assert not warned(shown, PieceWarning.SYMMETRIC_PIECE)


@pytest.mark.parametrize(("one", "other"), [("b", "q"), ("6", "9"), ("M", "W"), ("N", "Z"), ("k", "K"), ("I", "l")])
def test_marks_that_look_alike_on_sides_of_the_same_length(one: str, other: str) -> None:
    (warning,) = warned(item(flag(mark=one), second(mark=other)), PieceWarning.TWO_WAY_MARK)
    assert warning.field == "pieces[1].mark"
    assert "look alike" in warning.message


def test_marks_that_look_alike_on_sides_of_other_lengths_cannot_be_taken_for_each_other() -> None:
    short = second(mark="9", corners=((0, 0), (1, 0), (0, 2)), side=((0, 0), (1, 0)), meets=((1, 4), (0, 4)))
    assert not warned(item(flag(mark="6"), short), PieceWarning.TWO_WAY_MARK)


@pytest.mark.parametrize(("stops_at", "count"), [(3.9, 1), (3.95, 1), (3.6, 0), (4.0, 0)])
def test_a_mark_that_stops_just_short_of_a_corner(stops_at: float, count: int) -> None:
    start = stops_at - 2.0
    shown = item(flag(meets=((start, 0), (stops_at, 0))), base=SQUARE)
    found = warned(shown, PieceWarning.TWO_WAY_MARK)
    assert len(found) == count
    assert all("just short of a corner" in warning.message and "base" in warning.message for warning in found)


# A flag must lie at -90 in its own coordinates: shown at 20, it turns by 110 clockwise.
@pytest.mark.parametrize(
    ("corners", "positions", "easier"),
    [
        (((0, 0), (2, 0), (2, 2), (0, 2)), 4, "a turn of 20 degrees clockwise"),
        (((0, 0), (2, 0), (1, 3**0.5)), 3, "a turn of 10 degrees anticlockwise"),
        (((0, 0), (2, 0), (1, 2)), 0, ""),  # flips onto itself, but no turn lays it on itself
        (TRIANGLE, 0, ""),
    ],
)
def test_a_piece_that_another_end_brings_home_by_a_smaller_turn(corners: Ring, positions: int, easier: str) -> None:
    found = warned(item(flag(corners=corners, turned=20.0)), PieceWarning.SYMMETRIC_PIECE)
    asked = "the turn of 110 degrees clockwise that its mark asks for"
    told = f"flag looks the same in {positions} turned positions: {easier} does as well as {asked}"
    assert [warning.message for warning in found] == [told] * bool(positions)


@pytest.mark.parametrize("corners", [((0, 0), (2, 0), (2, 1), (0, 1)), ((0, 0), (2, 0), (3, 1), (1, 1))])
@pytest.mark.parametrize(
    ("turned", "told"),
    [
        (90.0, "no turn does as well as the half turn that"),
        (75.0, "a turn of 15 degrees anticlockwise does as well as the turn of 165 degrees clockwise that"),
        (22.0, None),  # 112 or 68 degrees: about as easy
        (0.0, None),  # a quarter turn either way
        (-60.0, None),  # the turn by the mark is the smaller one
        (-90.0, None),  # no turn at all, which is another warning
    ],
)
def test_a_strip_is_told_of_only_where_its_turn_is_needless(corners: Ring, turned: float, told: str | None) -> None:
    found = warned(item(flag(corners=corners, turned=turned)), PieceWarning.SYMMETRIC_PIECE)
    assert len(found) == (told is not None)
    assert all(f"flag looks the same in 2 turned positions: {told}" in warning.message for warning in found)


def test_the_easier_turn_gives_the_same_outline() -> None:
    """What the warning says: marked at its other end, the strip comes to lie where it did, by the turn it tells."""
    strip = flag(corners=((0, 0), (2, 0), (2, 1), (0, 1)), turned=75.0)
    there, back = solve(item(strip)), solve(item(replace(strip, side=((2, 1), (0, 1)))))
    assert motions_onto(there.outline, back.outline, 1e-9)
    assert there.placements[0].turn_deg == pytest.approx(-165.0)
    assert back.placements[0].turn_deg == pytest.approx(15.0)


def test_several_symmetric_pieces_are_told_in_one_line() -> None:
    square = ((0, 0), (2, 0), (2, 2), (0, 2))
    (warning,) = warned(
        item(
            flag(turned=10.0),
            second(corners=square, turned=90.0),
            second(name="top", corners=square, mark="R", **ON_TIP),
        ),
        PieceWarning.SYMMETRIC_PIECE,
    )
    assert warning.field == "pieces[1]"
    tip, top = warning.message.split("; ")
    assert tip.startswith("tip looks the same in 4 turned positions: no turn does as well as the turn of 90 degrees")
    assert top.startswith("top looks the same in 4 turned positions: no turn does as well as the half turn")


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
    assert not warned(item(flag(), base=L_BLOCK), PieceWarning.TWO_WAY_MARK)

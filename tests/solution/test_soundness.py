"""Warnings, which change no exit code, and codes of options."""

from __future__ import annotations

from dataclasses import replace

import pytest
from small_items import SQUARE, WRONG, flag, item

from explainers.choice.question import MadeOptions, Option
from explainers.geometry.rigid_motion import RigidMotion
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.solving.solver import solve


def warned(shown: Item) -> dict[str, str]:
    solution = solve(shown)
    assert solution.sound
    return {warning.field: warning.message for warning in solution.warnings}


def test_a_plain_item_has_no_warnings() -> None:
    assert warned(item()) == {}


def test_no_turn_to_find() -> None:
    assert "no turn" in warned(item(flag(turned=-90.0)))["pieces[0].turned"]


@pytest.mark.parametrize("mark", ["p", "Z", "6", "Ad", "N"])
def test_a_mark_easily_misread(mark: str) -> None:
    assert "misread" in warned(item(flag(mark=mark)))["pieces[0].mark"]


def test_a_result_with_rotational_symmetry() -> None:
    bar = Piece(
        name="bar",
        does=Does.JOIN,
        corners=((0, 0), (4, 0), (4, 4), (0, 4)),
        side=((0, 0), (4, 0)),
        meets=((4, 0), (4, 4)),
    )
    assert "2 turned positions" in warned(item(bar, base=SQUARE))["options"]
    assert solve(item(bar, base=SQUARE)).symmetry_order == 2


def test_a_nearly_right_option() -> None:
    near = Option(corners=((0, 0), (4, 0), (6, 2), (2, 2), (2, 4.1), (0, 4)))
    found = warned(item(options=(Option(), near, WRONG[0])))
    assert "nearly right" in found["options[1]"]


def test_sides_of_options_too_short_to_be_seen_are_named() -> None:
    fine = Option(corners=((0, 0), (4, 0), (4, 4), (3.75, 4), (3.75, 3), (0, 3)), turned=40.0)
    found = warned(item(options=(Option(), fine, WRONG[0])))
    assert found["options[1]"].endswith(": (4, 4) to (3.75, 4), 0.25 long, of option B")


def test_sides_of_made_options_are_told_where_they_are_asked_for() -> None:
    """The base has a short side, which every option shares."""
    base = ((0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (1.9, 4.2), (0, 4))
    found = warned(replace(item(base=base, options=()), made=MadeOptions(make=3, seed=1)))
    assert "(2, 4) to (1.9, 4.2), 0.224 long, of options A, B, C and D" in found["options.make"]


def test_a_side_too_short_to_be_seen() -> None:
    found = warned(item(flag(corners=((0, 0), (2, 0), (0.1, 2), (0, 2)))))
    assert "too fine" in found["pieces[0].corners"]


def codes(*options: Option) -> dict[str, str]:
    return {verdict.label: verdict.code for verdict in solve(item(options=options)).verdicts}


def test_a_code_belongs_to_the_outline_not_to_its_place() -> None:
    first = codes(Option(), Option(slip="flipped"), *WRONG)
    again = codes(WRONG[1], Option(corners=((0, 0), (5, 0), (0, 1))), Option(slip="flipped"), WRONG[0], Option())
    assert [again["E"], again["C"], again["D"], again["A"]] == list(first.values())
    assert len(set(again.values())) == 5
    assert all(code.startswith("k") and len(code) >= 5 for code in again.values())


def test_a_code_does_not_change_when_the_option_is_turned_or_scaled() -> None:
    turned = Option(corners=RigidMotion(turn_deg=77.0, shift=(3.0, 4.0)).apply(WRONG[0].corners or ()), turned=12.0)
    assert codes(Option(turned=40.0, scale=2.0), turned, WRONG[1]) == codes(Option(), *WRONG)


def test_a_name_given_by_the_teacher_is_the_code() -> None:
    named = Option(corners=WRONG[0].corners, name="too-long")
    assert codes(Option(), named, WRONG[1])["B"] == "too-long"


def test_two_right_options_still_have_two_codes() -> None:
    assert len(set(codes(Option(), Option(turned=90.0), *WRONG).values())) == 4

"""Items solved by hand: turns, outlines, refusals."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from small_items import L_BLOCK, SQUARE, TRIANGLE, WRONG, flag, item

from explainers.choice.question import MadeOptions, Option
from explainers.choice.report import solution_json
from explainers.errors import ItemError
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.solving.placing import lay
from explainers.kinds.join_and_cut.solving.solver import lay_pieces, solve


def faults_of(broken: Item) -> dict[str, str]:
    with pytest.raises(ItemError) as caught:
        solve(broken)
    assert all(fault.message and fault.fix for fault in caught.value.faults)
    return {fault.field: fault.message for fault in caught.value.faults}


def corners(outline: object) -> set[tuple[float, float]]:
    return {tuple(point) for point in outline}  # type: ignore[attr-defined]


def test_the_corner_block_of_the_contract() -> None:
    report = solution_json(solve(item(options=(Option(slip="flipped"), Option(turned=90.0), *WRONG))))
    assert report["turns"] == [135.0]  # lies at 90 - 180 in its own coordinates, and is shown at 135
    assert corners(report["outline"]) == {(0, 0), (4, 0), (6, 2), (2, 2), (2, 4), (0, 4)}
    assert report["holes"] == []
    assert report["area"] == 14.0
    assert report["key"] == "B"
    assert report["sound"] is True
    assert report["options"][0] == {"label": "A", "same": False, "mirrored": True}


def test_the_turn_counts_from_the_piece_as_the_sheet_shows_it() -> None:
    for turned in (0.0, 45.0, -90.0, 270.0, 725.0):
        placement = lay_pieces(item(flag(turned=turned)))[0]
        assert placement.motion.turn_deg == -90.0
        assert placement.turn_deg == pytest.approx(math.remainder(-90.0 - turned, 360.0))


def test_half_a_turn_is_written_180() -> None:
    assert solution_json(solve(item(flag(turned=90.0))))["turns"] == [180.0]
    assert solution_json(solve(item(flag(turned=-90.0))))["turns"] == [0.0]


def test_every_direction_of_typing_gives_one_answer() -> None:
    expected = solution_json(solve(item()))
    for corners_typed in (TRIANGLE, TRIANGLE[::-1], TRIANGLE[1:] + TRIANGLE[:1]):
        for side in (flag().side, flag().side[::-1]):
            for meets in (flag().meets, flag().meets[::-1]):
                for base in (L_BLOCK, L_BLOCK[::-1], L_BLOCK[3:] + L_BLOCK[:3]):
                    report = solution_json(solve(item(flag(corners=corners_typed, side=side, meets=meets), base=base)))
                    assert report["turns"] == expected["turns"]
                    assert corners(report["outline"]) == corners(expected["outline"])


def test_a_cut_lies_on_the_same_side_of_the_marks() -> None:
    dart = Piece(
        name="dart",
        does=Does.CUT,
        corners=((0, 0), (2, 0), (1, 1)),
        side=((0, 0), (2, 0)),
        meets=((4.0, 1.0), (4.0, 3.0)),
    )
    report = solution_json(solve(item(dart, base=SQUARE)))
    assert report["turns"] == [90.0]
    assert (3.0, 2.0) in corners(report["outline"])
    assert report["area"] == 15.0


def test_a_piece_that_meets_a_piece_in_that_pieces_own_coordinates() -> None:
    tip = Piece(
        name="tip",
        does=Does.JOIN,
        corners=((0, 0), (2, 0), (2, 2), (0, 2)),
        side=((0, 2), (2, 2)),
        meets=((0, 0), (0, 2)),
        of="flag",
    )
    placements = lay_pieces(item(flag(), tip))
    # The flag's side (0,0)-(0,2) lies on (4, 2)-(6, 2); a square on top of it reaches up to y = 4.
    assert max(y for _, y in placements[-1].after.exterior) == pytest.approx(4.0)
    assert placements[-1].after.area == pytest.approx(18.0)


def test_a_join_that_closes_a_ring() -> None:
    u_block = ((0, 0), (6, 0), (6, 4), (4, 4), (4, 2), (2, 2), (2, 4), (0, 4))
    bar = Piece(
        name="bar",
        does=Does.JOIN,
        corners=((0, 0), (6, 0), (6, 1), (0, 1)),
        side=((0, 0), (2, 0)),
        meets=((0, 4), (2, 4)),
    )
    report = solution_json(solve(item(bar, base=u_block)))
    assert corners(report["holes"][0]) == {(2, 2), (4, 2), (4, 4), (2, 4)}
    assert corners(report["outline"]) == {(0, 0), (6, 0), (6, 5), (0, 5)}
    assert report["area"] == 26.0


def test_a_piece_inside_a_hole_and_one_that_fills_it() -> None:
    hole = ((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0))
    patch = Piece(name="patch", does=Does.JOIN, corners=TRIANGLE, side=((0, 0), (2, 0)), meets=((1, 1), (3, 1)))
    report = solution_json(solve(item(patch, base=SQUARE, holes=(hole,))))
    assert corners(report["holes"][0]) == {(3, 1), (3, 3), (1, 3)}
    full = replace(patch, corners=((0, 0), (2, 0), (2, 2), (0, 2)))
    report = solution_json(solve(item(full, base=SQUARE, holes=(hole,))))
    assert report["holes"] == []
    assert report["area"] == 16.0


def test_hand_typed_2_828_meets_2_root_2() -> None:
    big = Piece(
        name="big",
        does=Does.JOIN,
        corners=((0, 0), (2.828, 0), (1.414, 1.414)),
        side=((0, 0), (2.828, 0)),
        meets=((2.0, 0.0), (0.0, 2.0)),
    )
    report = solution_json(solve(item(big, base=TRIANGLE)))
    assert report["turns"] == [pytest.approx(-45.0, abs=1e-9)]
    assert len(report["outline"]) == 4
    assert {(0, 0), (2, 0), (0, 2)} <= corners(report["outline"])
    assert report["area"] == pytest.approx(4.0, abs=2e-3)


def test_a_mark_of_another_length_is_refused() -> None:
    found = faults_of(item(flag(side=((0, 0), (1.9, 0)))))
    assert "1.9 long" in found["pieces[0].side"]


@pytest.mark.parametrize(
    ("piece", "field", "words"),
    [
        (flag(meets=((4, 1), (4, 3))), "pieces[0].meets", "not on one side of the outline"),
        (flag(side=((0, 1), (2, 1))), "pieces[0].side", "not on a side of flag"),
        (flag(of="tip"), "pieces[0].of", "no earlier joined piece called tip"),
        (flag(meets=((4, 2), (2, 2)), corners=((0, 0), (2, 0), (-2, 3))), "pieces[0].meets", "overlaps"),
        (flag(does=Does.CUT, corners=((0, 0), (2, 0), (0, 5))), "pieces[0].meets", "reaches outside"),
        (
            flag(
                does=Does.CUT,
                corners=((0, 0), (4, 0), (4, -2), (2, -2), (2, -4), (0, -4)),
                side=((2, -4), (0, -4)),
                meets=((0, 4), (2, 4)),
            ),
            "pieces[0].meets",
            "reaches outside",
        ),
        (flag(corners=((0, 0), (2, 0), (1, 0))), "pieces[0].corners", "outline"),
    ],
)
def test_refusals(piece: Piece, field: str, words: str) -> None:
    assert words in faults_of(item(piece))[field]


def test_a_cut_that_leaves_nothing() -> None:
    whole = flag(does=Does.CUT, corners=L_BLOCK, side=((4, 0), (4, 2)))
    assert "leaves nothing" in faults_of(item(whole))["pieces[0].corners"]


def test_a_cut_that_leaves_two_parts() -> None:
    strip = flag(does=Does.CUT, corners=((0, 0), (1, 0), (1, 4), (0, 4)), side=((0, 0), (1, 0)), meets=((1, 0), (2, 0)))
    assert "2 parts" in faults_of(item(strip, base=SQUARE))["pieces[0].corners"]


def test_a_result_that_touches_itself_at_a_point() -> None:
    tip = flag(does=Does.CUT, corners=((0, 0), (2, 0), (1, 4)), side=((0, 0), (2, 0)), meets=((1, 0), (3, 0)))
    assert "2 parts" in faults_of(item(tip, base=SQUARE))["pieces[0].corners"]
    hook = flag(corners=((0, 0), (2, 0), (2, 1), (0, 2)), side=((0, 0), (2, 0)), meets=((4, 2), (2, 2)))
    # A quadrilateral in the elbow of the L touches the upright along a whole side: allowed.
    assert lay_pieces(item(hook))
    spike = flag(corners=((0, 0), (1, 0), (-1, 1)), side=((0, 0), (1, 0)), meets=((3, 2), (4, 2)))
    assert "touches itself at (2, 3)" in faults_of(item(spike))["pieces[0].corners"]


def test_all_faults_of_pieces_and_options_in_one_run() -> None:
    broken = item(
        flag(meets=((9, 9), (9, 11))),
        flag(name="tip", side=((0, 0), (1, 0))),
        options=(
            Option(slip="fliped"),
            Option(slip="left-out"),
            Option(slip="left-out", slip_subject="flagg"),
            Option(slip="flipped", slip_subject="flag"),
        ),
    )
    found = faults_of(broken)
    assert set(found) == {
        "pieces[0].meets",
        "pieces[1].side",
        "options[0].slip",
        "options[1].piece",
        "options[2].piece",
        "options[3].piece",
    }


def test_options_that_are_asked_for_are_made() -> None:
    asked = replace(item(), options=(), made=MadeOptions(make=4, seed=7))
    solution = solve(asked)
    assert solution.sound and len(solution.verdicts) == 5
    assert solve(solution.item) == solution


def test_two_wrong_options_may_not_be_the_same() -> None:
    turned = tuple(RigidMotion(turn_deg=30.0).apply(WRONG[0].corners or ()))
    found = faults_of(item(options=(Option(), *WRONG, Option(corners=turned, scale=2.0))))
    assert found == {"options[3]": "option D is the same outline as option B"}


def test_two_right_options_are_unsound_not_refused() -> None:
    solution = solve(item(options=(Option(), *WRONG, Option(turned=30.0, scale=2.0))))
    assert (solution.sound, solution.key) == (False, None)
    assert "A and D" in solution.unsound_because[0]
    none = solve(item(options=(Option(slip="flipped"), *WRONG)))
    assert (none.sound, none.key) == (False, None)
    assert none.unsound_because


def test_a_coordinate_of_the_base_is_never_moved() -> None:
    base = ((0.1, 0.2), (4.1, 0.2), (4.1, 2.2), (2.1, 2.2), (2.1, 4.2), (0.1, 4.2))
    solution = solve(item(flag(meets=((4.1, 0.2), (4.1, 2.2))), base=base))
    assert {base[0], base[1], base[3], base[4], base[5]} <= set(solution.outline.exterior)


def test_a_slip_that_cuts_all_away_and_more_is_nothing() -> None:
    """A turned-back cut may cover the whole base and reach past it: there is nothing then to compare an option with."""
    bite = Piece(
        name="bite",
        does=Does.CUT,
        corners=((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0)),
        side=((0.0, 0.0), (1.0, 0.0)),
        meets=((0.0, 0.0), (1.0, 0.0)),
    )
    slab = Outline.of(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)))
    laid = lay(bite, index=0, before=slab, earlier=(), tolerance=0.001, slip_turn_deg=0.0, only_legal=True)
    assert laid.placement is None
    assert "leaves nothing" in laid.faults[0].message

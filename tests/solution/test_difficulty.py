"""Features of an item counted by hand; the suggested pause: bounded, monotone, and at the published rate of turning."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from small_items import SQUARE, WRONG, flag, item
from strategies import random_item

from explainers.choice.question import Option
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.model import Does, Piece
from explainers.kinds.join_and_cut.solving.difficulty import JoinAndCutFeatures
from explainers.kinds.join_and_cut.solving.solver import solve

ITEMS = Path(__file__).parents[2] / "items"


def features_of(name: str) -> JoinAndCutFeatures:
    found = load_solution(ITEMS / f"{name}.yaml").features()
    assert isinstance(found, JoinAndCutFeatures)
    return found


def seconds(found: JoinAndCutFeatures) -> float:
    return found.seconds_of_work


def test_the_features_of_the_corner_block_counted_by_hand() -> None:
    found = features_of("corner-block")
    assert (found.pieces, found.options) == (1, 5)
    assert found.total_turn_deg == found.largest_turn_deg == pytest.approx(135.0)
    assert (found.odd_angles, found.part_side_marks, found.cuts, found.pieces_on_pieces) == (0, 0, 0, 0)
    assert (found.hole, found.flipped_option, found.nearly_right) == (False, True, 0)


def test_the_features_of_the_kite_block_counted_by_hand() -> None:
    found = features_of("kite-block")
    # 180, then 135, then the notch: shown at 60, it ends at -90.
    assert found.total_turn_deg == pytest.approx(180.0 + 135.0 + 150.0)
    assert found.largest_turn_deg == pytest.approx(180.0)
    assert (found.pieces, found.cuts, found.pieces_on_pieces, found.odd_angles) == (3, 1, 1, 1)


def test_a_hole_and_a_nearly_right_option_are_counted() -> None:
    assert features_of("window-block").hole
    near = Option(corners=((0, 0), (4, 0), (6, 2), (2, 2), (2, 4.1), (0, 4)))
    assert solve(item(options=(Option(), near, WRONG[0]))).features().nearly_right == 1


def test_a_typical_item_gets_about_half_a_minute() -> None:
    """Common practice, no source: a try-first pause of about 30 s for one piece and five options."""
    assert load_solution(ITEMS / "corner-block.yaml").suggested_pause_s == 30.0


@pytest.mark.parametrize("field", ["total_turn_deg", "options_turn_deg"])
def test_turning_takes_time_in_proportion_to_the_angle(field: str) -> None:
    """Linear in the angle (Shepard & Metzler 1971, read in the abstract), 17 ms a degree (from memory)."""
    found = solve(item()).features()
    more = replace(found, **{field: getattr(found, field) + 180.0})
    assert seconds(more) - seconds(found) == pytest.approx(180.0 * 0.017, rel=0.03)


def test_corners_take_no_time() -> None:
    """Rate of turning nearly independent of the complexity of a polygon (Cooper 1975, read in the abstract)."""
    plain = Piece(
        name="bar",
        does=Does.JOIN,
        corners=((0, 0), (2, 0), (3, 3), (0, 3)),
        side=((0, 0), (2, 0)),
        meets=((4, 1), (4, 3)),
        turned=15.0,
    )
    jagged = replace(plain, corners=((0, 0), (2, 0), (2, 1), (3, 1), (2, 2), (3, 3), (0, 3)))
    pauses = {
        seconds(replace(solve(item(piece, base=SQUARE)).features(), options_turn_deg=0.0)) for piece in (plain, jagged)
    }
    assert len(pauses) == 1


@pytest.mark.parametrize(
    "field", ["pieces", "odd_angles", "part_side_marks", "cuts", "pieces_on_pieces", "options", "nearly_right"]
)
def test_more_of_anything_never_takes_less(field: str) -> None:
    found = solve(item()).features()
    assert seconds(replace(found, **{field: getattr(found, field) + 1})) > seconds(found)


@pytest.mark.parametrize("field", ["hole", "flipped_option"])
def test_a_hole_or_a_flipped_option_takes_longer(field: str) -> None:
    found = replace(solve(item()).features(), **{field: False})
    assert seconds(replace(found, **{field: True})) > seconds(found)


def test_pauses_are_whole_fives_within_bounds() -> None:
    pauses = [solve(random_item(seed)).suggested_pause_s for seed in range(40)]
    assert all(15.0 <= pause <= 120.0 and pause % 5.0 == 0.0 for pause in pauses)
    assert len(set(pauses)) > 3, "a pause that does not follow the item is a constant"


def test_the_least_pause() -> None:
    easy = solve(item(flag(turned=-90.0), options=(Option(), *WRONG)))
    assert easy.suggested_pause_s >= 15.0

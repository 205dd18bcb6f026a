"""Named slips: what each makes, and when it makes nothing."""

from __future__ import annotations

import pytest
from small_items import SQUARE, WRONG, flag, item

from explainers.choice.question import Option
from explainers.errors import ItemError
from explainers.geometry.outline import Outline
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.slips.registry import SLIPS
from explainers.kinds.join_and_cut.solving.solver import solve


def made(slip: str, base_item: Item, piece: str | None = None) -> Outline:
    from dataclasses import replace

    options = (Option(), Option(slip=slip, slip_subject=piece), *WRONG)
    return solve(replace(base_item, options=options)).verdicts[1].outline


def corners(outline: Outline) -> set[tuple[float, float]]:
    return {(round(x, 9) + 0.0, round(y, 9) + 0.0) for ring in outline.rings for x, y in ring}


def test_flipped() -> None:
    flipped = made("flipped", item())
    assert corners(flipped) == {(0, 0), (-4, 0), (-6, 2), (-2, 2), (-2, 4), (0, 4)}
    assert flipped.area == pytest.approx(14.0)


def test_piece_flipped() -> None:
    # The flag's right angle then lies at the bottom of the side that it meets, not at the top.
    assert corners(made("piece-flipped", item(), "flag")) == {(0, 0), (6, 0), (4, 2), (2, 2), (2, 4), (0, 4)}


def test_a_piece_that_meets_a_flipped_piece_meets_the_same_side_of_it() -> None:
    tip = Piece(
        name="tip",
        does=Does.JOIN,
        corners=((0, 0), (2, 0), (2, 1), (0, 1)),
        side=((0, 0), (2, 0)),
        meets=((0, 0), (0, 2)),
        of="flag",
    )
    outline = made("piece-flipped", item(flag(), tip), "flag")
    assert outline.area == pytest.approx(16.0)
    assert {(4.0, -1.0), (6.0, -1.0)} <= corners(outline)


def test_left_out() -> None:
    assert corners(made("left-out", item(), "flag")) == {(0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4)}


def test_other_way_round() -> None:
    assert made("other-way-round", item(base=SQUARE), "flag").area == pytest.approx(14.0)


def test_not_turned() -> None:
    # Shown at 0, the flag hangs with the middle of its marked side on the middle of the side it should meet.
    # It covers a part of the base then, which a piece may not do, but a learner's drawing does.
    outline = made("not-turned", item(flag(turned=0.0)), "flag")
    assert {(4.0, 1.0), (5.0, 1.0), (3.0, 3.0), (3.0, 2.0)} <= corners(outline)
    assert outline.area == pytest.approx(13.0)


@pytest.mark.parametrize(
    ("slip", "pieces", "message"),
    [
        ("left-out", (flag(), flag(name="tip", of="flag", meets=((0, 0), (0, 2)))), "tip meets flag"),
        (
            "other-way-round",
            (flag(), flag(name="tip", of="flag", meets=((0, 0), (0, 2)))),
            "flag is cut away, so no piece can meet it",
        ),
    ],
)
def test_a_slip_that_makes_nothing_is_refused(slip: str, pieces: tuple[Piece, ...], message: str) -> None:
    broken = item(*pieces, options=(Option(), Option(slip=slip, slip_subject="flag"), *WRONG))
    with pytest.raises(ItemError) as caught:
        solve(broken)
    (fault,) = caught.value.faults
    assert fault.field == "options[1].slip"
    assert message in fault.message


def test_the_registry_lists_what_the_contract_names() -> None:
    assert "flipped" in SLIPS
    assert not SLIPS["flipped"].needs_piece

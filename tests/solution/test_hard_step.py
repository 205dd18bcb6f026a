"""The one thing to remember: every kind comes up, and what it says holds."""

from __future__ import annotations

import pytest
from small_items import SQUARE, WRONG, flag, item
from strategies import random_item

from explainers.choice.question import Option
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.solving.hard_step import SCORES, HardStep, hardest_step, turn_kind
from explainers.kinds.join_and_cut.solving.solver import solve

TIP = flag(name="tip", of="flag", meets=((0.0, 0.0), (0.0, 2.0)), turned=0.0)
BAR = Piece(
    name="bar",
    does=Does.JOIN,
    corners=((0, 0), (6, 0), (6, 1), (0, 1)),
    side=((0, 0), (2, 0)),
    meets=((0, 4), (2, 4)),
    turned=30.0,
)
U_BLOCK = ((0, 0), (6, 0), (6, 4), (4, 4), (4, 2), (2, 2), (2, 4), (0, 4))
DART = flag(does=Does.CUT, corners=((0, 0), (4, 0), (1, 1)), side=((0, 0), (4, 0)), meets=((4, 0), (4, 4)), turned=45.0)


@pytest.mark.parametrize(
    ("shown", "kind", "name"),
    [
        (item(flag(turned=90.0)), HardStep.HALF_TURN, "flag"),
        (item(flag(turned=-90.0)), HardStep.NO_TURN, "flag"),
        (item(flag(turned=135.0)), HardStep.LARGE_TURN, "flag"),
        (item(flag(turned=0.0)), HardStep.SMALL_TURN, "flag"),
        (item(flag(turned=17.0)), HardStep.ODD_TURN, "flag"),
        (item(flag(turned=0.0), base=SQUARE), HardStep.PART_SIDE, "flag"),
        (item(BAR, base=U_BLOCK), HardStep.RING, ""),
        (item(flag(turned=0.0), TIP), HardStep.PIECE_ON_PIECE, "tip"),
        (item(DART, base=SQUARE), HardStep.CUT_INSIDE, "flag"),
        (item(flag(turned=0.0), options=(Option(), Option(slip="flipped"), *WRONG)), HardStep.MIRROR, ""),
    ],
)
def test_the_hardest_step(shown: Item, kind: HardStep, name: str) -> None:
    step = hardest_step(solve(shown))
    assert (step.kind, step.name) == (kind, name)
    assert step.holds()


def test_every_item_has_one_that_holds() -> None:
    kinds = set()
    for seed in range(60):
        step = hardest_step(solve(random_item(seed)))
        assert step.holds()
        kinds.add(step.kind)
    assert len(kinds) >= 4


def test_every_kind_has_a_score_of_its_own() -> None:
    assert set(SCORES) == set(HardStep)
    assert len(set(SCORES.values())) == len(SCORES)


@pytest.mark.parametrize(
    ("turn_deg", "kind"),
    [
        (0.05, HardStep.NO_TURN),
        (-179.95, HardStep.HALF_TURN),
        (90.05, HardStep.SMALL_TURN),
        (-134.95, HardStep.LARGE_TURN),
        (36.87, HardStep.ODD_TURN),
    ],
)
def test_a_hand_typed_turn_counts_as_the_one_that_was_meant(turn_deg: float, kind: HardStep) -> None:
    assert turn_kind(turn_deg) is kind

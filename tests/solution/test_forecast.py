"""What is foreseen of slips without replaying them: never a slip left out that makes the outline asked about."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest
from strategies import random_item
from test_diagnosis import bent, made, replays_of, spread, typed

from explainers.errors import ItemError
from explainers.geometry.congruence import motions_onto
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point
from explainers.geometry.tolerance import authoring_tolerance
from explainers.kinds.join_and_cut.model import Item
from explainers.kinds.join_and_cut.slips.diagnosis import Cases, Replays


def sloppy(item: Item, rng: random.Random, reach: float) -> Item:
    """Every corner and every end of a mark typed a little beside where it is meant, by that many tolerances at most."""
    by = reach * authoring_tolerance(item.extent)

    def beside(point: Point) -> Point:
        return point[0] + rng.uniform(-by, by), point[1] + rng.uniform(-by, by)

    return replace(
        item,
        base=Outline.of(map(beside, item.base.exterior), [list(map(beside, hole)) for hole in item.base.holes]),
        pieces=tuple(
            replace(
                piece,
                corners=tuple(map(beside, piece.corners)),
                side=(beside(piece.side[0]), beside(piece.side[1])),
                meets=(beside(piece.meets[0]), beside(piece.meets[1])),
            )
            for piece in item.pieces
        ),
    )


def searched(replays: Replays, *, pairs: bool) -> Iterator[Cases]:
    return replays.simplest_pairs() if pairs else replays.singles()


@pytest.mark.parametrize(
    ("reach", "pairs", "few", "many"),
    [(0.0, False, 25, 1000), (0.3, False, 20, 1000), (0.45, False, 20, 1000), (0.0, True, 2, 60), (0.2, True, 2, 60)],
)
def test_no_slip_is_left_out_that_makes_the_outline(
    reach: float, pairs: bool, few: int, many: int, cases: Callable[[int, int], int]
) -> None:
    asked = true = left = 0
    for seed in range(cases(few, many)):
        rng = random.Random(f"{seed} {reach}")
        try:
            replays = replays_of(sloppy(random_item(seed), rng, reach))
        except ItemError:  # too sloppy: the marks are not of one length
            continue
        outcomes = made(replays, searched(replays, pairs=pairs))
        for _, outline in rng.sample(outcomes, min(4, len(outcomes))):
            option = typed(outline, rng)
            foreseen = set(replays.foreseen(option, pairs=pairs))
            matching = {slips for slips, other in outcomes if motions_onto(option, other, replays.tolerance)}
            assert matching <= foreseen, (seed, matching - foreseen)
            asked += sum(1 for _ in searched(replays, pairs=pairs))
            true += len(matching)
            left += len(foreseen - matching)
    assert true >= 5
    assert left < 0.2 * asked  # else there were no use in it


def test_what_is_found_is_what_a_search_through_all_replays_finds(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(8, 300)):
        rng = random.Random(f"direct {seed}")
        replays = replays_of(random_item(seed))
        outcomes = made(replays, replays.singles())
        drawn = [outline for _, outline in rng.sample(outcomes, min(4, len(outcomes)))]
        drawn += [spread(rng), bent(rng.choice(drawn), rng), replays.solved_item.item.base]
        for outline in drawn:
            option = typed(outline, rng)
            direct = next((slips for slips, other in outcomes if motions_onto(option, other, replays.tolerance)), None)
            fact = replays.diagnosed("B", option, pairs=False)
            assert (fact and fact.cases) == direct

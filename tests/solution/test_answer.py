"""The bare answer: what solving says of turns, outline and options, without the reasons."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from small_items import WRONG, item
from strategies import random_item

from explainers.choice.question import MadeOptions, Option
from explainers.choice.report import solution_json
from explainers.errors import ItemError
from explainers.kinds.join_and_cut.solving.solver import answer, solve


def test_it_is_what_solving_finds(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(40, 1000)):
        given = random_item(seed)
        bare, full = answer(given), solve(given)
        assert solution_json(bare) == solution_json(full)
        assert bare.placements == full.placements
        assert [one.outline for one in bare.verdicts] == [one.outline for one in full.verdicts]


def test_unsound_items_are_unsound_for_the_same_reasons() -> None:
    for options in ((Option(), Option(turned=90.0), *WRONG), (Option(slip="flipped"), *WRONG)):
        bare, full = answer(item(options=options)), solve(item(options=options))
        assert not bare.sound
        assert bare.unsound_because == full.unsound_because
        assert bare.key is None


def test_faults_are_the_same() -> None:
    fine = item()
    broken = (
        replace(fine, pieces=(replace(fine.pieces[0], meets=((4.0, 0.0), (4.0, 3.0))),)),
        item(options=(Option(), WRONG[0], WRONG[0])),
        item(options=(Option(), Option(slip="no-such-slip"))),
    )
    for one in broken:
        faults = []
        for job in (answer, solve):
            with pytest.raises(ItemError) as caught:
                job(one)
            faults.append(caught.value.faults)
        assert faults[0] == faults[1]


def test_options_asked_for_are_made_for_it_too() -> None:
    given = replace(random_item(2), options=(), made=MadeOptions(make=2, seed=5))
    assert solution_json(answer(given)) == solution_json(solve(given))

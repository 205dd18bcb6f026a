"""What agrees between a wrong option and the outline: counted rightly, and false once a side is moved or left out."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from explainers.choice.agreement import AgreementFact, agreement_fact
from explainers.choice.fact import verified
from explainers.errors import FactError
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.workspace import load_solution

ITEMS = Path(__file__).parents[2] / "items"


def facts(name: str) -> dict[str, AgreementFact]:
    solution = load_solution(ITEMS / f"{name}.yaml")
    wrong = [verdict for verdict in solution.verdicts if not verdict.same]
    return {v.label: agreement_fact(v.label, v.fit.laid, solution.outline, solution.tolerance) for v in wrong}


def test_sides_are_counted_as_a_pencil_would_count_them():
    # border-block C is the block with the dart left uncut: only the bottom side, 6 long, is not one of the outline's.
    fact = facts("border-block")["C"]
    assert (len(fact.agreeing), fact.sides) == (7, 8)
    assert ((0.0, 0.0), (6.0, 0.0)) not in fact.agreeing


@pytest.mark.parametrize("name", ["border-block", "corner-block", "kite-block", "window-block"])
def test_it_holds_and_is_read_back_from_its_sentence(name: str):
    for fact in facts(name).values():
        assert fact.holds()
        for sentence in fact.over_outline():
            numbers = [int(number) for number in re.findall(r"\d+", sentence)]
            assert numbers in ([fact.sides, len(fact.agreeing)], [fact.sides])
            assert len(numbers) == 2 or len(fact.agreeing) == fact.sides


def test_it_is_false_once_a_side_is_moved_left_out_or_told_twice():
    fact = facts("border-block")["C"]
    moved = Similarity(shift=(0.5, 0.0))
    first, *others = fact.agreeing
    start, end = moved.apply(first)
    wrong = [
        replace(fact, agreeing=((start, end), *others)),
        replace(fact, agreeing=tuple(others)),
        replace(fact, agreeing=(first, first, *others)),
        replace(fact, option=fact.option.moved(moved)),
        replace(fact, sides=fact.sides + 1),
    ]
    for false in wrong:
        assert not false.holds()
        with pytest.raises(FactError):
            verified(false, false.over_outline())

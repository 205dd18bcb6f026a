"""What the command line says: one line an option, and a plan that agrees with the solution."""

from __future__ import annotations

import re
from dataclasses import replace

import fact_samples as samples
import pytest
from demo_items import demo_items
from oracles.sentence_parser import amounts_of, counts_of, turn_of

from explainers.choice.differences.corner_count import CornerCountFact
from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.differences.hole import HoleFact
from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_length import SideLengthFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.fact import Fact
from explainers.choice.fit import Fit
from explainers.choice.model import Solution, Verdict
from explainers.choice.words.choices import reasons_said, rule_out
from explainers.choice.words.report import plan_lines, reason_in_brief
from explainers.errors import FactError
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.reader import read_item
from explainers.kinds.join_and_cut.solving.solver import solve

ITEMS = demo_items("join-and-cut")


def verdict(*reasons: Fact, same: bool = False) -> Verdict:
    fit = Fit(motion=Similarity(), laid=samples.SQUARE, extra=(), missing=(), difference=0.0)
    return Verdict(
        label="B", code="k7f", outline=samples.SQUARE, drawn=Similarity(), same=same, mirrored=False, fit=fit,
        reasons=reasons,
    )  # fmt: skip


@pytest.mark.parametrize("fact", [fact for fact in samples.reasons() if isinstance(fact, DifferenceFact)])
def test_each_reason_fits_on_one_line(fact: DifferenceFact) -> None:
    line = reason_in_brief(verdict(fact))
    assert "\n" not in line
    assert not line.endswith(".")
    assert len(line) < 90
    match fact:
        case CornerCountFact():
            assert counts_of(line, "corner")[0] == fact.option_corners
        case SideLengthFact():
            assert amounts_of(line)[0].value == fact.length
        case SideRatioFact():
            assert [amount.value for amount in amounts_of(line)][::3] == [fact.ratio, fact.other_ratio]
        case PartElsewhereFact():
            assert ("gap" in line, "next side" in line) == (not fact.filled, fact.adjacent)
        case HoleFact():
            assert counts_of(line, "hole") == [fact.option_holes]


def test_a_right_option_is_said_to_fit() -> None:
    assert reason_in_brief(verdict(samples.same_fact(90.0), same=True)) == "fits after a quarter turn anticlockwise"
    assert (
        reason_in_brief(verdict(samples.same_fact(-135.0), same=True)) == "fits after a turn of 135 degrees clockwise"
    )
    assert reason_in_brief(verdict(samples.same_fact(0.0), same=True)) == "fits without a turn"


def test_a_flip_is_told_with_a_place() -> None:
    flip, part = samples.mirror_fact(), samples.extra_part_fact()
    assert reasons_said(verdict(flip, part)) == (flip, part)
    assert rule_out(verdict(flip, part)) == (
        "Lay option B on the outline.",
        "Option B is the outline flipped over.",
        "No turn can undo a flip.",
        "Here option B has cloth where the outline has none.",
        "So B is out.",
    )


def test_only_the_clearest_reason_is_said() -> None:
    first, second = samples.corner_angle_facts()
    assert reasons_said(verdict(first, second)) == (first,)


@pytest.mark.parametrize("reasons", [(), (samples.mirror_fact(),)], ids=["none", "only a flip"])
def test_an_option_is_never_ruled_out_without_a_place(reasons: tuple[Fact, ...]) -> None:
    with pytest.raises(FactError, match=r"option B .* pointed at"):
        rule_out(verdict(*reasons))
    assert reason_in_brief(verdict(*reasons))


def test_a_false_reason_stops_the_line() -> None:
    with pytest.raises(FactError):
        reason_in_brief(verdict(replace(samples.extra_part_fact(), ring_centre=(0.5, 0.5))))


@pytest.fixture(params=ITEMS, ids=lambda path: path.stem)
def solution(request: pytest.FixtureRequest) -> Solution:
    return solve(read_item(request.param))


def test_the_plan_agrees_with_the_solution(solution: Solution) -> None:
    lines = plan_lines(solution)
    text = "\n".join(lines)
    for number, placement in enumerate(solution.placements, start=1):
        line = next(line for line in lines if line.startswith(f"{number}. "))
        found = turn_of(line)
        assert found is not None
        assert found[0] == pytest.approx(placement.turn_deg, abs=0.501)
        ends = [tuple(map(float, pair)) for pair in re.findall(r"\((-?[\d.]+), (-?[\d.]+)\)", line)]
        for end, there in zip(ends, placement.partner, strict=True):
            assert end == pytest.approx(there, abs=1e-3)
    assert counts_of(text, "corner")[0] == solution.outline.corner_count
    assert lines[-1] == f"The answer is {solution.key}."
    fitting = [line.split()[0] for line in lines if re.match(r"\s+[A-F] fits", line)]
    assert fitting == [solution.key]


def test_an_item_without_one_answer_gets_none(solution: Solution) -> None:
    right = next(verdict for verdict in solution.verdicts if verdict.same)
    wrong = tuple(verdict for verdict in solution.verdicts if not verdict.same)
    none = replace(solution, verdicts=wrong, key=None, sound=False)
    two = replace(solution, verdicts=(right, replace(right, label="E")), key=None, sound=False)
    assert plan_lines(none)[-1] == "There is no one answer: no option fits."
    assert plan_lines(two)[-1] == f"There is no one answer: {right.label} and E fit."

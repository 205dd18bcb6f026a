"""Random items whose turns, outlines and verdicts are known by construction, exactly."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import HealthCheck, given, settings
from oracles import exact
from strategies import Case, cases_of, random_case

from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.report import solution_json
from explainers.geometry.angles import wrapped_deg
from explainers.geometry.outline import Outline
from explainers.kinds.join_and_cut.solving.solver import solve

CLOSE = 1e-6  # item units; sides are 1.4 or longer


def corners_of(outline: Outline) -> set[tuple[float, float]]:
    return {(round(x, 6) + 0.0, round(y, 6) + 0.0) for ring in outline.rings for x, y in ring}


def check(case: Case) -> None:
    solution = solve(case.item)
    for placement, turn_deg, rings in zip(solution.placements, case.turns, case.outlines, strict=True):
        assert abs(wrapped_deg(placement.turn_deg - turn_deg)) < 1e-7
        assert -180.0 < placement.turn_deg <= 180.0
        assert corners_of(placement.after) == {(float(x), float(y)) for ring in rings for x, y in ring}
        assert abs(placement.after.area - float(exact.area(rings))) < CLOSE
        assert len(placement.after.holes) == len(rings) - 1
    assert tuple(verdict.same for verdict in solution.verdicts) == case.same
    assert tuple(verdict.mirrored for verdict in solution.verdicts) == case.mirrored
    assert solution.sound
    assert solution.key == "ABCDEF"[case.same.index(True)]
    assert solution.symmetry_order == exact.symmetry_order(case.result)
    for verdict in solution.verdicts:
        assert verdict.reasons
        assert all(fact.holds() for fact in verdict.reasons)
        assert verdict.same or any(isinstance(fact, DifferenceFact) for fact in verdict.reasons)


def test_a_fixed_run_of_items(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(60, 1000)):
        check(random_case(seed))


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(case=cases_of())
def test_any_item(case: Case) -> None:
    check(case)


def test_the_report_of_a_random_item_is_plain_json() -> None:
    import json

    for seed in range(10):
        case = random_case(seed)
        text = json.dumps(solution_json(solve(case.item)), allow_nan=False)
        assert "-0.0" not in text.replace("-0.0000", "")
        assert json.loads(text)["area"] == float(exact.area(case.result))

"""The soundness certificate: alignments and gaps that can be worked out by hand, facts gone over again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from small_items import SQUARE, WRONG, flag, item
from strategies import cases_of, random_case

from explainers.choice.certificate import Certificate, certificate
from explainers.choice.model import Solution
from explainers.choice.printed import OPTION_MM
from explainers.choice.question import Accepted, Option, WarningKind
from explainers.choice.same import SameFact
from explainers.geometry.outline import Outline
from explainers.kinds.join_and_cut.model import Does, Piece, PieceWarning
from explainers.kinds.join_and_cut.solving.solver import solve

BAR = Piece(
    name="bar",
    does=Does.JOIN,
    corners=((0, 0), (4, 0), (4, 4), (0, 4)),
    side=((0, 0), (4, 0)),
    meets=((4, 0), (4, 4)),
    turned=10.0,
)


def of_bars(*options: Option) -> Certificate:
    """The result is 8 by 4, printed 40 mm by 20 mm: a unit is 5 mm."""
    return certificate(solve(item(BAR, base=SQUARE, options=options)))


LONGER = Option(corners=((0, 0), (9, 0), (9, 4), (0, 4)))


def test_a_gap_in_millimetres_worked_out_by_hand() -> None:
    made = of_bars(Option(), LONGER, WRONG[1])
    difference = made.proofs[1].difference
    assert difference is not None
    assert difference.gap_mm == pytest.approx(5.0)  # three sides lie on each other; the fourth is 1 unit too far
    assert difference.fact is not None and difference.fact.holds()


def test_the_right_option_with_its_turn_and_scale() -> None:
    corners = ((0.0, 0.0), (16.0, 0.0), (16.0, 8.0), (0.0, 8.0))
    made = of_bars(LONGER, WRONG[1], Option(corners=corners, turned=30.0, scale=0.5))
    alignment = made.proofs[2].alignment
    assert alignment is not None and made.proofs[2].difference is None
    assert alignment.turn_deg == pytest.approx(-30.0)
    assert alignment.scale == pytest.approx(0.5)
    assert alignment.corners_off_mm == pytest.approx(0.0, abs=1e-6)
    assert made.holds


def test_how_far_hand_typed_corners_are_off() -> None:
    near = Option(corners=((0, 0), (8, 0), (8, 4.003), (0, 4)))  # within the authoring tolerance of 0.004
    alignment = of_bars(near, LONGER, WRONG[1]).proofs[0].alignment
    assert alignment is not None
    assert 0.0 < alignment.corners_off_mm <= 0.003 * OPTION_MM / 8


def test_the_order_of_symmetry_and_its_warning() -> None:
    made = of_bars(Option(), LONGER, WRONG[1])
    assert made.solution.symmetry_order == 2
    assert WarningKind.SYMMETRIC_OUTLINE in {warning.kind for warning in made.solution.warnings}


def with_first_fact(solution: Solution, index: int, **changes: object) -> Solution:
    """With the first reason for or against an option changed, as by a fault of ours."""
    verdict = solution.verdicts[index]
    reasons = (replace(verdict.reasons[0], **changes), *verdict.reasons[1:])  # type: ignore[arg-type]
    verdicts = [*solution.verdicts]
    verdicts[index] = replace(verdict, reasons=reasons)
    return replace(solution, verdicts=tuple(verdicts))


def test_a_right_option_whose_fact_does_not_hold_gets_no_certificate() -> None:
    solution = solve(item())
    fact = solution.verdicts[0].reasons[0]
    assert isinstance(fact, SameFact)
    moved = replace(fact.motion, shift=(fact.motion.shift[0] + 1.0, fact.motion.shift[1]))
    assert certificate(solution).holds
    assert not certificate(with_first_fact(solution, 0, motion=moved)).holds


def test_the_first_fact_that_holds_is_taken() -> None:
    solution = solve(item())
    reasons = solution.verdicts[1].reasons
    assert len(reasons) > 1
    broken = with_first_fact(solution, 1, ring_centre=(99.0, 99.0))
    difference = certificate(broken).proofs[1].difference
    assert difference is not None and difference.fact == next(fact for fact in reasons[1:] if fact.holds())


def test_a_difference_without_a_place_is_still_one() -> None:
    solution = solve(item())
    verdicts = (solution.verdicts[0], replace(solution.verdicts[1], reasons=()), solution.verdicts[2])
    difference = certificate(replace(solution, verdicts=verdicts)).proofs[1].difference
    assert difference is not None and difference.fact is None and difference.gap_mm > 0.0


def test_the_slip_that_makes_an_option_is_named() -> None:
    made = certificate(solve(item(options=(Option(), Option(slip="flipped"), WRONG[0]))))
    difference = made.proofs[1].difference
    assert difference is not None and difference.slip is not None
    assert [case.slip for case in difference.slip.cases] == ["flipped"]


def test_two_right_options_have_two_alignments_and_no_certificate() -> None:
    made = certificate(solve(item(options=(Option(), Option(turned=90.0), WRONG[0]))))
    assert [proof.alignment is not None for proof in made.proofs] == [True, True, False]
    assert not made.holds


def test_an_accepted_warning_is_silenced_and_kept() -> None:
    easy = Accepted(kind=PieceWarning.NO_TURN, reason="the first of the series is meant to be easy")
    shown = replace(item(flag(turned=-90.0)), accepted=(easy,))
    made = certificate(solve(shown))
    assert made.solution.warnings == ()
    (accepted,) = made.accepted
    assert accepted.entry == easy
    assert [warning.field for warning in accepted.warnings] == ["pieces[0].turned"]


def test_one_kind_accepted_silences_no_other() -> None:
    easy = Accepted(kind=PieceWarning.NO_TURN, reason="easy")
    solution = solve(replace(item(flag(turned=-90.0, mark="N")), accepted=(easy,)))
    assert [warning.kind for warning in solution.warnings] == [PieceWarning.MISREAD_MARK]


def test_an_acceptance_that_is_not_needed_shows() -> None:
    easy = Accepted(kind=PieceWarning.NO_TURN, reason="easy")
    (accepted,) = certificate(solve(replace(item(), accepted=(easy,)))).accepted
    assert accepted.warnings == ()


def sampled_gap(outline: Outline, other: Outline) -> float:
    """The Hausdorff distance from boundaries cut into 400 pieces a side, by GEOS: never too large, hardly too small."""
    first, second = (shapely.Polygon(one.exterior, one.holes).boundary for one in (outline, other))
    return float(shapely.hausdorff_distance(first, second, densify=1 / 400))


def test_random_items_are_certified(cases: Callable[[int, int], int]) -> None:
    @settings(max_examples=cases(10, 1000), deadline=None)
    @given(cases_of())
    def certified(case) -> None:  # type: ignore[no-untyped-def]
        solution = solve(case.item)
        made = certificate(solution)
        assert made.holds
        assert [proof.alignment is not None for proof in made.proofs] == list(case.same)
        for proof in made.proofs:
            if proof.alignment is not None:
                assert proof.alignment.corners_off_mm < 1e-6 * OPTION_MM
                continue
            assert proof.difference is not None
            unit_mm = OPTION_MM / solution.outline.larger_extent
            sampled = sampled_gap(proof.verdict.fit.laid, solution.outline) * unit_mm
            assert proof.difference.gap_mm == pytest.approx(sampled, abs=0.2)

    certified()


def test_a_certificate_is_the_same_twice() -> None:
    shown = random_case(7).item
    assert certificate(solve(shown)) == certificate(solve(shown))

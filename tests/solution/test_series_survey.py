"""What is noticed about a row of items: turns and slips left out, questions asked twice, falls in difficulty."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainers.choice.features import STEP_S
from explainers.choice.series_survey import SurveyedItem, TurnClass, survey, turn_classes
from explainers.geometry.outline import Outline
from explainers.intake.reader import read_item
from explainers.kinds.join_and_cut.slips.registry import SLIPS
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.registry import DEFAULT_KIND, kind_named
from explainers.sentences.series import survey_notes

ITEMS = Path(__file__).parents[2] / "items"
NAMES = ("corner-block", "border-block", "kite-block", "window-block")


@cache
def solved(name: str) -> JoinAndCutSolution:
    return solve(read_item(ITEMS / f"{name}.yaml"))


def shown(name: str, lesson: str = "one", *, parts_seen: bool = True) -> SurveyedItem:
    return SurveyedItem(lesson=lesson, solution=solved(name), parts_seen=parts_seen)


@pytest.mark.parametrize(
    ("turn_deg", "kinds"),
    [
        (0.0, ["none"]),
        (45.0, ["small-anticlockwise"]),
        (-45.0, ["small-clockwise"]),
        (37.5, ["small-anticlockwise", "odd"]),
        (90.0, ["quarter-anticlockwise"]),
        (-90.0, ["quarter-clockwise"]),
        (135.0, ["large-anticlockwise"]),
        (-100.0, ["large-clockwise", "odd"]),
        (180.0, ["half"]),
    ],
)
def test_each_turn_has_its_kind(turn_deg: float, kinds: list[str]) -> None:
    assert [kind.value for kind in turn_classes(turn_deg)] == kinds


@given(st.floats(-179.999, 180.0))
def test_a_turn_the_other_way_is_of_the_kind_the_other_way(turn_deg: float) -> None:
    other = {kind.value.replace("anticlockwise", "ANTI").replace("clockwise", "anticlockwise") for kind in
             turn_classes(-turn_deg)}  # fmt: skip
    assert {kind.value for kind in turn_classes(turn_deg)} == {name.replace("ANTI", "clockwise") for name in other}


def test_what_is_shown_and_what_never_is_make_up_all() -> None:
    found = survey([shown(name) for name in NAMES])
    turned = {kind for name in NAMES for laid in solved(name).placements for kind in turn_classes(laid.turn_deg)}
    assert turned | set(found.turns_never) == set(TurnClass) and not turned & set(found.turns_never)
    slips = {case.slip for name in NAMES for v in solved(name).verdicts if v.slip for case in v.slip.cases}
    assert slips | set(found.slips_never) == set(SLIPS) and not slips & set(found.slips_never)


def test_a_quick_check_practises_no_piece() -> None:
    found = survey([shown("corner-block", parts_seen=False)])
    assert set(found.turns_never) == set(TurnClass)
    assert set(SLIPS) - set(found.slips_never) == {"flipped", "swapped"}, "no piece could change places either"
    assert found.work_s == ()


def test_two_pieces_can_change_places_and_one_cannot() -> None:
    assert "swapped" not in survey([shown("corner-block")]).slips_never
    assert "swapped" in survey([shown("border-block")]).slips_never


def turned_over(solution: JoinAndCutSolution) -> JoinAndCutSolution:
    def over(points):  # type: ignore[no-untyped-def]
        return tuple((-x, y) for x, y in points)

    item = solution.item
    pieces = tuple(
        replace(piece, corners=over(piece.corners), side=over(piece.side), meets=over(piece.meets))
        for piece in item.pieces
    )
    return solve(replace(item, name="another", base=Outline.of(over(item.base.exterior)), pieces=pieces))


def test_the_same_question_under_another_name_and_flipped_is_found() -> None:
    again = SurveyedItem(lesson="two", solution=turned_over(solved("corner-block")))
    (twice,) = survey([shown("border-block"), shown("corner-block"), again]).asked_twice
    assert (twice.shown, twice.earlier, twice.flipped) == (again, shown("corner-block"), True)
    assert "Used twice: another in lesson two asks what corner-block in lesson one asks, flipped over." in list(
        survey_notes(survey([shown("corner-block"), again]), kind_named(DEFAULT_KIND).slips_in_brief())
    )


def test_difficulty_in_order_has_no_fall_and_the_reverse_has_one_each() -> None:
    names = sorted(NAMES, key=lambda name: solved(name).features().seconds_of_work)
    assert survey([shown(name) for name in names]).easier == ()
    falls = survey([shown(name) for name in reversed(names)]).easier
    work = [solved(name).features().seconds_of_work for name in names]
    steps = [later - earlier for earlier, later in pairwise(work)]
    assert len(falls) == sum(step >= STEP_S for step in steps) > 0
    assert all(fall.before_s - fall.shown_s >= STEP_S for fall in falls)


def test_nothing_is_said_of_an_empty_series() -> None:
    assert list(survey_notes(survey([]), {})) == []

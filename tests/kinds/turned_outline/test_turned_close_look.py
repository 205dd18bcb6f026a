"""A corner by which an outline is known again: which one, by one's own arithmetic, and what is said of it."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from oracles.sentence_parser import amounts_of, faults_of

from explainers.errors import FactError
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.workspace import load_solution
from explainers.kinds.turned_outline.facts.landmark import Landmark, LandmarkFact, landmark_fact
from explainers.kinds.turned_outline.solution import TurnedOutlineSolution, own_solution

ITEMS = Path(__file__).parents[3] / "items"
DEMO = ("sail-block", "letterbox-block", "button-block")

HOOK = Outline.of([(0, 0), (6, 0), (6, 2), (2, 2), (2, 5), (0, 5)])
BLADE = Outline.of([(0, 0), (7, 0), (6, 2), (0, 3)])
BAR = Outline.of([(0, 0), (5, 0), (5, 2), (4, 2), (4, 3), (1, 3), (1, 2), (0, 2)])
ROUND = [(math.cos(math.radians(20 * k)), math.sin(math.radians(20 * k))) for k in range(18)]
WHEEL = Outline.of(ROUND)
BUTTON = Outline.of(ROUND, [[(0.0, 0.0), (0.5, 0.0), (0.5, 0.2), (0.2, 0.2), (0.2, 0.6), (0.0, 0.6)]])

SHAPES = {"hook": HOOK, "blade": BLADE, "bar": BAR, "wheel": WHEEL, "button": BUTTON}


def fact_of(outline: Outline) -> LandmarkFact:
    return landmark_fact(outline, 1e-3)


def solved(name: str) -> TurnedOutlineSolution:
    return own_solution(load_solution(ITEMS / f"{name}.yaml"))


@pytest.mark.parametrize(
    ("name", "kind", "corner"),
    [
        ("hook", Landmark.INWARD, (2, 2)),
        ("blade", Landmark.SHARPEST, (7, 0)),
        ("bar", Landmark.LONGEST, (0, 0)),
        ("button", Landmark.INWARD, (0.2, 0.2)),
    ],
)
def test_the_corner_that_stands_out_is_found(name: str, kind: Landmark, corner: tuple[float, float]) -> None:
    fact = fact_of(SHAPES[name])
    assert (fact.kind, fact.corner) == (kind, corner)
    assert fact.holds()
    assert fact.is_of_hole is (name == "button")


def test_where_none_stands_out_any_will_do() -> None:
    fact = fact_of(WHEEL)
    assert fact.kind is Landmark.ANY and fact.holds()
    assert fact.longer_ahead is None
    assert "order" in " ".join(fact.of_round())


@pytest.mark.parametrize("name", SHAPES)
def test_sides_and_angle_are_those_beside_the_corner(name: str) -> None:
    fact = fact_of(SHAPES[name])
    ring = SHAPES[name].holes[0][::-1] if fact.is_of_hole else SHAPES[name].exterior
    index = ring.index(fact.corner)
    assert fact.behind == (ring[index - 1], ring[index])
    assert fact.ahead == (ring[index], ring[(index + 1) % len(ring)])
    (ax, ay), (bx, by) = [(end[0] - start[0], end[1] - start[1]) for start, end in (fact.behind, fact.ahead)]
    turned_deg = math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by))
    assert fact.angle_deg == pytest.approx(180.0 - turned_deg)


@pytest.mark.parametrize("name", SHAPES)
def test_a_turn_keeps_what_a_flip_swaps(name: str) -> None:
    """What is said of the way round: the same after a turn, the other way after a flip."""
    outline = SHAPES[name]
    longer = fact_of(outline).longer_ahead
    turned = outline.moved(Similarity(turn_deg=77.0, scale=1.5, shift=(3.0, -8.0)))
    assert fact_of(turned).longer_ahead is longer
    if longer is not None and fact_of(outline).kind is not Landmark.LONGEST:  # which begins at its other end there
        assert fact_of(outline.mirrored()).longer_ahead is (not longer)


def test_the_corner_where_the_longest_side_begins_is_at_its_other_end_in_a_flipped_outline() -> None:
    fact = fact_of(BAR)
    other = replace(fact, outline=BAR.mirrored(), ring=BAR.mirrored().exterior, corner=(-fact.corner[0], 0.0))
    assert fact.holds() and not other.holds()


@pytest.mark.parametrize("name", SHAPES)
def test_falsified_copies_do_not_hold(name: str) -> None:
    fact = fact_of(SHAPES[name])
    falsified = [
        replace(fact, corner=fact.ahead[1]),
        replace(fact, angle_deg=fact.angle_deg + 1.0),
        replace(fact, ahead=fact.behind, behind=fact.ahead),
        replace(fact, ring=fact.ring[::-1]),
        replace(fact, outline=SHAPES["blade" if name != "blade" else "hook"]),
    ]
    for kind in (Landmark.INWARD, Landmark.SHARPEST, Landmark.LONGEST):
        if kind is not fact.kind and (name, kind) != ("blade", Landmark.LONGEST):
            falsified.append(replace(fact, kind=kind))
    for copy in falsified:
        assert not copy.holds(), copy
        with pytest.raises(FactError):
            copy.of_corner()


@pytest.mark.parametrize("name", SHAPES)
def test_what_is_said_is_plain_and_its_figures_are_the_facts(name: str) -> None:
    fact = fact_of(SHAPES[name])
    for sentence in (*fact.of_corner(), *fact.of_round()):
        assert faults_of(sentence) == []
        for amount in amounts_of(sentence):
            assert abs(amount.value - fact.angle_deg) <= 0.5

"""Why a piece turns: what is said of sides and of where the piece lies, against plain arithmetic on the typed corners.

How a piece was moved away is known by construction (``strategies``), and so is the outline that it meets; what is
looked for here is found from those with complex numbers and a crossing test of its own.
"""

from __future__ import annotations

import cmath
import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import pytest
from demo_items import demo_items
from strategies import Case, random_case

from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.facts.turn_goal import TurnGoalFact, turn_goal_fact
from explainers.kinds.join_and_cut.model import Does
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution, own_solution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.join_and_cut.words.turning import Hand, Place, Slope

STEPS = {Hand.LEFT: -1 + 0j, Hand.RIGHT: 1 + 0j, Hand.ABOVE: 1j, Hand.BELOW: -1j}
NAMED = {0: Slope.FLAT, 45: Slope.RISING, 90: Slope.UPRIGHT, 135: Slope.FALLING}
OFF = 0.02  # of the lattice's half unit: so far beside a side it is asked what lies there

# What each sentence claims of a side, by what is found in it.
CLAIMS = {"upright": {Slope.UPRIGHT}, "flat": {Slope.FLAT}, "slants": {Slope.RISING, Slope.FALLING, Slope.SLANTED}}


def is_inside(point: complex, rings: Sequence[Sequence[complex]]) -> bool:
    """Whether a ray upwards crosses the rings an odd number of times."""
    crossed = 0
    for ring in rings:
        for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
            if (a.real <= point.real) != (b.real <= point.real):
                t = (point.real - a.real) / (b.real - a.real)
                crossed += a.imag + t * (b.imag - a.imag) > point.imag
    return crossed % 2 == 1


def slope_of(way: complex) -> Slope | None:
    """How a direction is to be named; None where nothing about it is plain."""
    deg = math.degrees(cmath.phase(way)) % 180.0
    for named, slope in NAMED.items():
        apart = min(abs(deg - named), 180.0 - abs(deg - named))
        if apart < 0.05:
            return slope
        if apart < 0.15:  # a turn typed anyhow may leave a side so: whether that was meant is not plain
            return None
    off = min(deg, abs(deg - 90.0), 180.0 - deg)
    return Slope.SLANTED if off > 3.05 else Slope.UNNAMED if off < 2.95 else None


def placed(case: Case, index: int) -> tuple[list[complex], complex, complex, list[list[complex]]]:
    """(corners as the sheet shows them, both ends of the marked side there, the rings of the outline that is met)."""
    piece = case.item.pieces[index]
    turned = cmath.exp(1j * math.radians(piece.turned))
    corners = [turned * complex(*corner) for corner in piece.corners]
    start, end = (turned * complex(*corner) for corner in piece.side)
    base = [case.item.base.exterior, *case.item.base.holes]
    met = case.outlines[index - 1] if index else base
    return corners, start, end, [[complex(*corner) for corner in ring] for ring in met]


def test_sides_and_places_are_told_as_they_are(cases: Callable[[int, int], int]) -> None:
    told: Counter[object] = Counter()
    for seed in range(cases(150, 3000)):
        case = random_case(seed)
        solution = solve(case.item)
        for index in range(len(case.item.pieces)):
            fact = turn_goal_fact(solution, index)
            assert fact.holds()
            corners, start, end, met = placed(case, index)
            turn = cmath.exp(1j * math.radians(case.turns[index]))
            assert slope_of(end - start) in (fact.slope, None)
            assert slope_of(turn * (end - start)) in (fact.goal_slope, None)

            middle, step = (start + end) / 2, OFF * STEPS[fact.hand]
            assert is_inside(middle + step, [corners]) and not is_inside(middle - step, [corners])

            # The piece where it lies: turned by what was put in, its mark brought to where the solver has its partner.
            there = complex(*solution.placements[index].partner[0]), complex(*solution.placements[index].partner[1])
            goal = (there[0] + there[1]) / 2
            step = OFF * STEPS[fact.goal_hand]
            ring = [goal + turn * (corner - middle) for corner in corners]
            assert is_inside(goal + step, [ring]) and not is_inside(goal - step, [ring])
            is_cut = case.item.pieces[index].does is Does.CUT
            assert is_inside(goal + step, met) is is_cut and is_inside(goal - step, met) is not is_cut
            on_hole = any(_is_on(goal, ring) for ring in met[1:])
            assert fact.place is (Place.INSIDE if is_cut else Place.HOLE if on_hole else Place.OUTSIDE)
            told.update((fact.slope, fact.hand, fact.place))
    assert set(Slope) | set(Hand) | {Place.INSIDE, Place.OUTSIDE} <= set(told), told


def _is_on(point: complex, ring: Sequence[complex]) -> bool:
    return any(
        abs(abs(point - a) + abs(point - b) - abs(a - b)) < 1e-4
        for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)
    )


def demo_facts() -> Iterator[tuple[JoinAndCutSolution, TurnGoalFact]]:
    for path in demo_items("join-and-cut"):
        solution = own_solution(load_solution(path))
        for index in range(len(solution.placements)):
            yield solution, turn_goal_fact(solution, index)


def test_the_words_name_only_directions_that_are_so() -> None:
    for _, fact in demo_facts():
        first, belongs, *rest = fact.narration()
        own, _, partner = first.partition(", but its partner")
        for word, slopes in CLAIMS.items():
            assert (word not in own) or fact.slope in slopes, first
            assert (word not in partner) or fact.goal_slope in slopes, first
        assert ("outside" in belongs) == (fact.place is Place.OUTSIDE)
        assert ("inside" in belongs) == (fact.place is Place.INSIDE)
        assert ("in the hole" in belongs) == (fact.place is Place.HOLE)
        assert [hand for hand in Hand if hand.value in belongs] == [fact.goal_hand], belongs
        until = next((sentence for sentence in rest if " until " in sentence), "")
        if until:
            assert (" anticlockwise " in until) == (fact.turn_deg > 0)
            for word, slopes in CLAIMS.items():
                assert (word not in until) or fact.goal_slope in slopes, until
        for denied in (sentence for sentence in rest if sentence.startswith("Not ")):
            assert 90.0 < abs(fact.turn_deg) < 180.0
            assert ("anticlockwise" in denied) == (fact.turn_deg < 0)
            assert [hand for hand in Hand if hand.value in denied] == [fact.goal_hand.opposite]
        assert len(fact.narration()) <= 5 and all(len(sentence.split()) <= 13 for sentence in fact.narration())


def test_two_pieces_in_a_row_are_not_told_alike() -> None:
    told = [fact.narration() for _, fact in demo_facts()]
    assert len({words[0] for words in told}) >= 6
    assert len({words[-1] for words in told}) >= 8


def falsified(fact: TurnGoalFact) -> Iterator[tuple[str, TurnGoalFact]]:
    yield "slope", replace(fact, slope=next(each for each in Slope if each is not fact.slope))
    yield "goal slope", replace(fact, goal_slope=next(each for each in Slope if each is not fact.goal_slope))
    yield "hand", replace(fact, hand=fact.hand.opposite)
    yield "goal hand", replace(fact, goal_hand=fact.goal_hand.opposite)
    yield from (("place", replace(fact, place=place)) for place in Place if place is not fact.place)
    yield "does", replace(fact, does=Does.CUT if fact.does is Does.JOIN else Does.JOIN)
    yield "turn", replace(fact, turn_deg=fact.turn_deg - 3.0 if fact.turn_deg > 0 else fact.turn_deg + 3.0)
    yield "side walked the other way", replace(fact, shown_side=fact.shown_side[::-1])
    yield "partner walked the other way", replace(fact, partner=fact.partner[::-1])
    away = tuple((x + 0.7, y + 0.4) for x, y in fact.shown_ring)
    yield "piece", replace(fact, shown_ring=away)


@pytest.mark.parametrize("seed", range(40))
def test_it_stops_holding_when_anything_is_moved(seed: int) -> None:
    solution = solve(random_case(seed).item)
    for index in range(len(solution.placements)):
        fact = turn_goal_fact(solution, index)
        for what, false in falsified(fact):
            assert not false.holds(), what

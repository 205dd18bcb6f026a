"""Counting the corners: what is said to be lost and left, against unions and differences that are made here anew."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import pytest
import shapely
from demo_items import demo_items
from shapely.geometry import Polygon
from strategies import random_case

from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.facts.merge import Corners, MergeFact, merge_fact
from explainers.kinds.join_and_cut.facts.tally import TallyFact, tally_fact
from explainers.kinds.join_and_cut.model import Does
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution, own_solution
from explainers.kinds.join_and_cut.solving.solver import solve

Point = tuple[float, float]
NEAR = 0.02  # of the lattice's half unit
GRID = 1e-6


def corners_of(shape: Polygon) -> list[Point]:
    """The corners of a polygon: points at which its boundary bends by more than half a degree."""
    found: list[Point] = []
    for ring in (shape.exterior, *shape.interiors):
        points = list(ring.coords)[:-1]
        for before, at, after in zip([points[-1], *points[:-1]], points, [*points[1:], points[0]], strict=True):
            (ax, ay), (bx, by) = (at[0] - before[0], at[1] - before[1]), (after[0] - at[0], after[1] - at[1])
            if abs(math.degrees(math.atan2(ax * by - ay * bx, ax * bx + ay * by))) > 0.5:
                found.append((at[0], at[1]))
    return found


def worked_out(solution: JoinAndCutSolution) -> Iterator[tuple[list[Point], list[Point], list[Point]]]:
    """(corners before, those of the piece, those after) for each piece, from the base and the pieces where they lie."""
    shape = shapely.set_precision(Polygon(solution.item.base.exterior, solution.item.base.holes), GRID)
    for placement in solution.placements:
        piece = shapely.set_precision(Polygon(placement.ring), GRID)
        joins = placement.piece.does is Does.JOIN
        after = shape.union(piece, grid_size=GRID) if joins else shape.difference(piece, grid_size=GRID)
        assert isinstance(after, Polygon)
        yield corners_of(shape), corners_of(piece), corners_of(after)
        shape = after


def near(place: Point, corners: Sequence[Point]) -> int:
    return sum(math.dist(place, corner) <= NEAR for corner in corners)


def check(corners: Corners, came: Sequence[Point], after: Sequence[Point]) -> None:
    """Every place against the corners that there were and are."""
    assert (corners.came, corners.left) == (len(came), len(after))
    assert corners.new == ()
    assert len(came) - corners.lost == len(after)
    for place, count in corners.stay:
        assert (near(place, came), near(place, after)) == (count, 1)
    for place, count in corners.vanish:
        assert (near(place, came), near(place, after)) == (count, 0)


def test_each_merge_loses_the_corners_that_are_not_there_afterwards(cases: Callable[[int, int], int]) -> None:
    met: Counter[str] = Counter()
    for seed in range(cases(200, 3000)):
        solution = solve(random_case(seed).item)
        every: list[Point] = []
        after: list[Point] = []
        for index, (before, piece, after) in enumerate(worked_out(solution)):
            fact = merge_fact(solution, index)
            assert fact.holds()
            check(fact.corners, [*before, *piece], after)
            every += piece if index else [*before, *piece]
            met["vanish"] += len(fact.corners.vanish)
            met["make one"] += len(fact.corners.met)
            met["none"] += not fact.corners.lost
        tally = tally_fact(solution)
        assert tally.holds() and tally.is_plain
        check(tally.corners, every, after)
        boundary = Polygon(solution.outline.exterior, solution.outline.holes).boundary
        on_it = [boundary.distance(shapely.Point(place)) <= NEAR for place, _ in tally.corners.vanish]
        assert tally.straight is all(on_it)
        assert tally.corners.left == solution.outline.corner_count
    assert min(met.values()) > 20, met


def test_the_sentences_of_the_demo_count_what_is_there() -> None:
    said = {}
    for path in demo_items("join-and-cut"):
        solution = own_solution(load_solution(path))
        fact = tally_fact(solution)
        words = " ".join(fact.narration())
        said[path.stem] = words
        assert f" {solution.outline.corner_count} " in words
        assert ("cross" in words) == bool(fact.corners.vanish)
        assert ("ring" in words) == bool(fact.corners.met)
        assert ("gone" in words) == (fact.corners.lost > 0) == ("No corner is lost" not in words)
        assert ("hole" in words) == bool(solution.item.base.holes)
        assert len(fact.narration()) <= 5
    assert said["corner-block"] == (
        "The base has 6 corners, and the flag has 3. At the cross, two corners make a straight side. "
        "At the ring, two corners make one. So 3 corners are gone, and 6 are left."
    )
    assert said["border-block"] == (
        "The base has 4 corners, the tip has 4 and the dart has 3. No corner is lost, so 11 are left."
    )
    assert said["gate-block"].startswith("The corners of the hole count too. The base has 8 corners, and the gate has")


def test_the_sums_come_out() -> None:
    for path in demo_items("join-and-cut"):
        fact = tally_fact(own_solution(load_solution(path)))
        for total in fact.sums():
            left, right = total.split(" = ")
            parts = left.replace("\N{MINUS SIGN}", "+ -").replace("- ", "-").split(" + ")
            assert sum(int(part) for part in parts) == int(right)
        assert fact.sums()[1].endswith(f"= {fact.corners.left}")


def away(place: Point) -> Point:
    return place[0] + 0.9, place[1] + 0.35


def falsified_corners(corners: Corners) -> Iterator[tuple[str, Corners]]:
    (first, count), *others = corners.stay
    yield "a place", replace(corners, stay=((away(first), count), *others))
    yield "how many come there", replace(corners, stay=((first, count + 1), *others))
    yield "one that stays", replace(corners, stay=tuple(others), vanish=((first, count), *corners.vanish))
    yield "one too few", replace(corners, stay=tuple(others))
    yield "a new one", replace(corners, new=(away(first),))
    if corners.vanish:
        yield "one that goes", replace(corners, stay=(*corners.stay, corners.vanish[0]), vanish=corners.vanish[1:])
        yield "one that is not told", replace(corners, vanish=corners.vanish[1:])


def falsified(fact: MergeFact | TallyFact) -> Iterator[tuple[str, MergeFact | TallyFact]]:
    for what, corners in falsified_corners(fact.corners):
        yield what, replace(fact, corners=corners)
    if isinstance(fact, MergeFact):
        yield "the outline after", replace(fact, change=replace(fact.change, after=fact.change.before))
        yield (
            "what is done",
            replace(fact, change=replace(fact.change, does=Does.CUT if fact.change.does is Does.JOIN else Does.JOIN)),
        )
        return
    yield "the base", replace(fact, base=fact.after)
    yield "a piece", replace(fact, merges=fact.merges[:-1])
    if fact.corners.vanish:
        yield "straight on", replace(fact, straight=not fact.straight)


@pytest.mark.parametrize("seed", range(30))
def test_they_stop_holding_when_anything_is_changed(seed: int) -> None:
    solution = solve(random_case(seed).item)
    facts: list[MergeFact | TallyFact] = [merge_fact(solution, index) for index in range(len(solution.placements))]
    for fact in [*facts, tally_fact(solution)]:
        for what, false in falsified(fact):
            assert not false.holds(), what

"""Walks: what comes clockwise from a place that there is once, by an oracle of the test's own; backwards if flipped."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest
from demo_items import demo_items
from oracles import counted, exact
from oracles import walked as oracle
from strategies import random_case

from explainers.choice.fact import verified
from explainers.choice.model import Solution, Verdict
from explainers.choice.sieves.sifting import walk_of
from explainers.choice.variations import Level
from explainers.choice.walk import Feature, Round, Start, WalkFact
from explainers.choice.words import choices
from explainers.errors import FactError
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.registry import kind_of

HOLED = ("lattice-block", "letterbox-block", "window-block")  # where often only holes tell a flip


def walks(cases: Callable[[int, int], int]) -> Iterator[tuple[Solution, Verdict, WalkFact]]:
    solutions = [load_solution(path) for path in demo_items()]
    solutions += [solve(random_case(seed).item) for seed in range(cases(40, 2000))]
    solutions += with_holes(cases(2, 20))
    for solution in solutions:
        for verdict in solution.verdicts:
            fact = walk_of(solution, verdict)
            if fact is not None:
                assert verdict.same or verdict.mirrored, "only these are walked round"
                yield solution, verdict, fact


def with_holes(count: int) -> list[Solution]:
    """So many new questions for each of those with holes."""
    originals = [load_solution(path) for path in demo_items() if path.stem in HOLED]
    return [
        kind_of(found.question).solve(found.question)
        for original in originals
        for found in kind_of(original.item).vary(original, count=count, seed=5, level=Level.SAME).found
    ]


@pytest.fixture(scope="module")
def walked(cases: Callable[[int, int], int]) -> list[tuple[Solution, Verdict, WalkFact]]:
    found = list(walks(cases))
    assert sum(verdict.mirrored for _, verdict, _ in found) >= 10
    return found


def told_by_hand(fact: WalkFact, rings: exact.ExactRings) -> tuple[str, ...] | None:
    """What the oracle meets on the way, as many features as the fact has."""
    goal = None if fact.goal is None else fact.goal.value
    told = [feature.value for feature in fact.features]
    return oracle.comes([tuple(ring) for ring in rings], fact.along.value, fact.start.value, goal, told)


def test_each_walk_tells_what_the_oracle_meets(walked: list[tuple[Solution, Verdict, WalkFact]]) -> None:
    for solution, verdict, fact in walked:
        name = (solution.item.name, fact.as_line())
        assert fact.holds(), name
        assert fact.features == told_by_hand(fact, fact.outline.rings), name
        assert fact.option_features == told_by_hand(fact, fact.option.rings), name
        assert fact.is_same is verdict.same, name
        if fact.along is Round.EDGE:
            for shape in (fact.outline, fact.option):
                clear = {
                    at for at, seen in zip(shape.exterior, counted.seen(shape.exterior), strict=True) if seen.is_clear
                }
                assert clear >= {fact.path_on(shape)[0], *fact.corners_on(shape)}, name


def test_a_flipped_option_is_the_outline_read_backwards(walked: list[tuple[Solution, Verdict, WalkFact]]) -> None:
    """The outline turned over by the oracle, not by the package, gives what is told of the option."""
    for solution, verdict, fact in walked:
        if verdict.mirrored:
            over = exact.turned_over(fact.outline.rings)
            assert fact.option_features == told_by_hand(fact, over), solution.item.name
            assert fact.option_features != fact.features, solution.item.name
        else:
            assert fact.option_features == fact.features, solution.item.name


def test_a_walk_ends_before_it_comes_round(walked: list[tuple[Solution, Verdict, WalkFact]]) -> None:
    for _, _, fact in walked:
        whole, path = fact.path_on(fact.outline, whole=True), fact.path_on(fact.outline)
        assert whole[: len(path)] == path and 2 <= len(path) < len(whole)
        rings = fact.outline.rings if fact.along is not Round.EDGE else (fact.outline.exterior,)
        assert any(set(whole) == set(ring) for ring in rings)
        area = sum(a * d - b * c for (a, b), (c, d) in zip(whole, (*whole[1:], whole[0]), strict=True))
        assert area < 0.0, "clockwise"


def test_walks_of_every_sort_are_found(walked: list[tuple[Solution, Verdict, WalkFact]]) -> None:
    found = {fact.along for _, _, fact in walked}
    assert Round.EDGE in found and found - {Round.EDGE}, "some go round a hole"
    assert any("hole" in fact.start.value for _, _, fact in walked), "some start from what lies by a hole"


def test_a_flip_that_only_holes_tell_is_not_laid_on(cases: Callable[[int, int], int]) -> None:
    solutions = with_holes(cases(3, 60))
    flipped = [
        (solution, v) for solution in solutions if solution.outline.holes for v in solution.verdicts if v.mirrored
    ]
    assert flipped
    laid = [solution.item.name for solution, verdict in flipped if walk_of(solution, verdict) is None]
    assert len(laid) <= 0.02 * len(flipped), laid


def test_a_walk_told_of_other_outlines_or_in_another_order_does_not_hold(
    walked: list[tuple[Solution, Verdict, WalkFact]],
) -> None:
    for _, verdict, fact in walked:
        square = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)))
        over = Outline.of(*split(exact.turned_over(fact.outline.rings)))
        wrong = [
            replace(fact, outline=square),
            replace(fact, option=square),
            replace(fact, option=over if verdict.same else fact.outline),
        ]
        if not fact.is_same:
            wrong.append(replace(fact, features=fact.option_features, option_features=fact.features))
            wrong.append(replace(fact, option_features=fact.features))
        for start in Start:
            told = replace(fact, start=start)
            if told_by_hand(told, fact.outline.rings) != fact.features:
                wrong.append(told)
        for along in Round:
            told = replace(fact, along=along)
            if told_by_hand(told, fact.outline.rings) != fact.features:
                wrong.append(told)
        if fact.goal is not None:
            wrong.append(replace(fact, goal=fact.start))
        for false in wrong:
            assert not false.holds(), false.as_line()
            with pytest.raises(FactError):
                verified(false, false.order())


def test_a_turned_or_enlarged_option_is_walked_in_the_same_words(
    walked: list[tuple[Solution, Verdict, WalkFact]],
) -> None:
    for number, (_, _, fact) in enumerate(walked):
        motion = Similarity(turn_deg=31.0 * number % 360 - 179.5, shift=(2.0, -7.0), scale=(0.5, 1.0, 2.0)[number % 3])
        moved = replace(fact, option=fact.option.moved(motion), tolerance=fact.tolerance * 1e-3)
        assert moved.holds(), fact.as_line()


def test_the_words_of_a_walk_name_the_features_in_their_order(
    walked: list[tuple[Solution, Verdict, WalkFact]],
) -> None:
    for _, verdict, fact in walked:
        said = choices.walked_alike(fact, is_known=False) if verdict.same else choices.walked(verdict.label, fact)
        orders = [sentence for sentence in said if re.match(r"On both: |The outline: |[A-F]: ", sentence)]
        assert len(orders) == (1 if verdict.same else 2)
        for sentence, features in zip(orders, (fact.features, fact.option_features), strict=False):
            assert read_back(sentence) == list(features), sentence
        assert said[-1] == (f"So {verdict.label} is flipped: no turn undoes that." if verdict.mirrored else orders[-1])


def split(rings: exact.ExactRings) -> tuple[tuple[tuple[float, float], ...], list[tuple[tuple[float, float], ...]]]:
    exterior, *holes = (tuple((float(x), float(y)) for x, y in ring) for ring in rings)
    return exterior, holes


NAMED = {
    "the side nearer to that hole": Feature.NEARER,
    "the side farther from that hole": Feature.FARTHER,
    "its longer neighbour": Feature.NEXT_LONGER,
    "its shorter neighbour": Feature.NEXT_SHORTER,
    "its neighbour nearer to the hole": Feature.NEXT_NEARER,
    "its neighbour farther from the hole": Feature.NEXT_FARTHER,
    "an inward corner": Feature.INWARD,
    "a sharp corner": Feature.SHARP,
    "a right angle": Feature.RIGHT,
    "a wide corner": Feature.WIDE,
    "the longer side": Feature.LONGER,
    "the shorter side": Feature.SHORTER,
    "an inward one": Feature.INWARD,
    "a sharp one": Feature.SHARP,
    "a wide one": Feature.WIDE,
}


NUMBERED = {
    "first": Feature.FIRST,
    "second": Feature.SECOND,
    "third": Feature.THIRD,
    "fourth": Feature.FOURTH,
    "fifth": Feature.FIFTH,
}


def read_back(sentence: str) -> list[Feature]:
    """ "On both: a sharp corner, then another." "On both: the right angle is the third on the way." """
    ordinal = re.search(r" is the (\w+) on the way\.$", sentence)
    if ordinal:
        return [NUMBERED[ordinal[1]]]
    first, *further = sentence.split(": ", 1)[1].rstrip(".").split(", then ")
    found: list[Feature] = [NAMED[first.removesuffix(" comes first")]]
    for clause in further:
        found.append(found[-1] if clause == "another" else NAMED[clause])
    return found

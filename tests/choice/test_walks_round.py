"""Walks: what comes clockwise from a place that there is once, by an oracle of the test's own; backwards if flipped."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest
from demo_items import demo_items
from oracles import counted, exact
from strategies import random_case

from explainers.choice.fact import verified
from explainers.choice.model import Solution, Verdict
from explainers.choice.sieves.sifting import walk_of
from explainers.choice.walk import Feature, Start, WalkFact
from explainers.choice.words import choices
from explainers.errors import FactError
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.solving.solver import solve

LONGER, LONGEST = 1.3, 1.15  # of two sides at the start, and of the longest and the next


def walks(cases: Callable[[int, int], int]) -> Iterator[tuple[Solution, Verdict, WalkFact]]:
    solutions = [load_solution(path) for path in demo_items()]
    solutions += [solve(random_case(seed).item) for seed in range(cases(60, 2000))]
    for solution in solutions:
        for verdict in solution.verdicts:
            fact = walk_of(solution, verdict)
            if fact is not None:
                assert verdict.same or verdict.mirrored, "only these are walked round"
                yield solution, verdict, fact


@pytest.fixture(scope="module")
def walked(cases: Callable[[int, int], int]) -> list[tuple[Solution, Verdict, WalkFact]]:
    found = list(walks(cases))
    assert sum(verdict.mirrored for _, verdict, _ in found) >= 10
    return found


def told_by_hand(fact: WalkFact, rings: exact.ExactRings) -> tuple[str, ...] | None:
    """What the oracle meets on the way round the exterior, as many features as the fact has."""
    way = counted.walk(rings[0], fact.start.value)
    if way is None:
        return None
    points, kinds = way
    if set(fact.features) & {Feature.LONGER, Feature.SHORTER}:
        first = (points[1][0] - points[0][0]) ** 2 + (points[1][1] - points[0][1]) ** 2
        last = (points[-1][0] - points[0][0]) ** 2 + (points[-1][1] - points[0][1]) ** 2
        assert max(first, last) >= LONGER**2 * min(first, last) * (1 - 1e-9)
        return ("longer",) if first > last else ("shorter",)
    return tuple(kinds[1 : len(fact.features) + 1])


def test_each_walk_tells_what_the_oracle_meets(walked: list[tuple[Solution, Verdict, WalkFact]]) -> None:
    for solution, verdict, fact in walked:
        name = (solution.item.name, fact.as_line())
        assert fact.holds(), name
        assert fact.features == told_by_hand(fact, fact.outline.rings), name
        assert fact.option_features == told_by_hand(fact, fact.option.rings), name
        assert fact.is_same is verdict.same, name
        assert counted.all_known(fact.outline.exterior), name


def test_a_flipped_option_is_the_outline_read_backwards(walked: list[tuple[Solution, Verdict, WalkFact]]) -> None:
    """The outline turned over by the oracle, not by the package, gives what is told of the option."""
    for solution, verdict, fact in walked:
        if verdict.mirrored:
            over = exact.turned_over(fact.outline.rings)
            assert fact.option_features == told_by_hand(fact, over), solution.item.name
            assert fact.option_features != fact.features, solution.item.name
        else:
            assert fact.option_features == fact.features, solution.item.name


def test_a_walk_starts_at_what_there_is_once_and_ends_before_it_comes_round(
    walked: list[tuple[Solution, Verdict, WalkFact]],
) -> None:
    for _, _, fact in walked:
        ring = fact.outline.exterior
        if fact.start is Start.LONGEST:
            squares = sorted(
                (a - c) ** 2 + (b - d) ** 2 for (a, b), (c, d) in zip(ring, ring[1:] + ring[:1], strict=True)
            )
            assert squares[-1] >= LONGEST**2 * squares[-2] * (1 - 1e-9)
        else:
            assert [corner.kind for corner in counted.seen(ring)].count(fact.start.value) == 1
        assert 1 <= len(fact.features) < len(ring) - 1


def test_a_walk_told_of_other_outlines_or_in_another_order_does_not_hold(
    walked: list[tuple[Solution, Verdict, WalkFact]],
) -> None:
    for _, verdict, fact in walked:
        square = Outline.of(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)))
        over = Outline.of(tuple(exact.turned_over(fact.outline.rings)[0]))
        wrong = [
            replace(fact, outline=square),
            replace(fact, option=square),
            replace(fact, option=over if verdict.same else fact.outline),
        ]
        if not fact.is_same:
            wrong.append(replace(fact, features=fact.option_features, option_features=fact.features))
            wrong.append(replace(fact, option_features=fact.features))
        for start in Start:
            if start is not fact.start and counted.walk(fact.outline.exterior, start.value) is None:
                wrong.append(replace(fact, start=start))
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


NAMED = {
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


def read_back(sentence: str) -> list[Feature]:
    """ "On both: a sharp corner, then another." """
    first, *further = sentence.split(": ", 1)[1].rstrip(".").split(", then ")
    found: list[Feature] = [NAMED[first.removesuffix(" comes first")]]
    for clause in further:
        found.append(found[-1] if clause == "another" else NAMED[clause])
    return found

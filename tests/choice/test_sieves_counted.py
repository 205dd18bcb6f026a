"""Sieves: every count, neighbour and ratio as an exact oracle has it, on the outlines as the generator built them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import pytest
from demo_items import demo_items
from oracles import counted, exact
from strategies import random_case

from explainers.choice.model import Solution
from explainers.choice.sieves.corner_kinds import CLEAR_DEG, LEAST_SIDE, RIGHT_DEG
from explainers.choice.sieves.counts import CountSieve
from explainers.choice.sieves.lengths import LengthSieve
from explainers.choice.sieves.neighbours import BetweenSieve, NeighbourSieve
from explainers.choice.sieves.sieve import SieveFact
from explainers.choice.sieves.sifting import sifting_of
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.solving.solver import solve

PARTS = 4  # so that several processes share the items
STAGES = {"corners", "holes", "inward", "angles", "neighbours", "lengths"}
SEEN_APART = 1.3  # ratios that differ by less are not held against each other


@dataclass(frozen=True)
class Sifted:
    solution: Solution
    facts: tuple[SieveFact, ...]


@cache
def generated(seed: int) -> Sifted:
    solution = solve(random_case(seed).item)
    return Sifted(solution, sifting_of(solution).facts)


@cache
def of_demo(path: Path) -> Sifted:
    solution = load_solution(path)
    return Sifted(solution, sifting_of(solution).facts)


def some(cases: Callable[[int, int], int]) -> Iterator[Sifted]:
    """Demo items, and generated ones."""
    yield from (of_demo(path) for path in demo_items())
    yield from (generated(seed) for seed in range(cases(20, 300)))


def figure_by_hand(fact: SieveFact, outline: Outline) -> float | None:
    """What the oracle has for it."""
    rings = outline.rings
    match fact:
        case CountSieve():
            return counted.count(fact.counted.value, rings)
        case BetweenSieve():
            return counted.between(rings[0], fact.kind.value) if counted.all_known(rings[0]) else None
        case NeighbourSieve():
            one, other = (kind.value for kind in fact.kinds)
            return counted.neighbours(rings[0], one, other) if counted.all_known(rings[0]) else None
        case LengthSieve():
            is_plain = (
                counted.all_known if "-" in fact.pair.value and fact.pair.value != "both-ends" else counted.all_clear
            )
            squared = counted.squared_ratio(rings[0], fact.pair.value) if is_plain(rings[0]) else None
            return None if squared is None else float(squared) ** 0.5
    raise TypeError(type(fact).__name__)


def is_true(fact: SieveFact) -> bool:
    """Whether what the fact says is so, by the oracle alone."""
    there = figure_by_hand(fact, fact.outline)
    theirs = [figure_by_hand(fact, option.outline) for option in fact.options]
    said = [fact.there, *(option.figure for option in fact.options)]
    if any(f is None or f != pytest.approx(s, rel=1e-9) for f, s in zip([there, *theirs], said, strict=True)):
        return False
    if isinstance(fact, CountSieve):  # nobody can count as many on an option as on the outline
        least, most = counted.most_and_least(fact.counted.value, fact.outline.rings)
        ranges = [counted.most_and_least(fact.counted.value, option.outline.rings) for option in fact.options]
        return all(most < low or high < least for low, high in ranges)
    if isinstance(fact, NeighbourSieve):  # some here and none there
        return all((there == 0) is not (figure == 0) for figure in theirs)
    if isinstance(fact, LengthSieve):
        return all(max(there, figure) >= SEEN_APART * min(there, figure) * (1 - 1e-9) for figure in theirs)
    return all(figure != there for figure in theirs)


def test_the_leeway_is_what_the_oracle_was_told() -> None:
    told = (counted.RIGHT_DEG, counted.CLEAR_DEG, counted.LEAST_SIDE)
    assert told == (RIGHT_DEG, CLEAR_DEG, LEAST_SIDE)


@pytest.mark.parametrize("path", demo_items(), ids=lambda path: path.stem)
def test_every_sieve_of_the_demo_is_true(path: Path) -> None:
    for fact in of_demo(path).facts:
        assert fact.holds() and is_true(fact), fact.as_line()


@pytest.mark.parametrize("part", range(PARTS))
def test_every_sieve_of_generated_items_is_true(part: int, cases: Callable[[int, int], int]) -> None:
    """Also of the outlines as the generator built them of quarter squares, where a corner is a whole number."""
    stages = set()
    for seed in range(part, cases(60, 2000), PARTS):
        case, found = random_case(seed), generated(seed)
        for fact in found.facts:
            assert fact.holds() and is_true(fact), (seed, fact.as_line())
            exactly = figure_by_hand(fact, Outline(exterior=case.result[0], holes=case.result[1:]))
            assert exactly == pytest.approx(fact.there, rel=1e-6), (seed, fact.as_line())
            assert fact.options, seed
            stages.add(fact.stage)
        labels = [label for fact in found.facts for label in fact.labels]
        assert len(set(labels)) == len(labels), "nobody is out twice"
        used = [fact.stage for fact in found.facts]
        assert len(set(used)) == len(used), "a sieve is used once"
        for verdict, same, mirrored in zip(found.solution.verdicts, case.same, case.mirrored, strict=True):
            assert not (same or mirrored) or verdict.label not in labels, seed
    assert stages <= STAGES and len(stages) >= 3


def falsified(fact: SieveFact) -> Iterator[SieveFact]:
    """The same with one thing changed that makes it false, or takes its proof away."""
    option = fact.options[0]
    more = 1.0 if not isinstance(fact, LengthSieve) else 0.5
    yield replace(fact, there=fact.there + more)
    yield replace(fact, options=())
    yield replace(fact, outline=option.outline)
    yield replace(fact, options=(replace(option, figure=option.figure + more), *fact.options[1:]))
    yield replace(fact, options=(replace(option, outline=fact.outline), *fact.options[1:]))
    # Even told with its own figure, the outline itself is not ruled out.
    yield replace(fact, options=(replace(option, outline=fact.outline, figure=fact.there), *fact.options[1:]))


def test_a_falsified_sieve_does_not_hold(cases: Callable[[int, int], int]) -> None:
    tried = 0
    for found in some(cases):
        for fact in found.facts:
            for wrong in falsified(fact):
                assert not wrong.holds(), (found.solution.item.name, wrong.as_line())
                tried += 1
    assert tried > 100


def test_no_option_that_is_the_outline_or_its_mirror_image_is_ever_sifted(cases: Callable[[int, int], int]) -> None:
    """Held by the oracle on the outlines: neither the same by turning nor flipped is among those that are sifted."""
    for found in some(cases):
        gone = {label for fact in found.facts for label in fact.labels}
        for verdict in found.solution.verdicts:
            if verdict.same or verdict.mirrored:
                assert verdict.label not in gone, found.solution.item.name
        for fact in found.facts:
            over = Outline.of(*_turned_over(fact.outline))
            for option in fact.options:
                flipped = replace(fact, options=(replace(option, outline=over, figure=fact.there),))
                assert not flipped.holds(), "an outline flipped over has the same of everything"


def _turned_over(outline: Outline) -> tuple[tuple[tuple[float, float], ...], list[tuple[tuple[float, float], ...]]]:
    exterior, *holes = exact.turned_over(outline.rings)
    return tuple(exterior), [tuple(hole) for hole in holes]


def test_turning_or_scaling_an_option_changes_no_sieve(cases: Callable[[int, int], int]) -> None:
    for number, seed in enumerate(range(cases(10, 200))):
        item = random_case(seed).item
        scale = (0.5, 1.0, 3.0)[number % 3]
        motion = Similarity(turn_deg=37.0 * number % 360 - 179.5, shift=(3.0, -2.0), scale=scale)
        options = tuple(
            option
            if option.corners is None
            else replace(
                option,
                corners=motion.apply(option.corners),
                holes=tuple(motion.apply(hole) for hole in option.holes),
                scale=option.scale / motion.scale,
            )
            for option in item.options
        )
        turned = sifting_of(solve(replace(item, options=options))).facts
        assert _in_figures(turned) == _in_figures(generated(seed).facts), seed


def _in_figures(facts: tuple[SieveFact, ...]) -> list[object]:
    """What is compared, of whom, and what it comes to."""
    rows = [(fact, [(option.label, round(option.figure, 6)) for option in fact.options]) for fact in facts]
    return [(fact.compared, round(fact.there, 6), theirs) for fact, theirs in rows]


def test_each_sentence_tells_the_figures_of_its_fact(cases: Callable[[int, int], int]) -> None:
    """What is counted of the outline and of the options can be read back from the words."""
    read = 0
    for found in some(cases):
        for fact in found.facts:
            if not isinstance(fact, CountSieve):
                continue
            assert _figures(fact.of_outline()) == [round(fact.there)] if fact.there else "none" in fact.of_outline()
            (said,) = fact.of_options()
            assert sorted(set(_figures(said))) == sorted({round(o.figure) for o in fact.options if o.figure})
            for option in fact.options:
                assert option.label in said
                alone = fact.only((option.label,))
                assert alone.labels == (option.label,) and alone.holds()
                assert _figures(alone.in_marking()) == [round(option.figure), round(fact.there)]
                read += 1
    assert read


def _figures(text: str) -> list[int]:
    return [int(word) for word in text.replace(".", " ").replace(",", " ").split() if word.isdigit()]

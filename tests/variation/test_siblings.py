"""Siblings of the demo items: sound, of the same build, none like another; easier and harder by what is stated.

Whether outlines are alike is asked of the exact oracle, which knows nothing of the package.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from pathlib import Path

import pytest
from oracles import exact
from strategies import random_item

from explainers.choice.slip import SlipCase
from explainers.choice.variations import Level
from explainers.errors import UnsoundItemError
from explainers.geometry.outline import Outline
from explainers.geometry.rings import sides
from explainers.intake.reader import read_item
from explainers.intake.workspace import load_solution
from explainers.intake.writing import item_yaml
from explainers.kinds.join_and_cut.model import Item
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.join_and_cut.vary.build import TurnKind, build_of, kind_of_turn
from explainers.kinds.join_and_cut.vary.comments import changes, comment, too_few
from explainers.kinds.join_and_cut.vary.request import FLIPS
from explainers.kinds.join_and_cut.vary.search import Siblings, siblings

ITEMS = Path(__file__).parent.parent.parent / "items"
DEMO = ("border-block", "corner-block", "kite-block", "window-block")
FIXTURES = Path(__file__).parent.parent / "cli" / "fixtures"


@pytest.fixture(
    scope="module",
    params=[pytest.param(name, marks=() if name in DEMO[:2] else pytest.mark.full) for name in DEMO],
)
def original(request: pytest.FixtureRequest) -> JoinAndCutSolution:
    return load_solution(ITEMS / f"{request.param}.yaml")


@pytest.fixture(scope="module")
def runs(original: JoinAndCutSolution, cases) -> list[Siblings]:
    return [siblings(original, count=3, seed=seed) for seed in range(cases(2, 12))]


def on_the_grid(outline: Outline) -> list[list[exact.ExactPoint]]:
    """The rings in whole units; fails where a corner has none."""
    rings = []
    for ring in outline.rings:
        rings.append([(Fraction(round(x)), Fraction(round(y))) for x, y in ring])
        assert all(abs(x - round(x)) < 1e-6 and abs(y - round(y)) < 1e-6 for x, y in ring)
    return rings


def alike(one: Outline, other: Outline) -> bool:
    rings, others = on_the_grid(one), on_the_grid(other)
    if sorted(map(len, rings)) != sorted(map(len, others)):
        return False
    return exact.same_by_turning(rings, others) or exact.is_mirror_only(rings, others)


def test_as_many_as_asked_for_are_found_sound_and_without_new_warnings(runs: list[Siblings]) -> None:
    for run in runs:
        warned = {warning.kind for warning in run.original.warnings}
        assert len(run.found) == 3
        for sibling in run.found:
            again = solve(sibling.solution.item)
            assert again.sound and len(again.verdicts) == len(run.original.verdicts)
            assert {warning.kind for warning in again.warnings} <= warned


def test_none_is_like_another_or_the_original_even_flipped(original: JoinAndCutSolution, runs: list[Siblings]) -> None:
    for run in runs:
        solutions = [original, *(sibling.solution for sibling in run.found)]
        for one, other in combinations(solutions, 2):
            assert not alike(one.outline, other.outline)
            assert not alike(one.item.base, other.item.base)


def test_the_build_is_kept(original: JoinAndCutSolution, runs: list[Siblings]) -> None:
    build = build_of(original)
    for run in runs:
        for sibling in run.found:
            found = build_of(sibling.solution)
            assert found.pieces == build.pieces
            assert (found.base_corners, found.base_holes) == (build.base_corners, build.base_holes)
            assert [piece.mark for piece in sibling.solution.item.pieces] == [p.mark for p in original.item.pieces]
            assert {case for case in build.slips if case} <= set(found.slips)
            assert len(sibling.solution.outline.holes) == len(original.outline.holes)


def test_numbers_are_whole_and_sides_are_seen(runs: list[Siblings]) -> None:
    for run in runs:
        for sibling in run.found:
            item = sibling.solution.item
            pairs = [pair for piece in item.pieces for pair in (*piece.corners, *piece.side, *piece.meets)]
            assert all(number == round(number) for pair in (*item.base.exterior, *pairs) for number in pair)
            assert all(piece.corners[0] == (0.0, 0.0) for piece in item.pieces)
            assert all(piece.turned == round(piece.turned) for piece in item.pieces)
            for outline in (item.base, sibling.solution.outline):
                shortest = min(abs(complex(*b) - complex(*a)) for ring in outline.rings for a, b in sides(ring))
                assert shortest >= outline.larger_extent / 8 - 1e-9


def test_a_sibling_reads_back_from_its_file(runs: list[Siblings], tmp_path: Path) -> None:
    for run in runs:
        for sibling in run.found:
            item = sibling.solution.item
            path = tmp_path / f"{item.name}.yaml"
            path.write_text(item_yaml(item, comment=comment(run, sibling)), encoding="utf-8")
            assert read_item(path) == replace(item, made=None)
            head = path.read_text(encoding="utf-8").split("item:")[0]
            assert run.original.item.name in head and f"--seed {run.seed}" in head
            assert all(line.startswith("# ") and len(line) <= 112 for line in head.splitlines())


def test_the_same_seed_gives_the_same_siblings_another_seed_others(original: JoinAndCutSolution) -> None:
    def names_and_items(count: int, seed: int) -> list[Item]:
        return [sibling.solution.item for sibling in siblings(original, count=count, seed=seed).found]

    first = names_and_items(2, 5)
    assert names_and_items(2, 5) == first
    assert names_and_items(1, 5) == first[:1]
    assert names_and_items(1, 6)[0].base != first[0].base


@pytest.mark.parametrize("level", [Level.EASIER, Level.HARDER])
def test_easier_and_harder_show_in_the_features(original: JoinAndCutSolution, level: Level) -> None:
    run = siblings(original, count=2, seed=3, level=level)
    assert len(run.found) == 2
    old = original.features()
    for sibling in run.found:
        new, told = sibling.solution.features(), changes(run, sibling)
        easy, hard = (new, old) if level is Level.EASIER else (old, new)
        assert easy.flipped_option <= hard.flipped_option
        assert easy.odd_angles <= hard.odd_angles
        assert easy.part_side_marks <= hard.part_side_marks
        flipped = [case for case in sibling.build.slips if case and case.slip in FLIPS]
        assert bool(flipped) == (level is Level.HARDER)
        assert told and all(change in " ".join(comment(run, sibling)) for change in told)
        # An odd angle may give way to a smaller, rounder one only; where the turn is told, it differs.
        for before, after in zip(run.build.pieces, sibling.build.pieces, strict=True):
            said = any(change.startswith(f"{after.name} turns by") for change in told)
            assert said == (round(abs(before.turn_deg), 3) != round(abs(after.turn_deg), 3))
            if level is Level.EASIER:
                assert abs(after.turn_deg) <= max(45.0, abs(before.turn_deg))
                assert not after.part_of_partner


def test_an_item_with_nothing_left_to_make_easier_says_so() -> None:
    item = siblings(load_solution(ITEMS / "border-block.yaml"), count=1, seed=3, level=Level.EASIER).found[0].solution
    easiest = item
    for _ in range(4):
        run = siblings(easiest, count=1, seed=3, level=Level.EASIER)
        if run.goal is None:
            break
        assert changes(run, run.found[0])
        easiest = run.found[0].solution
    else:
        pytest.fail("each is easier than the one before, without end")
    assert "nothing in it can be made easier" in too_few(run)


def test_generated_items_have_siblings_of_their_build(cases) -> None:
    """But for a few whose build is rare, such as a cut that opens a hole to the rim."""
    number = cases(6, 100)
    without = 0
    for seed in range(1, number + 1):
        original = solve(random_item(seed))
        run = siblings(original, count=1, seed=seed)
        for sibling in run.found:
            assert sibling.solution.sound
            assert build_of(sibling.solution).pieces == build_of(original).pieces
            assert not alike(sibling.solution.item.base, Outline.of(original.item.base.simplified(1e-3).exterior))
        without += not run.found
    assert without <= number / 20


def test_an_unsound_item_is_not_varied() -> None:
    with pytest.raises(UnsoundItemError, match="lost-block"):
        siblings(load_solution(FIXTURES / "lost-block.yaml"), count=1, seed=1)


def test_the_search_ends_with_what_it_has_and_names_what_stands_in_the_way(
    original: JoinAndCutSolution, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("explainers.kinds.join_and_cut.vary.search.MOST_EFFORT", 0)
    run = siblings(original, count=3, seed=1)
    assert run.found == () and run.goal is not None
    told = too_few(run)
    assert "found none of the 3 asked for: no base with" in told and "vary an item with another base" in told


@pytest.mark.parametrize(
    ("turn_deg", "kind"),
    [
        (0.0, TurnKind.NONE),
        (-90.0, TurnKind.QUARTER),
        (180.0, TurnKind.HALF),
        (-135.0, TurnKind.EIGHTH),
        (45.05, TurnKind.EIGHTH),  # a hand-typed corner tilts a piece a little
        (44.0, TurnKind.ODD),
        (-150.0, TurnKind.ODD),
    ],
)
def test_turns_have_kinds(turn_deg: float, kind: TurnKind) -> None:
    assert kind_of_turn(turn_deg) is kind


def test_a_slip_is_known_from_its_name_in_the_file() -> None:
    slips = build_of(load_solution(ITEMS / "border-block.yaml")).slips
    assert slips[:2] == (SlipCase(slip="flipped"), SlipCase(slip="left-out", subject="dart"))

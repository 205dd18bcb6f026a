"""All sentences and alt texts of whole items: the demo, and generated ones."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from demo_items import demo_items
from oracles.alt_parser import marked_side_in, rings_drawn_from
from oracles.sentence_parser import (
    amounts_of,
    counts_of,
    faults_of,
    marks_of,
    moved_part_of,
    options_of,
    piece_named_in,
    ratios_of,
    slips_of,
    turn_of,
)
from strategies import random_case
from told import narrated, strategies_of

from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_length import SideLengthFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.finished import outline_fact
from explainers.choice.model import Solution
from explainers.choice.same import SameFact
from explainers.choice.sieves.sieve import out
from explainers.choice.sieves.sifting import sifting_of, walk_of
from explainers.choice.words import choices
from explainers.choice.words.report import plan_lines
from explainers.geometry.congruence import Match, congruence
from explainers.geometry.outline import Outline
from explainers.intake.reader import read_item
from explainers.kinds.join_and_cut.facts.change import change_fact
from explainers.kinds.join_and_cut.facts.meet import meet_fact
from explainers.kinds.join_and_cut.facts.piece import piece_fact
from explainers.kinds.join_and_cut.facts.turn import turn_fact
from explainers.kinds.join_and_cut.model import BASE, Does
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.join_and_cut.words import steps, task
from explainers.kinds.join_and_cut.words.alt import sheet_alt
from explainers.words.mark_names import the_mark
from explainers.words.names import sentence_case

ITEMS = demo_items("join-and-cut")
TELLING = ("answer", "result", "flip", "mirror", "correct", "wrong", "slip", "same", "finished")


@pytest.fixture(scope="module", params=ITEMS, ids=lambda path: path.stem)
def solution(request: pytest.FixtureRequest) -> Solution:
    return solve(read_item(request.param))


def told_as_flipped(words: tuple[str, ...]) -> bool:
    """Whether an option is said to be the outline flipped over, and nothing more."""
    kinds = [kind for kind, _ in slips_of(words)]
    return kinds == ["flipped"] or any(sentence.endswith(" is the outline flipped over.") for sentence in words)


def times_of(words: tuple[str, ...]) -> list[float]:
    """How many times as long a side is said to be."""
    text = " ".join(words)
    parts = {"twice": 2.0, "half": 1 / 2, "a third": 1 / 3, "a quarter": 1 / 4}
    found = [parts[part] for part in parts if re.search(rf"\bis {part} as long\b", text)]
    return found + [float(times) for times in re.findall(r"\bis (\d+) times as long\b", text)]


def check_turn_to_fit(sentence: str, turn_deg: float) -> None:
    """Which way the right option turns, and how far where that has a name."""
    size = next((size for words, size in (("quarter turn", 90), ("half a turn", 180)) if words in sentence), None)
    if "no turn" in sentence:
        assert abs(turn_deg) <= 0.5
    elif size == 180:
        assert abs(abs(turn_deg) - 180) <= 0.5
    else:
        assert (" anticlockwise" in sentence) == (turn_deg > 0) != (" clockwise" in sentence)
        assert size is None or abs(abs(turn_deg) - size) <= 0.5
    assert sentence.endswith("it fits all the way round.")


def check_words(solution: Solution) -> None:
    """Every sentence of an item against its solution."""
    count = len(solution.placements)
    facts = [piece_fact(solution, index) for index in range(count)]
    asked = task.task(facts)
    told = [*asked, *task.close_up(facts)]
    for index, placement in enumerate(solution.placements):
        piece = placement.piece
        to_do = asked[index + (count > 2)]  # how many there are comes first where there are more
        assert piece_named_in(to_do, piece.name)
        assert marks_of(to_do) == [piece.mark]
        assert ("cut" in to_do.lower()) == (piece.does is Does.CUT)
        if piece.does is Does.JOIN:
            assert piece_named_in(to_do, piece.of if piece.of != BASE else "base")
        found_on = narrated(facts[index])
        assert piece_named_in(found_on[0], piece.name)
        assert piece_named_in(found_on[0], piece.of if piece.of != BASE else "base")
        assert marks_of(found_on[0]) == [piece.mark]
        turned = narrated(turn_fact(solution, index))
        said = turn_of(turned[0])
        assert said is not None
        assert abs((said[0] - placement.turn_deg + 180) % 360 - 180) <= (0.501 if said[1] else 0.101)
        met = narrated(meet_fact(solution, index))
        assert marks_of(met[0]) == [piece.mark]
        assert ("on top" in met[1]) == (piece.does is Does.CUT)
        told += [*found_on, *turned, *met, *narrated(change_fact(solution, index))]
    shape = steps.outline(outline_fact(solution.outline, solution.tolerance))
    assert counts_of(" ".join(shape), "corner") == [solution.outline.corner_count]
    assert counts_of(" ".join(shape), "hole") == ([len(solution.outline.holes)] if solution.outline.holes else [])
    told += shape
    for verdict in solution.verdicts:
        if isinstance(verdict.reasons[0], SameFact):
            kept = choices.keep(verdict.reasons[0])
            confirmed = choices.keep(verdict.reasons[0], outline_fact(solution.outline, solution.tolerance))
            assert confirmed[-len(kept) :] == kept
            assert counts_of(" ".join(confirmed), "corner") == [solution.outline.corner_count]
            check_turn_to_fit(kept[0], verdict.reasons[0].turn_deg)
            words = confirmed
        else:
            words = choices.rule_out(verdict)
            assert told_as_flipped(words) == verdict.mirrored
            made_by = [] if verdict.slip is None else [case.slip for case in verdict.slip.cases]
            assert sorted(kind for kind, _ in slips_of(words)) == sorted(made_by)
            assert all(amount.value >= 0 for sentence in words for amount in amounts_of(sentence))
            ringed = choices.reasons_said(verdict)[-1]
            if isinstance(ringed, SideLengthFact):  # how many times as long is told only where that is seen
                assert times_of(words) in ([], pytest.approx([ringed.length / ringed.other_length], rel=0.05))
            else:
                ratios = [ringed.ratio, ringed.other_ratio] if isinstance(ringed, SideRatioFact) else []
                assert ratios_of(words) == pytest.approx(ratios, rel=1e-3)
            moved = moved_part_of(words)
            assert (moved is not None) == isinstance(ringed, PartElsewhereFact)
            if isinstance(ringed, PartElsewhereFact):
                assert moved == ("part" if ringed.filled else "gap", ringed.adjacent)
        assert set(options_of(" ".join(words))) == {verdict.label}
        told += words
    for number, fact in enumerate(sifting_of(solution).facts):
        assert options_of(out(fact.labels, number)) in ([], list(fact.labels))
        told += [*fact.invitation(is_first=number == 0), fact.of_outline(), *fact.of_options()]
        told.append(out(fact.labels, number))
    for verdict in solution.verdicts:
        walk = walk_of(solution, verdict)
        if walk is not None and verdict.mirrored:
            told += choices.walked(verdict.label, walk)
        elif walk is not None:
            told += choices.walked_alike(walk, is_known=False)
    for candidate in strategies_of(solution):
        told += [*candidate.fact.narration(), f"{candidate.fact.headline().rstrip('?')}."]
    for sentence in told:
        assert faults_of(sentence) == [], sentence
    assert plan_lines(solution)[-1] == f"The answer is {solution.key}."


def check_alt(solution: Solution) -> None:
    """The sheet's alt text: the options can be drawn from it, and exactly the key fits."""
    words = sheet_alt(solution)
    assert not [telling for telling in TELLING if telling in words.lower()]
    question, *options = words.split("Option ")
    assert [option[0] for option in options] == [verdict.label for verdict in solution.verdicts]
    for told, verdict in zip(options, solution.verdicts, strict=True):
        drawn = [Outline.of(ring) for ring in rings_drawn_from(told)]
        near = 0.03 * solution.outline.larger_extent * verdict.drawn.scale
        shapes = [Outline.of(ring) for ring in verdict.outline.moved(verdict.drawn).rings]
        for mine, theirs in zip(drawn, shapes, strict=True):
            assert congruence(mine, theirs, near).kind is Match.BY_TURNING
    for placement in solution.placements:
        assert sentence_case(f"{the_mark(placement.piece.mark)} is on ") in question
        told = question.split(f", a piece {'to cut away' if placement.piece.does is Does.CUT else 'to join'}.")
        assert len(told) > 1


def test_every_sentence_of_the_demo_items_is_true_and_plain(solution: Solution) -> None:
    check_words(solution)


def test_the_alt_text_of_a_sheet_is_enough_and_tells_nothing(solution: Solution) -> None:
    check_alt(solution)


def test_the_marks_of_a_sheet_are_where_the_item_has_them() -> None:
    words = sheet_alt(solve(read_item(next(path for path in ITEMS if path.stem == "border-block"))))
    base = words.split("The tip, a piece to join.")[0]
    assert marked_side_in(base, "leaf") == (3, 3.0, 5.0)
    assert marked_side_in(base, "button") == (1, 3.0, 5.0)


def test_generated_items_are_told_truly(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(40, 1000)):
        case = random_case(seed)
        solved = solve(case.item)
        check_words(solved)
        check_alt(solved)
        # The answers as the generator built them, not as the solver found them.
        for turn_deg, index in zip(case.turns, range(len(case.turns)), strict=True):
            said = turn_of(narrated(turn_fact(solved, index))[0])
            assert said is not None
            assert abs((said[0] - turn_deg + 180) % 360 - 180) <= (0.501 if said[1] else 0.101), seed
        for verdict, same, mirrored in zip(solved.verdicts, case.same, case.mirrored, strict=True):
            if not same:
                assert told_as_flipped(choices.rule_out(verdict)) == mirrored, seed

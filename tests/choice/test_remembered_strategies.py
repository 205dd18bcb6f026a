"""What to remember: a strategy that the question shows, true of it, never told twice in a lesson."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from demo_items import demo_items
from oracles.readability import grade
from oracles.sentence_parser import faults_of
from strategies import random_item

from explainers.choice.fact import Fact
from explainers.choice.finished import OutlineFact
from explainers.choice.model import Solution
from explainers.choice.sieves.sieve import SieveFact
from explainers.choice.stages.context import StageSettings
from explainers.choice.strategies import STRATEGIES, Strategy, general_candidates
from explainers.choice.strategy import Candidate, StrategyFact, chosen
from explainers.choice.walk import WalkFact
from explainers.choice.words.routine import ROUTINE_STEPS, option_steps, purpose
from explainers.errors import FactError
from explainers.figure.cards import routine_figure
from explainers.figure.model import Label, Role
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.congruence import Match, congruence
from explainers.intake.workspace import load_lesson, load_solution
from explainers.item.model import Manner
from explainers.kinds.join_and_cut.facts.meet import MeetFact
from explainers.kinds.join_and_cut.facts.strategy import PIECE_STRATEGIES, PieceStrategy, piece_candidates
from explainers.kinds.join_and_cut.facts.turn import TurnFact
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.registry import kind_of
from explainers.kinds.turned_outline.facts.strategy import OUTLINE_STRATEGIES, outline_candidates
from explainers.kinds.turned_outline.solution import TurnedOutlineSolution
from explainers.lesson.planner import plan_lesson, plan_unseen
from explainers.sentences.contradictions import contradictions
from explainers.sentences.lesson import HEADING_LENGTH
from explainers.storyboard.model import Step
from explainers.words.catalogue import languages
from explainers.words.messages import speaking

LESSONS = sorted(
    path
    for path in (Path(__file__).parents[2] / "items").glob("*.yaml")
    if not path.stem.endswith("-block") and path.stem != "series"
)
ITEMS = demo_items()
TABLES = (STRATEGIES, PIECE_STRATEGIES, OUTLINE_STRATEGIES)


@cache
def solved(path: Path) -> Solution:
    return load_solution(path)


def candidates_of(solution: Solution) -> list[Candidate]:
    own: Iterator[Candidate] = iter(())
    if isinstance(solution, JoinAndCutSolution):
        own = piece_candidates(solution)
    elif isinstance(solution, TurnedOutlineSolution):
        own = outline_candidates(solution)
    return [*own, *general_candidates(solution)]


def generated(count: int) -> Iterator[Solution]:
    return (solve(random_item(seed)) for seed in range(count))


def check(solution: Solution) -> None:
    """Everything that may be told of a question is true, plain, and in agreement with its own facts."""
    found = candidates_of(solution)
    every = [each.fact for each in found]
    wrong = {verdict.label for verdict in solution.verdicts if not verdict.same}
    for candidate in found:
        fact = candidate.fact
        assert fact.holds()
        assert set(candidate.rules_out) <= wrong
        told = fact.narration()
        assert 2 <= len(told) <= 3
        for sentence in told:
            assert faults_of(sentence) == [], sentence
        assert len(fact.headline()) <= HEADING_LENGTH
        assert not contradictions(" ".join(told), [fact], beside=every), told


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_every_strategy_of_a_demo_item_holds_and_is_plain(path: Path) -> None:
    check(solved(path))


def test_every_strategy_of_generated_items_holds_and_is_plain(cases: Callable[[int, int], int]) -> None:
    for solution in generated(cases(40, 200)):
        check(solution)


def test_a_teachers_own_words_are_held_against_what_shows_the_strategy() -> None:
    solution = next(solved(path) for path in ITEMS if path.stem == "corner-block")
    found = {candidate.fact.strategy: candidate.fact for candidate in candidates_of(solution)}
    counting = found[Strategy.CORNERS]
    assert contradictions("Count first: the outline has 17 corners.", [counting])
    assert not contradictions("Count first: the outline has 6 corners.", [counting])
    turning = found[PieceStrategy.STOP]
    assert contradictions("Turn it 20 degrees, and stop there.", [turning])
    assert not contradictions("Turn it 135 degrees, and stop there.", [turning])


def falsified(fact: Fact) -> Iterator[Fact]:
    """The evidence with what it says changed."""
    match fact:
        case SieveFact():
            yield replace(fact, there=fact.there + 1.0)
        case WalkFact():
            yield replace(fact, option_features=fact.features)
        case OutlineFact():
            yield replace(fact, corners=fact.corners + 1)
        case TurnFact():
            yield replace(fact, turn_deg=(fact.turn_deg + 77.0) / 2)
        case MeetFact():
            yield replace(fact, side=tuple((x + 0.9, y + 0.3) for x, y in fact.side))


def test_a_strategy_whose_evidence_is_not_so_is_never_told() -> None:
    tried: Counter[str] = Counter()
    for path in ITEMS:
        for candidate in candidates_of(solved(path)):
            fact = candidate.fact
            copies = [replace(fact, evidence=())]
            for index, shown in enumerate(fact.evidence):
                copies += [
                    replace(fact, evidence=(*fact.evidence[:index], other, *fact.evidence[index + 1 :]))
                    for other in falsified(shown)
                ]
            for copy in copies:
                assert not copy.holds(), copy.strategy
                with pytest.raises(FactError):
                    copy.narration()
            tried[fact.strategy.value] += len(copies) - 1
    assert sum(count > 0 for count in tried.values()) >= 10


def test_no_evidence_shows_the_strategy_of_another_kind_of_sieve() -> None:
    counting = {Strategy.HOLES, Strategy.CORNERS, Strategy.INWARD, Strategy.ANGLES, Strategy.NEIGHBOURS}
    for path in ITEMS:
        for candidate in general_candidates(solved(path)):
            if candidate.fact.strategy in counting:
                others = counting - {candidate.fact.strategy}
                assert not any(replace(candidate.fact, strategy=other).holds() for other in others)


def test_what_is_said_to_be_flipped_or_ruled_out_is_so() -> None:
    for path in ITEMS:
        solution = solved(path)
        by_label = {verdict.label: verdict for verdict in solution.verdicts}
        for candidate in general_candidates(solution):
            for label in candidate.rules_out:
                kind = congruence(by_label[label].outline, solution.outline, solution.tolerance).kind
                assert kind is not Match.BY_TURNING
                if candidate.fact.strategy in (Strategy.WALK, Strategy.NEVER_FLIP):
                    assert kind is Match.MIRROR_ONLY


def test_many_kinds_are_told(cases: Callable[[int, int], int]) -> None:
    told = Counter(chosen(candidates_of(solution), ()).strategy.value for solution in generated(cases(60, 150)))
    told.update(chosen(candidates_of(solved(path)), ()).strategy.value for path in ITEMS)
    assert len(told) >= 8


def test_there_are_many_kinds_each_with_words_of_its_own() -> None:
    headlines = [spec.headline for table in TABLES for spec in table.values()]
    assert len(headlines) == len(set(headlines)) >= 10
    for tag in languages():
        with speaking(tag):
            facts = {c.fact.strategy: c.fact for path in ITEMS for c in candidates_of(solved(path))}
            assert all(len(fact.headline()) <= HEADING_LENGTH for fact in facts.values())
            openings = [fact.narration()[0] for fact in facts.values()]
            assert len(set(openings)) == len(openings)


def test_a_used_strategy_gives_way_to_the_next_best_and_comes_again_last() -> None:
    found = candidates_of(solved(ITEMS[0]))
    kinds = {candidate.fact.strategy.value for candidate in found}
    used: list[str] = []
    while len(used) < len(kinds):
        used.append(chosen(found, used).strategy.value)
    assert set(used) == kinds
    assert chosen(found, used).strategy.value == used[0]
    assert chosen(found, ()) == chosen(reversed(found), ()) or len({c.worth for c in found}) < len(found)


def remembered(steps: tuple[Step, ...]) -> list[StrategyFact]:
    return [fact for step in steps if step.stage == "remember" for fact in step.facts if isinstance(fact, StrategyFact)]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_a_lesson_never_tells_two_alike_and_always_the_same(path: Path) -> None:
    lesson, solutions = load_lesson(path)
    seen, unseen = plan_lesson(lesson, solutions), plan_unseen(lesson, solutions)
    told = [fact.strategy for fact in remembered(seen.steps)]
    assert told and len(set(told)) == len(told)
    assert told == [fact.strategy for fact in remembered(unseen.steps)]
    for step in seen.steps:
        if step.stage == "remember":
            marked = [e for e in step.picture.entries if e.role in (Role.POINTER, Role.WRONG, Role.TURN)]
            signs = [e for e in step.picture.entries if e.id.endswith("-sign") or e.id.startswith("list-")]
            assert marked or signs, step.id
            assert step.picture.alt


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_a_lesson_ends_with_its_routine_in_three_steps(path: Path) -> None:
    lesson, solutions = load_lesson(path)
    for tag in languages():
        board = plan_lesson(replace(lesson, language=tag, closing=None, words=()), solutions)
        last = board.steps[-1]
        assert len(last.narration) == ROUTINE_STEPS
        numbers = [e.text for e in last.picture.entries if isinstance(e, Label) and e.id.startswith("number-")]
        assert numbers == ["1", "2", "3"]
        written = " ".join(e.text for e in last.picture.entries if isinstance(e, Label) and e.id.startswith("line-"))
        assert written == " ".join(last.narration)
    assert grade(" ".join(plan_unseen(replace(lesson, closing=None), solutions).steps[-1].narration)) <= 5.0


def test_a_teachers_own_last_words_are_said_over_the_routine() -> None:
    lesson, solutions = load_lesson(LESSONS[0])
    last = plan_lesson(replace(lesson, closing="Well done."), solutions).steps[-1]
    assert last.narration == ("Well done.",)
    assert last.teachers_own
    assert [e.text for e in last.picture.entries if isinstance(e, Label) and e.id == "number-3"] == ["3"]


@pytest.mark.parametrize("manner", [Manner.QUESTION, Manner.HINTS])
def test_a_question_that_is_not_solved_gives_nothing_of_its_options_away(manner: Manner) -> None:
    lesson, solutions = load_lesson(LESSONS[0])
    asked = replace(lesson.parts[0], manner=manner, asks=())
    last = plan_lesson(replace(lesson, parts=(asked,), closing=None, words=()), solutions[:1]).steps[-1]
    assert last.narration[1:] == option_steps((), count=2)


def test_the_first_card_says_what_the_lesson_is_for() -> None:
    lesson, solutions = load_lesson(LESSONS[0])
    first = plan_lesson(replace(lesson, opening=None), solutions).steps[0]
    aim = purpose(solutions)
    assert aim in first.narration
    assert aim in first.picture.alt


@pytest.mark.parametrize("count", [1, 2, 3])
def test_a_routine_has_as_many_steps_as_are_asked_for(count: int) -> None:
    for some in ((), [solved(ITEMS[0])], [solved(path) for path in ITEMS]):
        steps = option_steps(some, count=count)
        assert len(steps) == len(set(steps)) == count


def test_a_long_routine_has_room_on_its_card() -> None:
    line = "Look for what does not match: corners that point inwards, right angles and sharp corners, and neighbours."
    figure = routine_figure((line, line, line), line, DEFAULT_THEME)
    assert all(1.5 <= entry.at[1] <= 6.8 for entry in figure.entries if isinstance(entry, Label))


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_every_strategy_has_a_picture_in_which_something_stands_out(path: Path) -> None:
    solution = solved(path)
    plain = StageSettings(manner=Manner.WORKED_EXAMPLE, theme=DEFAULT_THEME)
    kinds = list(dict.fromkeys(candidate.fact.strategy.value for candidate in candidates_of(solution)))
    pictures = set()
    for kind in kinds:
        others = tuple(other for other in kinds if other != kind)
        (step,) = (
            step
            for step in kind_of(solution.item).steps(solution, replace(plain, remembered=others))
            if step.stage == "remember"
        )
        (fact,) = remembered((step,))
        assert fact.strategy.value == kind
        assert step.picture.alt
        pictures.add(step.picture.entries)
    assert len(pictures) > len(kinds) / 2

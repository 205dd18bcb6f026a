"""On paper stands the reason that the lesson gives: each line of an answer is made from a fact that a step tells."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from demo_items import demo_items
from strategies import random_item

from explainers.choice.differences.difference import ReasonFact
from explainers.choice.differences.mirror import MirrorFact
from explainers.choice.model import Solution
from explainers.choice.sieves.sieve import SieveFact
from explainers.choice.stages.sheet_model import SheetSet
from explainers.choice.walk import WalkFact
from explainers.figure.paper import Paper, Printing
from explainers.figure.themes import PRINT
from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.kinds.join_and_cut.facts.turn import TurnFact
from explainers.kinds.join_and_cut.facts.turn_goal import TurnGoalFact
from explainers.kinds.join_and_cut.words.turning import Hand, Slope, stop_when, then_lies
from explainers.kinds.registry import kind_of
from explainers.lesson.planner import plan_unseen
from explainers.lesson.sheet_plan import plan_sheets
from explainers.sentences.sheets import SheetKind
from explainers.storyboard.model import Storyboard

Told = SieveFact | WalkFact | ReasonFact
# How a quarter turn and any other are to stop; half a turn, and none.
GOALS = {*map(stop_when, Slope), *map(then_lies, Hand)}


def lesson_of(solution: Solution) -> Storyboard:
    part = LessonPart(show=Path("made.yaml"), manner=Manner.WORKED_EXAMPLE)
    return plan_unseen(Lesson(name="made", title="Made", parts=(part,)), (solution,))


def sheets_of(solution: Solution) -> SheetSet:
    printing = Printing(paper=Paper.A4, large=False)
    only = (SheetKind.ANSWER, SheetKind.MARKING)
    return plan_sheets([solution], name="made", title="Made", theme=PRINT, printing=printing, only=only)


def told_in(board: Storyboard, label: str) -> list[Told]:
    """The facts by which the lesson rules out an option, as its steps carry them."""
    facts = [fact for step in board.steps if not step.id.endswith(".remember") for fact in step.facts]
    sieves = [fact.only((label,)) for fact in facts if isinstance(fact, SieveFact) and label in fact.labels]
    walks = [fact for fact in facts if isinstance(fact, WalkFact) and fact.label == label]
    return [*sieves, *walks, *(fact for fact in facts if isinstance(fact, ReasonFact) and fact.label == label)]


def held(solution: Solution) -> Counter[str]:
    """Each wrong option's line on both sheets, against the lesson; how many of each kind were held."""
    board, sheets, kinds = lesson_of(solution), sheets_of(solution), Counter[str]()
    ((answered, marked),) = zip(sheets.answers, sheets.marking, strict=True)
    wrong = [verdict for verdict in solution.verdicts if not verdict.same]
    assert [label for label, _ in answered.reasons] == [verdict.label for verdict in wrong]
    entries = {entry.label: entry for entry in marked.entries}
    for verdict, (label, reason) in zip(wrong, answered.reasons, strict=True):
        told = told_in(board, label)
        seen = next((fact for fact in told if not isinstance(fact, ReasonFact)), None)
        if seen is not None:
            assert seen.in_marking() in reason and seen.in_marking() in entries[label].did, (label, reason)
        else:
            said = {fact.on_answers() for fact in told if isinstance(fact, ReasonFact)}
            assert any(reason.startswith(sentence) for sentence in said), (label, reason, said)
        flip = isinstance(seen, WalkFact) or any(isinstance(fact, MirrorFact) for fact in told)
        assert verdict.mirrored is ("It is flipped over." in reason or "the outline flipped over." in reason)
        assert not verdict.mirrored or flip
        kinds[type(seen).__name__ if seen else "laid on"] += 1
    return kinds


@pytest.mark.parametrize("path", demo_items(), ids=lambda path: path.stem)
def test_the_sheets_give_the_reason_of_the_lesson(path: Path) -> None:
    assert held(load_solution(path)).total() >= 2


def test_so_do_the_sheets_of_generated_items(cases: Callable[[int, int], int]) -> None:
    kinds: Counter[str] = Counter()
    for seed in range(cases(15, 300)):
        item = random_item(seed)
        solution = kind_of(item).solve(item)
        if solution.sound:
            kinds += held(solution)
    assert kinds["CountSieve"] and kinds["WalkFact"], kinds


@pytest.mark.parametrize("path", demo_items("join-and-cut"), ids=lambda path: path.stem)
def test_a_turn_on_the_sheet_has_the_goal_that_the_lesson_gives(path: Path) -> None:
    solution = load_solution(path)
    facts = [fact for step in lesson_of(solution).steps if not step.id.endswith(".remember") for fact in step.facts]
    turns = {fact.name: fact for fact in facts if isinstance(fact, TurnFact)}
    goals = {fact.name: fact for fact in facts if isinstance(fact, TurnGoalFact)}
    captions = [still.caption for still in sheets_of(solution).answers[0].stills]
    for piece, caption in zip(solution.item.pieces, captions, strict=False):
        turn, goal = turns[piece.name], goals[piece.name]
        assert caption.startswith(f"{turn.narration()[0]} {goal.on_sheet()} "), caption
        assert goal.on_sheet() in GOALS or goal.on_sheet() in goal.reason()
        assert len(caption.split()) <= 32, caption

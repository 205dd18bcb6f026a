"""A question that is nothing but an outline and its options is told by the stages that all kinds share."""

from __future__ import annotations

from itertools import pairwise

import pytest
from turned_outline import TurnedOutline, solve, told

from explainers.choice.model import Solution
from explainers.choice.question import Option
from explainers.choice.sieves.sieve import SieveFact
from explainers.choice.slip import FLIPPED
from explainers.choice.stages.context import StageSettings
from explainers.choice.walk import WalkFact
from explainers.figure.model import Entry, Figure
from explainers.figure.motion import Glide, Motion
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.outline import Outline
from explainers.item.model import Manner
from explainers.item.stops import Stop
from explainers.storyboard.model import Step, Still

HOOK = ((0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 5.0), (0.0, 5.0))
LONGER = ((0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 6.0), (0.0, 6.0))
OPTIONS = (
    Option(slip="wider", turned=30.0),
    Option(turned=90.0),
    Option(slip=FLIPPED, turned=45.0),
    Option(corners=LONGER, scale=0.5),
)


@pytest.fixture(scope="module")
def solution() -> Solution:
    return solve(TurnedOutline(name="hook", title="Hook", outline=Outline.of(HOOK), options=OPTIONS))


def told_as(solution: Solution, manner: Manner, *, is_seen: bool = True) -> list[Step]:
    pause_s = 20.0 if manner.asks_to_try else 0.0
    settings = StageSettings(
        manner=manner, theme=DEFAULT_THEME, pause_s=pause_s, asks=(Stop("options"),), is_seen=is_seen
    )
    return told(solution, settings)


def drawn(figure: Figure) -> set[Entry]:
    """What is seen but for the clock, which goes when the time is over."""
    return {entry for entry in figure.entries if entry.group != "clock"}


@pytest.mark.parametrize("manner", Manner)
def test_every_manner_tells_it(solution: Solution, manner: Manner) -> None:
    steps = told_as(solution, manner)
    assert len({step.id for step in steps}) == len(steps)
    assert all(step.item == "hook" and step.chapter and step.heading for step in steps)
    assert all(fact.holds() for step in steps for fact in step.facts)
    for before, after in pairwise(steps):
        if after.stage == "remember":  # it shows again what it speaks of
            continue
        assert drawn(before.picture) == drawn(after.stills[0]), f"{before.id} to {after.id}"
    groups = {entry.group for step in steps for figure in step.stills for entry in figure.entries}
    assert not any(group.startswith(("piece", "base")) for group in groups)
    stages = [step.stage for step in steps]
    settled = [stage for stage in stages if stage.startswith("sift.") or stage in ("rule-out", "keep", "answer")]
    if not manner.solves:
        assert settled == []
    else:
        assert settled[0].startswith("sift.") and settled[-3:] == ["rule-out", "keep", "answer"]
    assert ("ask-options" in stages) is manner.works_through


def test_whoever_tries_it_may_choose_and_is_told_why(solution: Solution) -> None:
    (pause,) = (step for step in told_as(solution, Manner.YOUR_TURN) if step.stage == "pause")
    assert pause.pause_s == pytest.approx(20.0) and pause.choice is not None
    assert [option.right for option in pause.choice.options] == [False, True, False, False]
    assert all(option.said and option.figure for option in pause.choice.options)
    (pause,) = (step for step in told_as(solution, Manner.QUESTION) if step.stage == "pause")
    assert pause.choice is not None and [option.right for option in pause.choice.options] == [None] * 4


@pytest.mark.parametrize("manner", Manner)
def test_unseen_it_has_the_same_words_and_lengths(solution: Solution, manner: Manner) -> None:
    seen, unseen = told_as(solution, manner), told_as(solution, manner, is_seen=False)
    assert [(step.id, step.narration) for step in seen] == [(step.id, step.narration) for step in unseen]
    assert not any(step.choice or figure.entries for step in unseen for figure in step.stills)
    for one, other in zip(seen, unseen, strict=True):
        assert _lengths(one) == pytest.approx(_lengths(other)), one.id


def _lengths(step: Step) -> list[float]:
    return [(beat.hold_s or -1.0) if isinstance(beat, Still) else beat.seconds for beat in step.beats]


def test_a_flip_is_walked_round_and_what_is_larger_is_sifted(solution: Solution) -> None:
    steps = told_as(solution, Manner.SOLUTION)
    of_sieves = {label for step in steps for fact in step.facts if isinstance(fact, SieveFact) for label in fact.labels}
    codes = {verdict.code: verdict for verdict in solution.verdicts}
    of_their_own = [codes[step.subject.name] for step in steps if step.stage == "rule-out" and step.subject]
    assert sorted([*of_sieves, *(verdict.label for verdict in of_their_own)]) == ["A", "C", "D"]
    assert [verdict.label for verdict in of_their_own if verdict.mirrored] == ["C"]
    walked = next(step for step in steps if any(isinstance(fact, WalkFact) and not fact.is_same for fact in step.facts))
    assert walked.subject is not None and codes[walked.subject.name].label == "C"
    walkers = [move.group for move in _moves(walked) if isinstance(move, Glide) and move.group.startswith("walker")]
    assert sorted(walkers) == ["walker-C-option", "walker-C-outline"]


def _moves(step: Step) -> list[object]:
    return [move for beat in step.beats if isinstance(beat, Motion) for move in beat.moves]

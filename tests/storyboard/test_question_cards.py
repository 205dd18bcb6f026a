"""The card with which each question of a lesson begins: what stands on it, that it costs no time, where it is shown."""

from __future__ import annotations

import itertools
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explainers.figure.cards import chapter_figure
from explainers.figure.model import CAPTION_TOP, STAGE_WIDTH, Label, Role
from explainers.figure.motion import Motion
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_lesson, load_solution
from explainers.lesson.planner import plan_item, plan_lesson, plan_unseen
from explainers.outputs.shared.said_below import worded_stills
from explainers.outputs.shared.steps import picture_of, with_dividers
from explainers.storyboard.model import Storyboard
from explainers.storyboard.pacing import pace
from explainers.typeface.faces import label_box

ITEMS = Path(__file__).parents[2] / "items"
TITLES = st.text(alphabet="abcdefgmw ", min_size=1, max_size=60).map(lambda text: text.strip() or "a")
MOST_S = 1.5  # a card stands no longer before it begins to go


@pytest.fixture(scope="module", params=["first-blocks", "turning-round"])
def board(request: pytest.FixtureRequest) -> Storyboard:
    return plan_lesson(*load_lesson(ITEMS / f"{request.param}.yaml"))


def texts(labels: tuple[object, ...]) -> list[str]:
    return [label.text for label in labels if isinstance(label, Label)]


def test_each_question_begins_with_its_card(board: Storyboard) -> None:
    items = list(dict.fromkeys(step.item for step in board.steps if step.item))
    begun = [step for step in board.steps if step.card]
    assert [step.item for step in begun] == items
    assert [step.card for step in begun] == [f"Question {n} of {len(items)}" for n in range(1, len(items) + 1)]
    for step in begun:
        assert step is next(other for other in board.steps if other.item == step.item)
        card, *rest = step.stills
        assert step.card in texts(card.entries) and step.heading not in texts(card.entries)
        assert all(step.heading in texts(still.entries) for still in rest)
        assert not any(entry.subject for entry in card.entries), "nothing of the question is on it"
        assert picture_of(step) == rest[-1] and step.pause_s == 0.0
        assert worded_stills(step)[0] == card, "it has words of its own"


def test_a_card_is_short_and_takes_no_time(board: Storyboard) -> None:
    with_cards = pace(board)
    plain = replace(board, steps=tuple(step.without_card() for step in board.steps))
    assert with_cards.seconds == pytest.approx(pace(plain).seconds, abs=0.1)
    for step in board.steps:
        if step.card:
            span, fade, *_ = (span for span in with_cards.spans if span.step_id == step.id)
            assert 0.8 <= span.frames / with_cards.fps <= MOST_S and isinstance(fade.shows, Motion)


def test_as_slides_they_stand_alone(board: Storyboard) -> None:
    slides = with_dividers(board.steps)
    cards = [slide for slide in slides if slide not in board.steps and not slide.narration and not slide.facts]
    assert [card.heading for card in cards] == [step.card for step in board.steps if step.card]
    assert len(slides) == len(board.steps) + len(cards)
    assert all(len(card.stills) == 1 and card.chapter for card in cards)


def test_a_question_alone_has_none() -> None:
    assert not any(step.card for step in plan_item(load_solution(ITEMS / "corner-block.yaml")).steps)


def test_a_lesson_without_pictures_is_as_long() -> None:
    told = load_lesson(ITEMS / "first-blocks.yaml")
    assert pace(plan_unseen(*told)).frames == pace(plan_lesson(*told)).frames


@settings(max_examples=40, deadline=None)
@given(TITLES, st.integers(1, 12), st.integers(1, 12))
def test_any_title_has_room(title: str, number: int, more: int) -> None:
    figure = chapter_figure(title, "We work it out together.", (number, number + more), "", DEFAULT_THEME)
    words = [entry for entry in figure.entries if isinstance(entry, Label) and entry.role == Role.WORD]
    beside = [label for label in words if label.at[0] > STAGE_WIDTH / 3]
    assert " ".join(label.text for label in beside).split() == f"{title} We work it out together.".split()
    boxes = [label_box(label) for label in beside]
    for label, (_, bottom, right, top) in zip(beside, boxes, strict=True):
        assert bottom > CAPTION_TOP and top < 8.0
        assert right < STAGE_WIDTH - 0.2 or " " not in label.text
    for (_, bottom, _, _), (_, _, _, top) in itertools.pairwise(boxes):
        assert top <= bottom + 1e-6

"""Slides of the deck that learners handle: how many there are, what they share, that nothing stands twice."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from outputs.html_pages import demo, slides_told

from explainers.figure.model import Figure
from explainers.outputs.html.pictures import page_figure
from explainers.outputs.shared.steps import picture_of
from explainers.storyboard.model import Step

LESSONS = ("first-blocks", "turning-round", "cutting-out", "looking-closely")
MOST_SLIDES, MORE_A_PIECE = 12, 3  # of a question with two pieces, and of each further one


def shown(step: Step) -> Figure:
    return replace(page_figure(picture_of(step)), alt="")


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_question_has_few_slides_and_no_step_is_lost(lesson: str) -> None:
    slides = slides_told(demo(lesson))
    assert [step for slide in slides for step in slide] == list(demo(lesson).storyboard.steps)
    for item in {slide[0].item for slide in slides} - {""}:
        own = [slide for slide in slides if slide[0].item == item]
        assert all(step.item == item for slide in own for step in slide)
        pieces = {step.subject.name for slide in own for step in slide if step.stage == "meet" and step.subject}
        assert len(own) <= MOST_SLIDES + MORE_A_PIECE * max(0, len(pieces) - 2), item


@pytest.mark.parametrize("lesson", LESSONS)
def test_no_picture_stands_on_two_slides_in_a_row(lesson: str) -> None:
    slides = slides_told(demo(lesson))
    for before, after in pairwise(slides):
        assert shown(before[-1]) != shown(after[-1]), after[-1].id


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_piece_is_laid_before_the_lesson_lays_it_and_after_what_is_asked_of_it(lesson: str) -> None:
    found = 0
    for slide in slides_told(demo(lesson)):
        stages = [step.stage for step in slide]
        if "meet" not in stages:
            continue
        found += 1
        (at,) = (number for number, step in enumerate(slide) if step.handling is not None)
        handling = slide[at].handling
        assert handling is not None and handling.until == "meet" and at < stages.index("meet")
        asked = [number for number, stage in enumerate(stages) if stage.startswith("ask-")]
        assert at == max(asked, default=stages.index("marks")), (
            "where the lesson stops last, or where the marks are found"
        )
        if "turn" in stages[:at]:  # turned already: it is to be slid only
            assert handling.meeting.turn_deg == 0.0
    assert found or lesson == "turning-round"


def test_whoever_tries_a_question_may_move_its_pieces_and_none_lies_over_the_options() -> None:
    for lesson in LESSONS:
        for step in demo(lesson).storyboard.steps:
            assert bool(step.loose) == (step.stage in ("task", "pause"))
            if step.choice is not None:
                for loose in step.loose:
                    for option in step.choice.options:
                        apart = (
                            option.room.top <= loose.room.bottom + 1e-9 or option.room.left >= loose.room.right - 1e-9
                        )
                        assert apart, (step.id, loose.name, option.label)

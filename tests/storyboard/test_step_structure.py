"""A step carries its item, subject and stage; its id is made from them, and nothing is read out of it."""

from __future__ import annotations

import pytest

from explainers.figure.model import Figure
from explainers.figure.subject import Subject, Thing
from explainers.storyboard.ideas import ideas
from explainers.storyboard.model import Step, Still

PICTURE = Still(figure=Figure(background="#FFFFFF", entries=()))
FLAG = Subject(thing="piece", name="flag")
CODED = Subject(thing=Thing.OPTION, name="k4f7")


def step(stage: str, *, item: str = "one-block", lesson: str = "", subject: Subject | None = None) -> Step:
    return Step(
        stage=stage,
        item=item,
        lesson=lesson,
        subject=subject,
        chapter="C",
        heading="H",
        beats=(PICTURE,),
        narration=("It is said.",),
    )


def test_an_id_is_made_from_what_the_step_is_of() -> None:
    assert step("opening", item="", lesson="my-lesson").id == "my-lesson.opening"
    assert step("task").id == "one-block.task"
    assert step("turn", subject=FLAG).id == "one-block.flag.turn"
    assert step("keep", subject=CODED).id == "one-block.option-k4f7.keep"
    assert step("which", subject=Subject(thing=Thing.OUTLINE)).id == "one-block.which", "a stage is an open name"


def test_a_neutral_id_tells_neither_the_option_nor_what_comes_of_it() -> None:
    assert {step(stage, subject=CODED).neutral_id for stage in ("rule-out", "keep")} == {"one-block.option"}
    assert step("turn", subject=FLAG).neutral_id == "one-block.flag.turn"


def test_a_step_is_of_an_item_or_stands_round_all_of_them() -> None:
    with pytest.raises(ValueError, match="of an item and of none"):
        step("opening", lesson="my-lesson")


def test_an_idea_is_an_item_and_a_subject_whatever_their_names_are() -> None:
    """A piece that is called like a stage is no part of that stage."""
    named_alike = Subject(thing="piece", name="close-up")
    rows = ideas([step("close-up"), step("marks", subject=named_alike), step("turn", subject=named_alike)])
    assert [len(row) for row in rows] == [1, 2]

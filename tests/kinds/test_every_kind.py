"""Every kind of question that is installed gives all that the rest of the house asks a kind for."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from explainers.choice.model import Answer, Solution
from explainers.choice.panels.remarks import Remarks
from explainers.choice.slip import FLIPPED
from explainers.choice.stages.context import StageSettings
from explainers.choice.variations import Level
from explainers.figure.paper import Printing, paper_theme
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_solution
from explainers.item.model import Manner
from explainers.item.stops import Stop
from explainers.kinds.registry import DEFAULT_KIND, kind_named, kind_names, kind_of
from explainers.lesson.planner import plan_item
from explainers.sentences.labels import one_of_several
from explainers.storyboard.model import PAUSE, TASK

ITEMS = Path(__file__).parents[2] / "items"
KINDS = kind_names()


@cache
def demo(name: str) -> Solution:
    return load_solution(ITEMS / f"{kind_named(name).demo_item}.yaml")


def test_the_kind_of_an_item_that_names_none_is_installed() -> None:
    assert DEFAULT_KIND in KINDS and len(KINDS) > 1


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_answers_and_solves_its_demo_item(name: str) -> None:
    kind, solution = kind_named(name), demo(name)
    assert solution.sound and solution.item.kind == name == kind.name
    assert kind_of(solution.item) is kind
    found = kind.answer(solution.item)
    assert isinstance(found, Answer) and found.key == solution.key and found.turns_deg == solution.turns_deg
    assert kind.solve(solution.item) == solution
    assert kind.with_pairs(solution).key == solution.key
    assert kind.refusals(solution.item, is_whole=True, is_named=True) == []
    likeness = solution.posed().likeness(solution.posed())
    assert likeness is not None and not likeness.flipped


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_refuses_the_questions_of_another(name: str) -> None:
    for other in KINDS:
        if other != name:
            with pytest.raises(TypeError):
                kind_named(name).solve(demo(other).item)
            with pytest.raises(TypeError):
                list(kind_named(name).steps(demo(other), StageSettings(manner=Manner.QUESTION, theme=DEFAULT_THEME)))


@pytest.mark.parametrize("name", KINDS)
def test_its_slips_are_those_that_its_solutions_speak_of(name: str) -> None:
    kind, solution = kind_named(name), demo(name)
    brief = kind.slips_in_brief()
    assert FLIPPED in brief and len(set(brief.values())) == len(brief)
    assert set(solution.possible_slips()) <= set(brief)
    told = {case.slip for verdict in solution.verdicts if verdict.slip for case in verdict.slip.cases}
    assert told and told <= set(brief)


@pytest.mark.parametrize("manner", Manner)
@pytest.mark.parametrize("name", KINDS)
def test_a_kind_tells_its_demo_item_in_every_manner(name: str, manner: Manner) -> None:
    kind, solution = kind_named(name), demo(name)
    steps = list(kind.steps(solution, StageSettings(manner=manner, theme=DEFAULT_THEME, pause_s=30.0)))
    stages = [step.stage for step in steps]
    assert stages[0] in (TASK, "recall") and (PAUSE in stages) is manner.asks_to_try
    assert ("answer" in stages) is manner.solves
    for step in steps:
        assert step.item == solution.item.name and step.heading
        assert all(fact.holds() for fact in step.facts)
        assert step.handling is None or kind.page_words()
    frame = kind.framing([(manner, solution)])
    assert frame.heading and frame.about and (frame.routine or manner is Manner.QUICK_CHECK)
    assert kind.ask_why().endswith(".")


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("name", KINDS)
def test_a_kind_prints_its_demo_item(name: str, large: bool) -> None:
    solution, printing = demo(name), Printing(large=large)
    paper = kind_named(name).on_paper(solution, paper_theme(DEFAULT_THEME), printing)
    asked = paper.asked("1. Block")
    assert asked.labels == tuple(verdict.label for verdict in solution.verdicts)
    assert asked.picture.height_mm < printing.height_mm and asked.picture.figure.alt
    assert all(still.caption and still.picture.figure.alt for still in paper.answered())
    cut = paper.cut_outs("1. Block")
    assert cut is None or (cut.pages and cut.unit_mm > 0.0)


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_shows_a_teacher_its_demo_item(name: str) -> None:
    solution, panels = demo(name), kind_named(name).panels
    remarks = Remarks(solution, lambda field: 0, panels.spots)
    given = list(panels.given(solution, remarks, lambda field: 7, DEFAULT_THEME))
    found = list(panels.found(solution, remarks, DEFAULT_THEME))
    names = [panel.name for panel in (*given, *found)]
    assert given and len(set(names)) == len(names)
    assert not found if solution.item.outline_given else found[-1].name == "result"
    list(panels.signs(DEFAULT_THEME))


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_makes_new_questions_of_its_demo_item(name: str) -> None:
    kind, solution = kind_named(name), demo(name)
    varied = kind.vary(solution, count=1, seed=5, level=Level.SAME)
    assert varied == kind.vary(solution, count=1, seed=5, level=Level.SAME)


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_tells_of_its_keys(name: str) -> None:
    kind = kind_named(name)
    assert "options" in kind.key_glossary()
    assert kind.stops.include(Stop.of("options")) and kind.stops.example


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_names_what_its_own_pictures_are_made_of(name: str) -> None:
    """Each of several things that has a name of its own in a picture is called something, other ones otherwise."""
    solution = demo(name)
    things, board = kind_named(name).things(), plan_item(solution)
    assert dict(board.things) == things
    assert all("{name}" in text and text.format(name="7").count("7") == 1 for text in things.values())
    shown = {entry.subject for step in board.steps for figure in step.stills for entry in figure.entries}
    several = {subject for subject in shown if subject is not None and subject.name}
    called = [one_of_several(subject.thing, subject.name, "", things) for subject in several]
    assert None not in called and len(set(called)) == len(several) >= 2

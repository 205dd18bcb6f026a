"""A question of the turned outline told in every manner, shown to a teacher, and printed."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import pytest

from explainers.choice.stages.context import StageSettings
from explainers.document.composing import compose_file
from explainers.document.nodes import MapNode
from explainers.figure.layout import extent_of
from explainers.figure.model import Area, Role
from explainers.figure.paper import Paper, Picture, Printing, paper_theme
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.rigid_motion import Ring, Similarity
from explainers.intake.workspace import load_solution
from explainers.item.model import Manner
from explainers.kinds.turned_outline.drawing.cut_out import CutOut
from explainers.kinds.turned_outline.panels.maker import Panels
from explainers.kinds.turned_outline.paper import QuestionOnPaper
from explainers.kinds.turned_outline.solution import TurnedOutlineSolution, own_solution
from explainers.kinds.turned_outline.stages.look_stages import tell
from explainers.kinds.turned_outline.words.framing import framing
from explainers.storyboard.model import Step

ITEMS = Path(__file__).parents[3] / "items"
DEMO = ("sail-block", "letterbox-block", "button-block")
TELLING_WORDS = re.compile(
    r"\b(?:right|wrong|correct|fits|same|flipped|slip|mistake|answer|out|larger|smaller)\b", re.I
)


@cache
def solved(name: str) -> TurnedOutlineSolution:
    return own_solution(load_solution(ITEMS / f"{name}.yaml"))


@cache
def steps(name: str, manner: Manner, *, is_seen: bool = True) -> tuple[Step, ...]:
    settings = StageSettings(manner=manner, theme=DEFAULT_THEME, pause_s=30.0, is_seen=is_seen)
    return tuple(tell(solved(name), settings))


OUT = "out"  # of four wrong options
WORKED = ["corner", "round", "options", OUT, "keep", "answer", "remember"]
# Of these questions, one wrong option has other sides, which is seen at once; of the third, all are laid on.
SIFTED = ["sift.lengths", *["rule-out"] * 3]
HOW_OUT = {"sail-block": SIFTED, "letterbox-block": SIFTED, "button-block": ["rule-out"] * 4}


@pytest.mark.parametrize(
    ("manner", "stages"),
    [
        (Manner.WORKED_EXAMPLE, ["task", *WORKED]),
        (Manner.YOUR_TURN, ["task", "pause", *WORKED]),
        (Manner.QUESTION, ["task", "pause", "compare"]),
        (Manner.SOLUTION, ["recall", *WORKED]),
        (Manner.QUICK_CHECK, ["task", "pause", "together", OUT, "keep", "answer"]),
    ],
)
@pytest.mark.parametrize("name", DEMO)
def test_every_manner_has_its_stages_and_only_true_facts(name: str, manner: Manner, stages: list[str]) -> None:
    found = steps(name, manner)
    expected = [each for stage in stages for each in (HOW_OUT[name] if stage == OUT else [stage])]
    assert [step.stage for step in found] == expected
    for step in found:
        assert all(fact.holds() for fact in step.facts)
        assert step.picture.alt


@pytest.mark.parametrize("manner", Manner)
def test_unseen_it_has_the_same_words(manner: Manner) -> None:
    seen, unseen = (steps("sail-block", manner, is_seen=is_seen) for is_seen in (True, False))
    assert [(step.stage, step.narration) for step in seen] == [(step.stage, step.narration) for step in unseen]
    assert [len(step.beats) for step in seen] == [len(step.beats) for step in unseen]


@pytest.mark.parametrize("manner", [Manner.YOUR_TURN, Manner.QUESTION, Manner.QUICK_CHECK])
@pytest.mark.parametrize("name", DEMO)
def test_before_the_solution_nothing_tells_the_answer(name: str, manner: Manner) -> None:
    asked = [step for step in steps(name, manner) if not step.reveals]
    assert asked
    labels = [verdict.label for verdict in solved(name).verdicts]
    for step in asked:
        for words in (step.heading, step.picture.alt, *step.narration):
            assert not TELLING_WORDS.search(words), words
        assert not re.search(r"[Oo]ption [A-F]\b", " ".join(step.narration))
        assert len({step.picture.alt.count(f"Option {label}.") for label in labels}) == 1
        options = [entry for entry in step.picture.entries if entry.role == Role.OPTION]
        assert len({(type(e), e.fill, e.stroke, e.width) for e in options if isinstance(e, Area)}) == 2  # cloth, line


@pytest.mark.parametrize("name", DEMO)
def test_the_words_round_it_tell_nothing(name: str) -> None:
    for manner in Manner:
        frame = framing([(manner, solved(name))])
        for words in (frame.heading, *frame.about, *frame.routine):
            assert not re.search(r"[Oo]ption [A-F]\b", words)
    assert framing([(Manner.QUICK_CHECK, solved(name))]).routine != frame_of_look(name)


def frame_of_look(name: str) -> tuple[str, ...]:
    return framing([(Manner.WORKED_EXAMPLE, solved(name))]).routine


def on_paper(name: str, printing: Printing) -> QuestionOnPaper:
    return QuestionOnPaper(solution=solved(name), theme=paper_theme(DEFAULT_THEME), printing=printing)


def rings(picture: Picture, role: str) -> list[Ring]:
    areas = [entry for entry in picture.figure.entries if isinstance(entry, Area) and entry.role == role]
    return [ring for area in areas if area.stroke for ring in area.rings[:1]]


def assert_all_within(picture: Picture, printing: Printing, found: Sequence[Ring]) -> None:
    assert found
    for ring in found:
        box = extent_of(ring)
        assert picture.box.left <= box.left and box.right <= picture.box.right
        assert picture.box.bottom <= box.bottom and box.top <= picture.box.top
    assert picture.width_mm <= printing.width_mm + 1e-6
    assert picture.height_mm < printing.height_mm


@pytest.mark.parametrize("printing", [Printing(), Printing(large=True), Printing(paper=Paper.LETTER)])
@pytest.mark.parametrize("name", DEMO)
def test_on_paper_everything_has_room_and_no_option_is_larger(name: str, printing: Printing) -> None:
    asked = on_paper(name, printing).asked("1. Block")
    assert asked.labels == tuple(verdict.label for verdict in solved(name).verdicts)
    assert_all_within(asked.picture, printing, rings(asked.picture, Role.OUTLINE))
    options = asked.options or asked.picture
    assert_all_within(options, printing, rings(options, Role.OPTION))
    assert len(rings(options, Role.OPTION)) == len(asked.labels)
    if asked.options is not None:
        assert not rings(asked.picture, Role.OPTION) and not rings(asked.options, Role.OUTLINE)
    for picture in filter(None, (asked.picture, asked.options)):
        assert not TELLING_WORDS.search(picture.figure.alt)


@pytest.mark.parametrize("printing", [Printing(), Printing(large=True)])
@pytest.mark.parametrize("name", DEMO)
def test_the_outline_is_cut_out_at_the_scale_that_is_told(name: str, printing: Printing) -> None:
    item = on_paper(name, printing).cut_outs("1. Block")
    (page,) = item.pages
    (drawn,) = rings(page, Role.OUTLINE)
    assert_all_within(page, printing, [drawn])
    wide = extent_of(solved(name).outline.exterior).width
    assert extent_of(drawn).width * page.mm_per_unit == pytest.approx(wide * item.unit_mm)
    assert f"1 unit is {item.unit_mm:g} mm" in item.scale


def test_an_outline_of_hundreds_of_units_is_cut_out_too() -> None:
    large = solved("sail-block").outline.moved(Similarity(scale=100.0))
    part = CutOut(outline=large, theme=DEFAULT_THEME, width=18.0, height=20.0, mm_per_unit=10.0, word="outline")
    picture = part.picture("")
    assert 0.1 < part.unit_mm < 1.0
    assert_all_within(picture, Printing(), rings(picture, Role.OUTLINE))


@pytest.mark.parametrize("name", DEMO)
def test_the_answer_is_told_in_two_pictures_of_one_scale(name: str) -> None:
    first, last = on_paper(name, Printing()).answered()
    assert rings(first.picture, Role.OUTLINE) == rings(last.picture, Role.OUTLINE)
    assert f" {solved(name).key} " in last.caption and "in the ring" in first.caption


def test_a_teacher_sees_what_can_be_read_of_a_file_with_faults(tmp_path: Path) -> None:
    path = tmp_path / "torn-block.yaml"
    text = "item: torn-block\nkind: turned-outline\noutline:\n  corners: [[0, 0], [4, 0], [1, 3], [4, 3]]\n"
    path.write_text(text, encoding="utf-8")
    root = compose_file(path).root
    assert isinstance(root, MapNode)
    (panel,) = Panels().sketched(root, {"outline.corners"}, DEFAULT_THEME)
    (plain,) = Panels().sketched(root, set(), DEFAULT_THEME)
    assert panel.line == 3 and panel.lines == ("Corners: 1 (0, 0), 2 (4, 0), 3 (1, 3), 4 (4, 3)",)
    strokes = [
        {entry.stroke for entry in shown.pictures[0].figure.entries if entry.role == Role.OUTLINE}
        for shown in (panel, plain)
    ]
    assert DEFAULT_THEME.wrong in strokes[0] and DEFAULT_THEME.wrong not in strokes[1]
    path.write_text("item: torn-block\nkind: turned-outline\n", encoding="utf-8")
    assert Panels().sketched(compose_file(path).root, set(), DEFAULT_THEME) == ()

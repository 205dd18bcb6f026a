"""Every way of telling every demo item: it plans, runs on without a jump, and speaks of nothing that is not shown."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from demo_items import demo_items, each_demo_item
from strategies import random_item

from explainers.choice.model import Solution
from explainers.errors import LessonError
from explainers.figure.model import Entry, Figure, Label
from explainers.intake.workspace import load_lesson, load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.item.stops import Stop
from explainers.kinds.join_and_cut.model import EVERY_PIECE
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.join_and_cut.stages.piece_stages import STAGES_BY_MANNER
from explainers.lesson.planner import plan_lesson
from explainers.storyboard.model import Step, Storyboard
from explainers.storyboard.pacing import SCHOOL_PACE, pace
from explainers.storyboard.spoken import spoken_words
from explainers.words.names import the_piece

ITEMS = demo_items("join-and-cut")

# What a learner must not read or hear before the solution; the manners that ask first.
STOPS = ("ask-turn", "ask-meet", "ask-outline", "ask-options")
GIVING_AWAY = re.compile(r"\b(result|flipped\s+over|mirror\w*|slip\w*|right|wrong|key|correct|same)\b", re.IGNORECASE)


@cache
def solved(path: Path) -> Solution:
    return load_solution(path, pairs=True)


def lesson_of(path: Path, manner: Manner, asks: tuple[Stop, ...] = ()) -> Lesson:
    return Lesson(name="one", title="One lesson", parts=(LessonPart(show=path, manner=manner, asks=asks),))


@cache
def board_of(path: Path, manner: Manner, *, asking: bool = False) -> Storyboard:
    return plan_lesson(lesson_of(path, manner, every_stop(solved(path)) if asking else ()), [solved(path)])


def every_stop(solution: Solution) -> tuple[Stop, ...]:
    names = [placement.piece.name for placement in solution.placements]
    return (*(Stop(what, name) for name in names for what in ("turn", "meet")), Stop("outline"), Stop("options"))


def told(board: Storyboard) -> tuple[Step, ...]:
    return tuple(step for step in board.steps if step.stage not in ("opening", "closing"))


def drawn(figure: Figure) -> set[Entry]:
    """What is seen, but for what frames every picture and the clock, which goes when the time is over."""
    return {entry for entry in figure.entries if entry.group not in ("heading", "progress", "clock")}


CASES = [pytest.param(manner, False, id=manner) for manner in Manner]
CASES += [pytest.param(manner, True, id=f"{manner}-asking") for manner in Manner if manner.works_through]


def each_telling(test: Callable[..., None]) -> Any:
    """The item changes last: what is planned of it is kept for the tests that follow."""
    return pytest.mark.parametrize(("manner", "asking"), CASES)(each_item(test))


each_item = pytest.mark.parametrize("path", each_demo_item("join-and-cut"))


def test_every_manner_has_a_row_of_stages():
    assert set(STAGES_BY_MANNER) == set(Manner)


@each_telling
def test_a_telling_plans_and_paces(path: Path, manner: Manner, asking: bool):
    board = board_of(path, manner, asking=asking)
    timeline = pace(board)
    ids = [step.id for step in board.steps]
    assert len(set(ids)) == len(ids)
    assert all(re.fullmatch(r"[a-z0-9-]+(\.[a-z0-9-]+)+", step_id) for step_id in ids), "words can be tied to it"
    assert timeline.chapters[0].start == 0 and timeline.chapters[-1].end == timeline.frames
    titles = [chapter.title for chapter in timeline.chapters]
    assert len(set(titles)) == len(titles), "steps of one chapter stand together"
    for cue in timeline.cues:
        assert len(cue.lines) <= SCHOOL_PACE.shape.max_lines
        assert all(len(line) <= SCHOOL_PACE.shape.max_characters for line in cue.lines)
        assert spoken_words(cue.text) <= SCHOOL_PACE.shape.max_words
        assert cue.end_s - cue.start_s <= SCHOOL_PACE.longest_caption_s + 1e-6


@each_telling
def test_what_is_seen_runs_on(path: Path, manner: Manner, asking: bool):
    may_cut = ("task", "recall", "remember", "cut")
    for before, after in pairwise(told(board_of(path, manner, asking=asking))):
        if after.stage not in may_cut:
            assert drawn(before.picture) == drawn(after.stills[0]), f"{before.id} to {after.id}"


@each_telling
def test_nothing_is_spoken_of_that_has_not_been_shown(path: Path, manner: Manner, asking: bool):
    """Pieces and options are named only where a picture so far has shown them."""
    solution = solved(path)
    pieces = {f"piece-{n}": the_piece(p.piece.name) for n, p in enumerate(solution.placements, start=1)}
    shown: set[str] = set()
    for step in told(board_of(path, manner, asking=asking)):
        for figure in step.stills:
            shown |= {entry.group for entry in figure.entries if not isinstance(entry, Label)}
        words = " ".join((*step.narration, step.note))
        for group, name in pieces.items():
            assert group in shown or not re.search(rf"\b{re.escape(name)}\b", words), f"{step.id}: {words}"
        for label in re.findall(r"\b[Oo]ption ([A-F])\b", words):
            assert any(group.lower() == f"option-{label.lower()}" for group in shown), f"{step.id}: {words}"


@each_item
@pytest.mark.parametrize("manner", [manner for manner in Manner if manner.asks_to_try])
def test_a_question_gives_nothing_away_before_its_pause_is_over(path: Path, manner: Manner):
    steps = told(board_of(path, manner))
    ids = [step.id for step in steps]
    for step in steps[: ids.index(f"{path.stem}.pause") + 1]:
        for words in (*step.narration, step.heading, step.chapter, step.picture.alt):
            assert not GIVING_AWAY.search(words), words
        names = [name for figure in step.stills for entry in figure.entries for name in (entry.id, entry.group)]
        assert not [name for name in names if re.search(r"result|flip|mirror|slip|right|wrong|key|same", name)]


@each_item
def test_a_question_alone_never_comes_to_its_solution(path: Path):
    board = board_of(path, Manner.QUESTION)
    assert [step.stage for step in told(board)] == ["task", "pause", "compare"]
    names = {entry.id for step in board.steps for figure in step.stills for entry in figure.entries}
    assert not {name for name in names if "outline" in name}


@each_item
def test_a_solution_alone_is_the_worked_example_without_the_task(path: Path):
    whole = [step.id for step in told(board_of(path, Manner.WORKED_EXAMPLE))]
    alone = [step.id for step in told(board_of(path, Manner.SOLUTION))]
    assert alone == [f"{path.stem}.recall", *whole[1:]]


@each_item
def test_a_quick_check_shows_and_names_no_piece(path: Path):
    board = board_of(path, Manner.QUICK_CHECK)
    stages = [step.stage for step in told(board)]
    assert stages[:3] == ["task", "pause", "together"] and stages[-1] == "answer"
    assert sum(stage in ("rule-out", "keep") or stage.startswith("sift.") for stage in stages) >= 2
    groups = {entry.group for step in board.steps for figure in step.stills for entry in figure.entries}
    assert not {group for group in groups if group.startswith(("piece", "base"))}
    said = " ".join(sentence for step in board.steps for sentence in (*step.narration, step.note)).lower()
    for placement in solved(path).placements:
        assert placement.piece.name not in re.findall(r"[a-z0-9-]+", said)


@each_item
def test_the_alt_text_of_a_quick_check_tells_the_outline_and_every_option(path: Path):
    (task,) = (step for step in board_of(path, Manner.QUICK_CHECK).steps if step.stage == "task")
    count = len(solved(path).verdicts)
    assert task.picture.alt.count("An outline with") == count + 1
    assert all(f"Option {label}." in task.picture.alt for label in "ABCDEF"[:count])


@each_item
def test_a_stop_stands_before_what_it_asks_for_and_shows_nothing_of_it(path: Path):
    board = board_of(path, Manner.WORKED_EXAMPLE, asking=True)
    ids = [step.id for step in board.steps]
    steps = dict(zip(ids, board.steps, strict=True))
    for name in [placement.piece.name for placement in solved(path).placements]:
        for what in ("turn", "meet"):
            at = ids.index(f"{path.stem}.{name}.ask-{what}")
            assert ids[at + 1] == f"{path.stem}.{name}.{what}"
            stop = steps[ids[at]]
            assert stop.pause_s == pytest.approx(6.0)
            assert not re.search(r"\d|clockwise|no turn|half|quarter", " ".join(stop.narration))
            assert drawn(stop.picture) == drawn(board.steps[at - 1].picture)
    # Counting the corners answers how many the outline has.
    at = ids.index(f"{path.stem}.ask-outline")
    assert ids[at + 1 : at + 3] == [f"{path.stem}.ahead", f"{path.stem}.outline"]
    assert ids[ids.index(f"{path.stem}.ask-options") - 1] == f"{path.stem}.options"


@each_item
def test_stops_change_no_other_step(path: Path):
    plain = told(board_of(path, Manner.YOUR_TURN))
    asking = [step for step in told(board_of(path, Manner.YOUR_TURN, asking=True)) if step.stage not in STOPS]
    assert [(step.id, step.narration, [drawn(figure) for figure in step.stills]) for step in plain] == [
        (step.id, step.narration, [drawn(figure) for figure in step.stills]) for step in asking
    ]


def test_a_stop_before_each_piece():
    path = next(path for path in ITEMS if path.stem == "kite-block")
    board = plan_lesson(lesson_of(path, Manner.SOLUTION, (Stop(EVERY_PIECE),)), [solved(path)])
    assert [step.id for step in board.steps if step.stage in STOPS] == [
        f"kite-block.{name}.ask-meet" for name in ("wing", "sail", "notch")
    ]


def test_the_pause_of_a_quick_check_is_for_the_options_alone_and_a_written_one_wins():
    for path in ITEMS:
        (pause,) = (step for step in board_of(path, Manner.QUICK_CHECK).steps if step.stage == "pause")
        (longer,) = (step for step in board_of(path, Manner.YOUR_TURN).steps if step.stage == "pause")
        assert 15.0 <= pause.pause_s <= longer.pause_s
    part = replace(lesson_of(ITEMS[0], Manner.QUICK_CHECK).parts[0], pause_s=12.0)
    lesson = replace(lesson_of(ITEMS[0], Manner.QUICK_CHECK), parts=(part,))
    (pause,) = (step for step in plan_lesson(lesson, [solved(ITEMS[0])]).steps if step.stage == "pause")
    assert pause.pause_s == pytest.approx(12.0)


def test_items_shown_in_every_manner_stand_in_one_lesson():
    parts = [LessonPart(show=path, manner=manner) for path, manner in zip(ITEMS, list(Manner)[1:], strict=False)]
    lesson = Lesson(name="all", title="All of them", parts=tuple(parts))
    board = plan_lesson(lesson, [solved(part.show) for part in parts])
    assert len(pace(board).chapters) >= 2 + len(parts)


def test_a_stop_before_a_piece_that_is_not_there_is_refused_with_the_pieces_there_are(tmp_path: Path):
    shutil.copy(next(path for path in ITEMS if path.stem == "kite-block"), tmp_path)
    path = tmp_path / "lesson.yaml"
    path.write_text("lesson: one\nparts:\n  - {show: kite-block.yaml,\n     ask: [wing.turn, wings.turn, options]}\n")
    with pytest.raises(LessonError) as caught:
        load_lesson(path)
    (fault,) = caught.value.faults
    assert (fault.line, fault.field) == (4, "parts[0].ask")
    assert "no piece called wings" in fault.message and "wing, sail or notch" in fault.fix


def test_every_manner_of_generated_items_is_told(cases: Callable[[int, int], int]):
    told_items = 0
    for seed in range(cases(60, 600)):
        solution = solve(random_item(seed), pairs=True)
        if not solution.sound:
            continue
        told_items += 1
        path = Path(f"{solution.item.name}.yaml")
        for manner in Manner:
            asks = every_stop(solution) if manner.works_through else ()
            board = plan_lesson(lesson_of(path, manner, asks), [solution])
            pace(board)
            if manner is Manner.QUICK_CHECK:
                said = " ".join(sentence for step in board.steps for sentence in step.narration)
                names = [the_piece(placement.piece.name) for placement in solution.placements]
                assert not [name for name in names if re.search(rf"\b{re.escape(name)}\b", said)], said
        if told_items >= cases(3, 60):
            break
    assert told_items >= cases(3, 30)

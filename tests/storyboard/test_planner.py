"""Storyboards: what runs on from step to step, what is seen to turn, what ids are made from, what is not given away."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from demo_items import demo_items, each_demo_item

from explainers.choice.question import Option
from explainers.choice.sieves.sieve import SieveFact
from explainers.choice.walk import WalkFact
from explainers.errors import UnsoundItemError
from explainers.figure.model import Area, Circle, Label, Lines
from explainers.figure.motion import Glide, Motion
from explainers.intake.workspace import load_lesson, load_solution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_item, plan_lesson
from explainers.storyboard.model import Still, Storyboard

ITEMS = demo_items("join-and-cut")
SIEVES = ("corners", "holes", "inward", "angles", "neighbours", "lengths")
LESSON = Path(__file__).parents[2] / "items" / "first-blocks.yaml"


@pytest.fixture(scope="module", params=each_demo_item())
def board(request: pytest.FixtureRequest) -> Storyboard:
    return plan_item(load_solution(request.param))


@pytest.fixture(scope="module")
def lesson_board() -> Storyboard:
    return plan_lesson(*load_lesson(LESSON))


def motions(board: Storyboard) -> list[tuple[str, Motion]]:
    return [(step.id, beat) for step in board.steps for beat in step.beats if isinstance(beat, Motion)]


def test_the_demo_has_the_items_that_it_should():
    turns = [p.turn_deg for path in ITEMS for p in load_solution(path).placements]
    assert len(ITEMS) >= 4
    assert any(abs(turn - 135) < 1e-6 for turn in turns)
    assert any(abs(turn + 135) < 1e-6 for turn in turns)
    assert any(abs(turn - 180) < 1e-6 for turn in turns)
    assert any(turn % 15 > 1e-6 for turn in turns), "an odd angle"


def test_every_motion_leads_smoothly_into_the_still_that_follows(board: Storyboard):
    for step_id, motion in motions(board):
        nearly = {entry.id: entry for entry in motion.figure_at(1.0 - 1e-7).entries}
        for entry in motion.end.entries:
            shown = nearly.get(entry.id)
            assert shown is not None, f"{step_id}: {entry.id} jumps in"
            match entry:
                case Label():
                    assert shown.at == pytest.approx(entry.at, abs=1e-3), f"{step_id}: {entry.id}"
                case Circle():
                    assert shown.centre == pytest.approx(entry.centre, abs=1e-3), f"{step_id}: {entry.id}"
                case Area():
                    assert len(shown.rings) == len(entry.rings)
                    for near, there in zip(shown.rings, entry.rings, strict=True):
                        assert near[0] == pytest.approx(there[0], abs=1e-3), f"{step_id}: {entry.id}"
                case Lines():
                    near_tip, tip = shown.segments[0][0], entry.segments[0][0]
                    assert near_tip == pytest.approx(tip, abs=1e-3), f"{step_id}: {entry.id}"


def test_a_motion_is_its_start_and_its_end_exactly(board: Storyboard):
    for _, motion in motions(board):
        assert motion.figure_at(0.0) is motion.start
        assert motion.figure_at(1.0) is motion.end


def test_what_is_seen_runs_on_from_step_to_step(board: Storyboard):
    """All but the heading and the stitches: the next step starts with what the last one left, or says what is new."""
    cuts = [
        after.id
        for before, after in pairwise(board.steps)
        if {e for e in before.picture.entries if e.group not in ("heading", "progress")}
        != {e for e in after.stills[0].entries if e.group not in ("heading", "progress")}
    ]
    may_cut = (r"\.task$", r"\.remember$", r"\.cut$")
    assert [cut for cut in cuts if not any(re.search(pattern, cut) for pattern in may_cut)] == []


def test_a_piece_is_seen_to_turn_as_far_and_the_way_that_was_computed():
    for path in ITEMS:
        solution = load_solution(path)
        steps = {step.id: step for step in plan_item(solution).steps}
        for index, placement in enumerate(solution.placements):
            step = steps[f"{solution.item.name}.{placement.piece.name}.turn"]
            turns = [
                move.turn_deg
                for beat in step.beats
                if isinstance(beat, Motion)
                for move in beat.moves
                if isinstance(move, Glide) and move.group == f"piece-{index + 1}" and move.turn_deg
            ]
            assert sum(turns) == pytest.approx(placement.turn_deg)


def test_a_turn_takes_about_a_second_for_sixty_degrees():
    # Shepard & Metzler 1971: about 60 degrees a second, the rate from memory; see the shared references, section 4
    solution = load_solution(ITEMS[0].with_name("corner-block.yaml"))
    (step,) = (step for step in plan_item(solution).steps if step.id == "corner-block.flag.turn")
    assert max(beat.seconds for beat in step.beats if isinstance(beat, Motion)) == pytest.approx(135 / 60)


def gone(board: Storyboard) -> list[tuple[str, str]]:
    """(stage, label) of each option that is ruled out, in the order in which they are."""
    codes = {v.code: v.label for v in load_solution(LESSON.with_name(f"{board.name}.yaml")).verdicts}
    found = []
    for step in board.steps:
        if step.stage.startswith("sift."):
            (fact,) = (fact for fact in step.facts if isinstance(fact, SieveFact))
            found += [("sift", label) for label in fact.labels]
        elif step.stage == "rule-out" and step.subject is not None:
            found.append(("rule-out", codes[step.subject.name]))
    return found


def test_each_wrong_option_is_gone_exactly_once_in_a_sieve_or_in_a_step_of_its_own(board: Storyboard):
    wrong = [v for v in load_solution(LESSON.with_name(f"{board.name}.yaml")).verdicts if not v.same]
    told = gone(board)
    assert sorted(label for _, label in told) == [verdict.label for verdict in wrong]
    assert [stage for stage, _ in told] == sorted((stage for stage, _ in told), reverse=True), "sieves come first"
    for verdict in wrong:
        assert not verdict.mirrored or ("rule-out", verdict.label) in told, "a flip is never sifted"


def test_an_option_that_passes_every_sieve_is_ringed_where_it_differs_or_walked_round(board: Storyboard):
    mirrored = {v.code: v.mirrored for v in load_solution(LESSON.with_name(f"{board.name}.yaml")).verdicts}
    for step in board.steps:
        if step.stage != "rule-out":
            continue
        assert step.subject is not None
        ids = {entry.id for entry in step.picture.entries}
        if any(isinstance(fact, WalkFact) for fact in step.facts):
            assert mirrored[step.subject.name]
            assert sum(each.startswith("walker-") for each in ids) == 2 and "differs-ring" not in ids, step.id
            continue
        ring = step.picture.entry("differs-ring")
        place = step.picture.entry("differs")
        assert isinstance(ring, Circle)
        assert isinstance(place, Area)
        assert _inside(ring.centre, place.rings), step.id


def test_the_answer_comes_last_among_the_options(board: Storyboard):
    order = [step.stage.partition(".")[0] for step in board.steps]
    order = [stage for stage in order if stage in ("options", "sift", "rule-out", "keep", "answer")]
    assert [stage for at, stage in enumerate(order) if stage not in order[:at]] == [
        stage for stage in ("options", "sift", "rule-out", "keep", "answer") if stage in order
    ]
    assert order[-2:] == ["keep", "answer"] and order.count("keep") == 1


def test_each_sieve_has_a_step_of_its_own_that_marks_what_it_speaks_of(board: Storyboard):
    stages = [step.stage for step in board.steps if step.stage.startswith("sift.")]
    assert len(set(stages)) == len(stages)
    assert set(stages) <= {f"sift.{name}" for name in SIEVES}
    for step in board.steps:
        if step.stage in stages:
            (fact,) = (fact for fact in step.facts if isinstance(fact, SieveFact))
            signs = {entry.id for entry in step.picture.entries if entry.id.endswith("-sign")}
            assert {f"option-{label.lower()}-sign" for label in fact.labels} <= {sign.lower() for sign in signs}
            motions = [beat for beat in step.beats if isinstance(beat, Motion)]
            assert [motion.after_sentences for motion in motions] == sorted(m.after_sentences for m in motions)
            assert all(0 <= motion.after_sentences <= len(step.narration) for motion in motions)


def test_ids_come_from_content_so_that_a_new_option_renumbers_nothing():
    solution = load_solution(ITEMS[0].with_name("corner-block.yaml"))
    before = [step.id for step in plan_item(solution).steps]
    extra = Option(corners=((0, 0), (4, 0), (4, 4), (0, 4)))
    grown = solve(replace(solution.item, options=(extra, *solution.item.options)))
    after = [step.id for step in plan_item(grown).steps]
    assert after == before, "the square has too few corners, so that the same sieve rules it out"
    # What passes every sieve has a step more, and no other step is called otherwise.
    solution = load_solution(ITEMS[0].with_name("tag-block.yaml"))
    passing = next(step.subject for step in plan_item(solution).steps if step.stage == "rule-out")
    assert passing is not None
    pairs = zip(solution.item.options, solution.verdicts, strict=True)
    fewer = tuple(option for option, verdict in pairs if verdict.code != passing.name)
    before = [step.id for step in plan_item(solve(replace(solution.item, options=fewer))).steps]
    after = [step.id for step in plan_item(solution).steps]
    assert [step_id for step_id in after if step_id in before] == before
    assert len(after) == len(before) + 1


def test_an_unsound_item_is_not_told():
    solution = load_solution(ITEMS[0].with_name("corner-block.yaml"))
    options = tuple(option for option in solution.item.options if option.corners or option.slip)
    unsound = solve(replace(solution.item, options=options))
    assert not unsound.sound
    with pytest.raises(UnsoundItemError, match="corner-block"):
        plan_item(unsound)


def test_your_turn_has_a_calm_countdown_and_then_the_solution(lesson_board: Storyboard):
    (pause,) = (step for step in lesson_board.steps if step.stage == "pause")
    assert pause.pause_s == pytest.approx(30.0)
    assert all(isinstance(beat, Still) for beat in pause.beats), "no animation"
    # WCAG 2.2, 2.3.1 allows three flashes a second; the countdown changes once in several seconds
    assert all(beat.hold_s >= 1.0 for beat in pause.beats if isinstance(beat, Still) and beat.hold_s)
    after = [step.id for step in lesson_board.steps][[s.id for s in lesson_board.steps].index(pause.id) + 1 :]
    assert after[0] == "border-block.close-up"
    assert "border-block.answer" in after


def test_a_teachers_own_words_replace_the_tools_and_are_marked():
    lesson, solutions = load_lesson(LESSON)
    own = replace(lesson, words=(("corner-block.flag.turn", "Now give the flag its turn."),))
    (step,) = (step for step in plan_lesson(own, solutions).steps if step.id == "corner-block.flag.turn")
    assert step.narration == ("Now give the flag its turn.",)
    assert step.teachers_own


def test_words_for_a_step_that_is_not_there_change_nothing():
    lesson, solutions = load_lesson(LESSON)
    own = replace(lesson, words=(("corner-block.flg.turn", "Now."),))
    assert plan_lesson(own, solutions) == plan_lesson(lesson, solutions)


GIVING_AWAY = re.compile(r"\b(result|flip\w*|mirror\w*|slip\w*|right|wrong|key|correct|same|left-out)\b", re.IGNORECASE)


def test_nothing_before_the_solution_tells_the_answer(lesson_board: Storyboard):
    for step in lesson_board.steps:
        ids = [entry.id for figure in step.stills for entry in figure.entries]
        ids += [entry.group for figure in step.stills for entry in figure.entries]
        assert not [name for name in ids if re.search(r"result|flip|mirror|slip|right|wrong|key|same", name)], step.id
        assert not GIVING_AWAY.search(step.chapter)
        if step.stage in ("task", "pause"):
            assert not GIVING_AWAY.search(step.picture.alt), step.picture.alt
            assert not GIVING_AWAY.search(step.heading)
            assert all(not GIVING_AWAY.search(entry.alt) for entry in step.picture.entries)


def _inside(point: tuple[float, float], rings: tuple[tuple[tuple[float, float], ...], ...]) -> bool:
    x, y = point
    crossings = 0
    for ring in rings:
        for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
            if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
                crossings += 1
    return crossings % 2 == 1

"""What a sieve counts is marked in its step: as many dots on the outline and on each option as are said."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from demo_items import demo_items
from oracles import counted
from strategies import random_item

from explainers.choice.model import Solution
from explainers.choice.sieves.counts import Counted, CountSieve
from explainers.choice.sieves.lengths import LengthSieve
from explainers.choice.sieves.sieve import SieveFact
from explainers.choice.walk import WalkFact
from explainers.figure.model import Area, Circle, Entry, Figure, Lines
from explainers.figure.motion import Glide, Motion
from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_item, plan_lesson
from explainers.storyboard.model import Step


def told(cases: Callable[[int, int], int]) -> Iterator[tuple[Solution, tuple[Step, ...]]]:
    """Demo items and generated ones, worked through."""
    for path in demo_items():
        yield (solution := load_solution(path)), plan_item(solution).steps
    for seed in range(cases(4, 150)):
        yield (solution := solve(random_item(seed))), plan_item(solution).steps


@pytest.fixture(scope="module")
def worked(cases: Callable[[int, int], int]) -> list[tuple[Solution, tuple[Step, ...]]]:
    return list(told(cases))


def of(step: Step, kind: type) -> list:
    return [fact for fact in step.facts if isinstance(fact, kind)]


def pointed(figure: Figure, owner: str) -> tuple[list[Circle], list[Lines]]:
    """The dots and the wide lines on the outline, or on an option."""
    ours = [entry for entry in figure.entries if "pointed" in entry.id and entry.id.lower().startswith(owner)]
    return [e for e in ours if isinstance(e, Circle)], [e for e in ours if isinstance(e, Lines)]


def owners(fact: SieveFact) -> Iterator[tuple[str, float]]:
    """The start of the ids of what is marked on each, and what it comes to there."""
    yield "outline-", fact.there
    for option in fact.options:
        yield f"option-{option.label.lower()}-", option.figure


def drawn_corners(figure: Figure, owner: str) -> list[tuple[float, float]]:
    """Of the outline or of an option, as the picture has them."""
    group = owner.rstrip("-")
    return [
        point
        for entry in figure.entries
        if isinstance(entry, Area) and entry.group.lower() == group
        for ring in entry.rings
        for point in ring
    ]


def test_as_many_dots_are_seen_as_are_counted(worked: list[tuple[Solution, tuple[Step, ...]]]) -> None:
    seen = 0
    for _, steps in worked:
        for step in steps:
            for fact in of(step, CountSieve):
                for owner, figure in owners(fact):
                    dots, lines = pointed(step.picture, owner)
                    if fact.counted is Counted.HOLES:  # each is drawn round, with as many strokes as it has sides
                        outline = (
                            fact.outline
                            if owner == "outline-"
                            else next(o.outline for o in fact.options if owner == f"option-{o.label.lower()}-")
                        )
                        assert not dots and len(outline.holes) == figure
                        assert sum(len(line.segments) for line in lines) == sum(map(len, outline.holes)), step.id
                    else:
                        assert len(dots) == figure and not lines, (step.id, owner)
                        assert len({dot.centre for dot in dots}) == len(dots)
                    seen += 1
    assert seen


def test_every_dot_lies_on_a_corner_and_every_stroke_along_a_side(
    worked: list[tuple[Solution, tuple[Step, ...]]],
) -> None:
    for _, steps in worked:
        for step in steps:
            for fact in of(step, SieveFact):
                for owner, _ in owners(fact):
                    corners = drawn_corners(step.picture, owner)
                    dots, lines = pointed(step.picture, owner)
                    ends = [end for line in lines for stroke in line.segments for end in stroke]
                    assert dots or ends or not fact.there or isinstance(fact, CountSieve), step.id
                    for place in (*(dot.centre for dot in dots), *ends):
                        assert min(math.dist(place, corner) for corner in corners) < 0.02, (step.id, owner)


def test_two_sides_that_are_compared_are_marked_in_their_true_proportion(
    worked: list[tuple[Solution, tuple[Step, ...]]],
) -> None:
    for _, steps in worked:
        for step in steps:
            for fact in of(step, LengthSieve):
                for owner, figure in owners(fact):
                    _, (line,) = pointed(step.picture, owner)
                    lengths = sorted(math.dist(*stroke) for stroke in line.segments)
                    assert len(lengths) == 2 and lengths[1] / lengths[0] == pytest.approx(figure, rel=1e-6), step.id


def test_marks_come_after_the_invitation_and_signs_after_the_reason(
    worked: list[tuple[Solution, tuple[Step, ...]]],
) -> None:
    """Learners count first: nothing is marked until it has been said what to count, nobody is out before the count."""
    for _, steps in worked:
        for step in steps:
            for fact in of(step, SieveFact):
                motions = [beat for beat in step.beats if isinstance(beat, Motion)]
                if step is next(s for s in steps if of(s, SieveFact)):
                    assert not any("pointed" in entry.id for entry in motions[0].start.entries), step.id
                else:  # what an earlier sieve marked goes before anything is said
                    clearing, *motions = motions
                    assert clearing.after_sentences == 0
                    assert not any("pointed" in entry.id for entry in clearing.end.entries), step.id
                where = step.narration.index(fact.of_outline())
                assert motions[0].after_sentences == where and where >= 1
                signs = [_signs(motion.end) - _signs(motion.start) for motion in motions]
                assert not any(signs[:-1]) and len(signs[-1]) == len(fact.options), step.id
                assert motions[-1].after_sentences is not None
                assert motions[-1].after_sentences > max(step.narration.index(said) for said in fact.of_options())


def test_a_mark_never_jumps_from_one_corner_to_another(worked: list[tuple[Solution, tuple[Step, ...]]]) -> None:
    """What is called the same before and after a motion is at the same place: all else fades."""
    for _, steps in worked:
        for step in steps:
            for motion in (beat for beat in step.beats if isinstance(beat, Motion)):
                before = {entry.id: entry for entry in motion.start.entries}
                for entry in motion.end.entries:
                    if "pointed" not in entry.id or entry.id not in before:
                        continue
                    old = before[entry.id]
                    if isinstance(entry, Circle) and isinstance(old, Circle):
                        assert entry.centre == pytest.approx(old.centre, abs=1e-9), step.id
                    elif isinstance(entry, Lines) and isinstance(old, Lines):
                        assert entry.segments == old.segments, step.id


def _signs(figure: Figure) -> set[str]:
    return {entry.id for entry in figure.entries if entry.id.endswith("-sign")}


# The markers of a walk


def test_markers_start_and_end_on_corners_and_pass_along_sides(
    worked: list[tuple[Solution, tuple[Step, ...]]],
) -> None:
    walked = 0
    for _, steps in worked:
        for step in steps:
            for beat in step.beats:
                glides = (
                    [m for m in beat.moves if isinstance(m, Glide) and m.group.startswith("walker")]
                    if isinstance(beat, Motion)
                    else []
                )
                if not glides:
                    continue
                (fact,) = of(step, WalkFact)
                assert {g.group for g in glides} == {f"walker-{fact.label}-{o}" for o in ("outline", "option")}
                for glide in glides:
                    entry = beat.start.entry(glide.group)
                    assert isinstance(entry, Circle)
                    ring = _ring_of(beat.start, glide.group, fact, entry.centre)
                    x, y = entry.centre
                    stops = [(x + dx, y + dy) for dx, dy in ((0.0, 0.0), *glide.via, glide.by)]
                    at = [_corner(ring, stop) for stop in stops]
                    # Clockwise from corner to corner: each the one before it in an anticlockwise ring.
                    steps_on = {(one - other) % len(ring) for one, other in pairwise(at)}
                    assert steps_on == {1}, step.id
                    assert len(set(at)) == len(at)
                    end = beat.end.entry(glide.group)
                    assert isinstance(end, Circle) and end.centre == pytest.approx(stops[-1], abs=1e-6)
                walked += 1
    assert walked


def _ring_of(figure: Figure, walker: str, fact: WalkFact, start: tuple[float, float]) -> list[tuple[float, float]]:
    """The ring that is walked round, anticlockwise as it is drawn: the one on which the marker starts."""
    group = "outline" if walker.endswith("-outline") else f"option-{fact.label.lower()}"
    rings = {ring for e in figure.entries if isinstance(e, Area) and e.group.lower() == group for ring in e.rings}
    (ring,) = (ring for ring in rings if min(math.dist(corner, start) for corner in ring) < 0.02)
    area = sum(a * d - b * c for (a, b), (c, d) in zip(ring, (*ring[1:], ring[0]), strict=True))
    return list(ring if area > 0 else ring[::-1])


def _corner(ring: list[tuple[float, float]], place: tuple[float, float]) -> int:
    found = [index for index, corner in enumerate(ring) if math.dist(corner, place) < 0.02]
    assert len(found) == 1, place
    return found[0]


def test_the_start_of_a_walk_is_ringed_and_what_comes_is_dotted_on_both(
    worked: list[tuple[Solution, tuple[Step, ...]]],
) -> None:
    for _, steps in worked:
        for step in steps:
            for fact in of(step, WalkFact):
                shown = [f for f in step.stills if any(e.id.startswith("walk-") for e in f.entries)]
                assert shown, step.id
                for figure in shown:
                    ids = [entry.id for entry in figure.entries]
                    starts = (f"walk-{fact.label}-outline-start", f"walk-{fact.label}-option-start")
                    assert [ids.count(start) for start in starts] == [1, 1]
                    for whose in ("outline", "option"):
                        dots = [i for i in ids if re.fullmatch(rf"walk-[A-Z]-{whose}-pointed-\d+", i)]
                        assert len(dots) == (0 if fact.sides_on(fact.outline) and not fact.corners_on(fact.outline)
                                             else len(fact.features)), step.id  # fmt: skip


def test_a_motion_never_waits_for_a_sentence_that_is_not_said(worked: list[tuple[Solution, tuple[Step, ...]]]) -> None:
    for _, steps in worked:
        for step in steps:
            afters = [b.after_sentences for b in step.beats if isinstance(b, Motion) and b.after_sentences is not None]
            assert afters == sorted(afters), step.id
            assert all(0 <= after <= len(step.narration) for after in afters), step.id


@pytest.mark.parametrize("manner", [manner for manner in Manner if manner.solves])
def test_each_wrong_option_is_gone_once_before_the_answer_in_every_manner(manner: Manner) -> None:
    for path in demo_items():
        solution = load_solution(path)
        lesson = Lesson(name="one", title="One", parts=(LessonPart(show=path, manner=manner),))
        steps = plan_lesson(lesson, [solution]).steps
        codes = {verdict.code: verdict.label for verdict in solution.verdicts}
        gone = [label for step in steps for fact in of(step, SieveFact) for label in fact.labels]
        gone += [codes[s.subject.name] for s in steps if s.stage == "rule-out" and s.subject is not None]
        assert sorted(gone) == [verdict.label for verdict in solution.verdicts if not verdict.same], path.stem
        stages = [step.stage.split(".")[0] for step in steps]
        kept = stages.index("keep")
        assert all(at < kept for at, stage in enumerate(stages) if stage in ("sift", "rule-out")), path.stem
        assert stages.index("answer") == kept + 1


def test_the_dots_of_the_demo_are_those_of_the_oracle() -> None:
    """Read from the picture alone: the corners of one kind, by the rings as they are drawn."""
    path = next(path for path in demo_items() if path.stem == "border-block")
    steps = plan_item(load_solution(Path(path))).steps
    (step,) = (step for step in steps if step.stage == "sift.inward")
    (fact,) = of(step, CountSieve)
    ring = _ring(step.picture.entries, "outline")
    by_hand = {corner for corner, seen in zip(ring, counted.seen(ring), strict=True) if seen.kind == "inward"}
    dots, _ = pointed(step.picture, "outline-")
    assert {_corner(list(ring), dot.centre) for dot in dots} == {list(ring).index(corner) for corner in by_hand}
    assert fact.there == len(by_hand) == 3


def _ring(entries: tuple[Entry, ...], group: str) -> tuple[tuple[float, float], ...]:
    (ring,) = {entry.rings[0] for entry in entries if isinstance(entry, Area) and entry.group == group}
    return ring

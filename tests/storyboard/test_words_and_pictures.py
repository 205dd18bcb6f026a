"""What is said is what is marked: every place that a fact of a step speaks of stands out in its pictures, no other."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import cache, partial
from pathlib import Path

import pytest
from demo_items import demo_items, each_demo_item
from places_shown import shown_in
from strategies import random_item
from words_and_pictures import faults_of_choice, faults_of_step

from explainers.choice.model import Solution
from explainers.figure.model import Circle, Entry, Figure, Role
from explainers.figure.motion import Motion
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_lesson, load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.item.stops import Stop
from explainers.kinds.join_and_cut.model import EVERY_PIECE
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_lesson
from explainers.storyboard.model import Step, Still

LESSONS = sorted(path for path in demo_items()[0].parent.glob("*.yaml") if path.read_text().startswith("lesson:"))
STOPS = (Stop("outline"), Stop("options"))


def steps_of(solution: Solution, manner: Manner, *, asking: bool = False) -> tuple[Step, ...]:
    is_pieces = hasattr(solution, "placements")
    asks = (*STOPS, Stop(EVERY_PIECE)) if asking and is_pieces else (Stop("options"),) if asking else ()
    part = LessonPart(show=Path("one.yaml"), manner=manner, asks=asks)
    return plan_lesson(Lesson(name="one", title="One", parts=(part,)), [solution]).steps


def faults(steps: Iterable[Step], solutions: Iterable[Solution]) -> Iterator[str]:
    by_name = {solution.item.name: solution for solution in solutions}
    for step in steps:
        if step.item:
            yield from faults_of_step(step, by_name[step.item])
            if step.choice is not None:
                for chosen in step.choice.options:
                    yield from faults_of_choice(chosen, by_name[step.item])


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_in_every_demo_lesson(path: Path) -> None:
    lesson, solutions = load_lesson(path)
    assert not list(faults(plan_lesson(lesson, solutions).steps, solutions))


@pytest.mark.parametrize("path", each_demo_item())
def test_in_every_manner_of_every_demo_item(path: Path) -> None:
    solution = load_solution(path, pairs=True)
    for manner in Manner:
        assert not list(faults(steps_of(solution, manner, asking=manner.works_through), [solution])), manner


def test_in_generated_items(cases: Callable[[int, int], int]) -> None:
    manners = list(Manner)
    for seed in range(cases(15, 300)):
        solution = solve(random_item(seed))
        told = (Manner.YOUR_TURN, manners[seed % len(manners)])  # the first tells every option when it is chosen, too
        for manner in dict.fromkeys(told):
            assert not list(faults(steps_of(solution, manner), [solution])), (seed, manner)


# It must be able to fail: wherever something stands out, it is taken away, and something else is put beside it.


@cache
def planned() -> tuple[tuple[Solution, Step], ...]:
    found = []
    for path in demo_items():
        if path.stem in ("border-block", "comet-block", "lattice-block", "letterbox-block", "tag-block", "sail-block"):
            solution = load_solution(path)
            found += [(solution, step) for step in steps_of(solution, Manner.YOUR_TURN) if step.item]
    return tuple(found)


def with_figures(step: Step, change: Callable[[Figure], Figure]) -> Step:
    """The step with each of its pictures changed."""
    beats = [
        replace(beat, figure=change(beat.figure))
        if isinstance(beat, Still)
        else replace(beat, start=change(beat.start), end=change(beat.end))
        for beat in step.beats
    ]
    for index, beat in enumerate(beats):
        if isinstance(beat, Motion):  # labels may yield within a motion: it starts and ends in its stills all the same
            beats[index] = replace(beat, start=_figure(beats[index - 1]), end=_figure(beats[index + 1]))
    return replace(step, beats=tuple(beats))


def _figure(beat: object) -> Figure:
    assert isinstance(beat, Still)
    return beat.figure


def standing_out(step: Step) -> list[Entry]:
    """Each entry that stands out in the step's own picture."""
    # What these show is shown by the arc, by a ring round the place, or by the ring round the dot as well.
    quiet = ("turn-quarters", "differs", "corners-made")
    alone = [replace(step.picture, entries=(entry,)) for entry in step.picture.entries if entry.id not in quiet]
    empty = shown_in(replace(step.picture, entries=()), DEFAULT_THEME)
    return [figure.entries[0] for figure in alone if shown_in(figure, DEFAULT_THEME) != empty]


def test_whatever_is_taken_away_is_missed() -> None:
    taken: set[str] = set()
    for solution, step in planned():
        if step.stage == "compare" or not step.facts:
            continue
        if step.stage in ("ask-turn", "ask-meet", "answer"):  # over the picture of the step before
            continue
        for entry in standing_out(step):
            bare = with_figures(step, partial(_without, gone=entry.id))
            if step.stage == "remember" and entry.group == "tray":  # one line of the list of pieces
                continue
            assert faults_of_step(bare, solution), (step.id, entry.id)
            taken.add(step.stage.split(".")[0])
    assert {"marks", "turn", "ahead", "outline", "sift", "rule-out", "keep", "remember"} <= taken


def _without(figure: Figure, gone: str) -> Figure:
    return replace(figure, entries=tuple(entry for entry in figure.entries if entry.id != gone))


def _with(figure: Figure, more: Entry) -> Figure:
    return replace(figure, entries=(*figure.entries, more))


def test_a_dot_at_a_place_that_nobody_speaks_of_is_found() -> None:
    astray = Circle(
        id="astray", group="pointed", role=Role.POINTER, centre=(5.013, 4.127), radius=0.1, fill=DEFAULT_THEME.attention
    )
    for solution, step in planned():
        planted = with_figures(step, partial(_with, more=astray))
        assert any("(5.013, 4.127)" in fault for fault in faults_of_step(planted, solution)), step.id


def test_a_mark_carried_on_into_the_next_step_is_found() -> None:
    """The dots of one sieve, still seen while the next is announced."""
    found = 0
    for (_, before), (solution, step) in zip(planned(), planned()[1:], strict=False):
        if before.item != step.item or not before.stage.startswith("sift.") or not step.stage.startswith("sift."):
            continue
        first, _, _, marking, *others = step.beats
        assert isinstance(first, Still) and isinstance(marking, Motion)
        late = replace(step, beats=(first, replace(marking, start=first.figure), *others))
        assert not faults_of_step(step, solution)
        assert any("is shown, but not told" in fault for fault in faults_of_step(late, solution)), step.id
        found += 1
    assert found


def test_in_a_choice_too() -> None:
    found = 0
    for solution, step in planned():
        for chosen in step.choice.options if step.choice is not None else ():
            assert chosen.figure is not None
            marks = [entry for entry in chosen.figure.entries if entry.group in ("pointed", "chosen")]
            for entry in marks:
                if entry.id.endswith("-sign"):
                    continue
                bare = replace(chosen, figure=_without(chosen.figure, entry.id))
                assert faults_of_choice(bare, solution), (step.id, chosen.label, entry.id)
                found += 1
    assert found

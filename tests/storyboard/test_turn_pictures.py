"""The picture of a turn: a ghost of the start, ticks after quarter turns, both sides pointed at, its words readable."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache

import pytest
from demo_items import demo_items
from shapely.geometry import MultiPoint, Polygon, box
from strategies import random_item

from explainers.choice.model import Solution
from explainers.choice.stages.context import StageSettings
from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role
from explainers.figure.motion import Motion
from explainers.figure.theme import Theme
from explainers.intake.workspace import load_solution
from explainers.item.model import Manner
from explainers.kinds.join_and_cut.solving.solution import own_solution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.join_and_cut.stages.piece_stages import tell
from explainers.storyboard.model import Step
from explainers.typeface.faces import face

ITEMS = demo_items("join-and-cut")
GENERATED = range(6)
LOOKS = [look / 20 for look in range(21)]
TINY = 1e-6


@cache
def solutions() -> tuple[Solution, ...]:
    demo = (load_solution(path, pairs=True) for path in ITEMS)
    return (*demo, *(solve(random_item(seed), pairs=True) for seed in GENERATED))


@cache
def told(solution: Solution) -> tuple[Step, ...]:
    return tuple(tell(own_solution(solution), StageSettings(manner=Manner.WORKED_EXAMPLE, theme=Theme())))


def turns(solution: Solution) -> Iterator[tuple[float, int, Step]]:
    """(how far, number of the piece, step) of each turn."""
    steps = [step for step in told(solution) if step.stage == "turn"]
    for index, (turn_deg, step) in enumerate(zip(own_solution(solution).turns_deg, steps, strict=True)):
        yield turn_deg, index + 1, step


def entries_of(figure: Figure, group: str) -> list[Entry]:
    return [entry for entry in figure.entries if entry.group == group]


def cloth(figure: Figure, number: int) -> Area:
    found = figure.entry(f"piece-{number}")
    assert isinstance(found, Area)
    return found


def ghosts_of(figure: Figure) -> list[Area]:
    return [entry for entry in entries_of(figure, "turn") if isinstance(entry, Area)]


def gap(ring: object, other: object) -> float:
    return max(min(math.dist(a, b) for b in other) for a in ring)  # type: ignore[attr-defined]


def test_a_ghost_stays_where_the_piece_lay() -> None:
    seen = 0
    for solution in solutions():
        for turn_deg, number, step in turns(solution):
            start, *_, end = step.stills
            ghosts = [
                [entry for entry in entries_of(still, "turn") if isinstance(entry, Area)] for still in step.stills
            ]
            if abs(turn_deg) <= 0.1:
                assert not any(ghosts)
                continue
            seen += 1
            motion = step.beats[-2]
            assert isinstance(motion, Motion)
            (lay,) = cloth(start, number).rings
            for figure in (motion.figure_at(look) for look in LOOKS):
                (ghost,) = ghosts_of(figure)
                assert gap(ghost.rings[0], lay) < TINY and gap(lay, ghost.rings[0]) < TINY
                # Clearly not the piece: no cloth, a thin broken line, and it lies under the piece.
                assert ghost.fill is None and ghost.dash is not None
                assert ghost.width < cloth(figure, number).width
                assert figure.entries.index(ghost) < figure.entries.index(cloth(figure, number))
            assert "how" in end.alt and "lay before" in end.alt
    assert seen > 20


def test_a_tick_stands_after_a_quarter_turn_on_the_arc_that_goes_on() -> None:
    ticked = 0
    for solution in solutions():
        for turn_deg, _, step in turns(solution):
            arcs = [entry for entry in step.picture.entries if isinstance(entry, Arrow) and entry.role == Role.TURN]
            ticks = [entry for entry in step.picture.entries if entry.id == "turn-quarters"]
            if abs(turn_deg) <= 90.1:
                assert not ticks
                continue
            if abs(turn_deg) < 115.0 and not ticks:
                continue  # the quarter is over so near the end that its tick would stand in the arrow's head
            ticked += 1
            (arrow,), (lines,) = arcs, ticks
            assert isinstance(lines, Lines)
            whole = Polygon(MultiPoint(arrow.path).convex_hull)
            assert whole.area > 0.0
            # The angle from the first stroke to the second, seen from the middle of the arc, is a quarter turn.
            (a, b), (c, d) = lines.segments
            first, second = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
            cross, dot = first[0] * second[1] - first[1] * second[0], first[0] * second[0] + first[1] * second[1]
            assert math.degrees(math.atan2(cross, dot)) == pytest.approx(math.copysign(90.0, turn_deg), abs=1e-6)
            assert min(math.dist(a, place) for place in arrow.path) < 0.1
            assert Polygon(arrow.path).boundary.distance(MultiPoint([c])) < 0.1
    assert ticked > 10


def test_both_marked_sides_are_pointed_at_and_nothing_else() -> None:
    for solution in solutions():
        for _, _, step in turns(solution):
            for still in step.stills:
                pointed = {entry.id for entry in still.entries if entry.role == Role.POINTER}
                assert pointed == {"point-own", "point-partner"}
                assert any(entry.id == "piece-1" or entry.id.startswith("piece-") for entry in still.entries)


def test_the_reason_is_told_over_the_piece_as_it_lies_and_then_it_turns() -> None:
    for solution in solutions():
        for turn_deg, _, step in turns(solution):
            motions = [beat for beat in step.beats if isinstance(beat, Motion)]
            assert all((motion.after_sentences or 0) >= 2 for motion in motions)
            assert len(motions) == (1 if abs(turn_deg) <= 0.1 else 2)
            assert all((motion.after_sentences or 0) < len(step.narration) for motion in motions)


def taken_by(entry: Entry) -> list[object]:
    """What an entry covers, as shapes."""
    match entry:
        case Area():
            return [Polygon(ring).buffer(entry.width / 2) for ring in entry.rings]
        case Lines():
            return [MultiPoint(pair).convex_hull.buffer(entry.width / 2) for pair in entry.segments]
        case Arrow():
            return [MultiPoint(entry.path).convex_hull.buffer(entry.width / 2)]
        case Dots():
            return [MultiPoint(entry.centres).buffer(entry.radius)]
        case Circle():
            return [MultiPoint([entry.centre]).buffer(entry.radius + entry.width / 2)]
        case Label():
            return [box_of(entry)]
    return []


def box_of(label: Label) -> Polygon:
    """What its words take up, from the widths of its letters and the height of its capitals."""
    half = face(label.bold).width(label.text, label.size) / 2
    (x, y), up = label.at, 0.4 * label.size
    return box(x - half, y - up, x + half, y + up)


def test_nothing_passes_over_the_words_of_the_turn_and_they_never_fade() -> None:
    for solution in solutions():
        for turn_deg, number, step in turns(solution):
            if abs(turn_deg) <= 0.1:
                continue
            motion = step.beats[-2]
            assert isinstance(motion, Motion)
            for figure in (motion.figure_at(look) for look in LOOKS):
                words = figure.entry("turn-words")
                assert isinstance(words, Label) and words.opacity == 1.0
                room = box_of(words)
                for entry in figure.entries:
                    if entry.group == f"piece-{number}":
                        assert not any(room.intersects(shape) for shape in taken_by(entry)), (step.id, entry.id)
                own = [entry for entry in figure.entries if entry.id.startswith(f"piece-{number}-own")]
                mark = [entry for entry in own if isinstance(entry, Label)]
                assert all(label.opacity == 1.0 for label in mark), step.id


def test_the_ghost_is_gone_when_the_piece_lies_where_it_must() -> None:
    for solution in solutions():
        for step in told(solution):
            if step.stage == "meet":
                assert not entries_of(step.picture, "turn")

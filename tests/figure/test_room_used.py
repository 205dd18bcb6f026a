"""The stage is used: no bare tray, no name of a piece without the piece, verdict signs clear of what they are about."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
import shapely
from strategies import random_item

from explainers.choice.drawing.choices import Choices
from explainers.choice.drawing.option_cells import OptionCells
from explainers.figure.layout import TRAY, extent_of, extent_of_entries
from explainers.figure.model import Area, Circle, Dots, Entry, Figure, Label, Lines, Role
from explainers.figure.motion import Glide, Motion
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.ink import region, spots, strokes
from explainers.intake.workspace import load_lesson, load_solution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_item, plan_lesson
from explainers.storyboard.model import Step, Storyboard

ITEMS = Path(__file__).parents[2] / "items"
LESSONS = sorted(path for path in ITEMS.glob("*.yaml") if "\nlesson:" in f"\n{path.read_text(encoding='utf-8')}")
CLEAR = 0.12  # between a sign and any shape, dot or ring, in stage units: fourteen pixels at 1080p
LEAST_PANEL = 1.5


@pytest.fixture(scope="module", params=LESSONS, ids=lambda path: path.stem)
def board(request: pytest.FixtureRequest) -> Storyboard:
    return plan_lesson(*load_lesson(request.param))


def panels(figure: Figure) -> list[Area]:
    """The fields on which things lie, not patches of a card."""
    fields = [entry for entry in figure.entries if isinstance(entry, Area) and entry.role == Role.PANEL]
    return [field for field in fields if field.rounded and min(_size(field)) >= LEAST_PANEL]


def _size(entry: Entry) -> tuple[float, float]:
    box = extent_of_entries([entry])
    return box.width, box.height


def lies_on(entry: Entry, panel: Area) -> bool:
    (x, y), box = extent_of_entries([entry]).middle, extent_of(panel.rings[0])
    return box.left <= x <= box.right and box.bottom <= y <= box.top


def bare(figure: Figure) -> list[str]:
    """Panels on which nothing is seen."""
    fields = panels(figure)
    seen = [entry for entry in figure.entries if entry.opacity > 0.0 and entry not in fields]
    return [field.id for field in fields if not any(lies_on(entry, field) for entry in seen)]


def names_alone(figure: Figure) -> list[str]:
    """Names of pieces whose piece is not on the same panel; a list of all pieces, to be ticked off, is none."""
    names = [e for e in figure.entries if isinstance(e, Label) and e.role == Role.WORD and _is_of_piece(e)]
    found = []
    for name in names:
        (field,) = (field for field in panels(figure) if lies_on(name, field))
        beside = [e for e in figure.entries if isinstance(e, Area) and e.subject == name.subject and lies_on(e, field)]
        is_listed = len({other.subject for other in names if lies_on(other, field)}) > 1
        if not beside and not is_listed:
            found.append(name.text)
    return found


def _is_of_piece(entry: Entry) -> bool:
    return entry.subject is not None and entry.subject.thing == "piece"


def pictures(step: Step) -> Iterator[Figure]:
    """All that is held, and what is shown to whoever chooses."""
    yield from step.stills
    if step.choice is not None:
        yield from (option.figure for option in step.choice.options if option.figure is not None)


def signs(figure: Figure) -> list[Lines]:
    """Crosses and ticks: two strokes that meet."""
    judging = [e for e in figure.entries if isinstance(e, Lines) and e.role in (Role.WRONG, Role.RIGHT)]
    pairs = [(entry, *map(shapely.LineString, entry.segments)) for entry in judging if len(entry.segments) == 2]
    return [entry for entry, one, other in pairs if one.intersects(other)]


def ink_of(entry: Entry) -> Any:
    """What is drawn of a shape, a dot or a ring; None for what a sign need not be clear of."""
    match entry:
        case Area() if entry.role != Role.PANEL:
            return shapely.union(region(entry.rings), strokes([(*r, r[0]) for r in entry.rings], entry.width))
        case Circle():
            return strokes([[entry.centre, entry.centre]], 2 * entry.radius + entry.width)
        case Dots():
            return spots(entry.centres, entry.radius)
        case Lines() if entry.role == Role.POINTER:
            return strokes(entry.segments, entry.width)
    return None


def crowded(figure: Figure) -> list[str]:
    """Signs that come too near to a shape, a dot, a ring or each other."""
    found = signs(figure)
    inks = [(entry.id, ink) for entry in figure.entries if (ink := ink_of(entry)) is not None]
    drawn = [(sign.id, strokes(sign.segments, sign.width)) for sign in found]
    near = [(one, other) for one in drawn for other in inks] + list(combinations(drawn, 2))
    return [
        f"{one} is {gap:.2f} from {other}"
        for (one, ink), (other, beside) in near
        if (gap := shapely.distance(ink, beside)) < CLEAR
    ]


def test_no_panel_is_bare_and_no_name_stands_alone(board: Storyboard) -> None:
    faults = [
        f"{step.id}: {fault}"
        for step in board.steps
        for figure in pictures(step)
        for fault in (*bare(figure), *names_alone(figure))
    ]
    assert faults == []


def test_a_bare_tray_and_a_name_alone_are_seen(board: Storyboard) -> None:
    """The measure itself: taken away what lies on a tray, and the piece, both are found."""
    marks = next((step for step in board.steps if step.stage == "marks"), None)
    if marks is None:
        pytest.skip("no piece is laid in this lesson")
    words = [entry for entry in marks.picture.entries if isinstance(entry, Label)]
    tables = panels(marks.picture)
    assert len(tables) == 2
    cleared = Figure(background=marks.picture.background, entries=(*tables,))
    assert bare(cleared) == [table.id for table in tables]
    left = Figure(background=marks.picture.background, entries=(*tables, *words))
    names = [entry for entry in words if _is_of_piece(entry) and entry.role == Role.WORD]
    assert bool(names_alone(left)) is (len({name.subject for name in names}) == 1)


def test_signs_keep_clear_of_shapes(board: Storyboard) -> None:
    shown = [(step.id, figure) for step in board.steps for figure in pictures(step)]
    assert any(signs(figure) for _, figure in shown)
    assert [f"{name}: {fault}" for name, figure in shown for fault in crowded(figure)] == []


def test_signs_pass_over_nothing_while_all_change_places(board: Storyboard) -> None:
    """Half way from being compared to being laid on, no sign is seen."""
    ways = [
        beat
        for step in board.steps
        for beat in step.beats
        if isinstance(beat, Motion) and len([move for move in beat.moves if isinstance(move, Glide)]) > 4
    ]
    assert ways
    for fraction in (0.25, 0.5, 0.75):
        for way in ways:
            figure = way.figure_at(fraction)
            assert [sign.id for sign in signs(figure) if sign.opacity > 0.0] == []


def test_signs_keep_clear_in_generated_questions(cases: Callable[[int, int], int]) -> None:
    faults = []
    for seed in range(cases(6, 150)):
        for step in plan_item(solve(random_item(seed))).steps:
            faults += [f"{seed} {step.id}: {fault}" for figure in pictures(step) for fault in crowded(figure)]
    assert faults == []


@pytest.mark.parametrize("path", sorted(ITEMS.glob("*-block.yaml")), ids=lambda path: path.stem)
def test_options_are_larger_while_they_are_compared(path: Path) -> None:
    """By a fifth at least, beside a tray of two columns; and the outline is as large as any."""
    solution = load_solution(path)
    spread = Choices(solution=solution, theme=DEFAULT_THEME, is_spread=True)
    tray = OptionCells(solution=solution, room=TRAY, columns=2)
    assert spread.cells.largest >= 1.2 * tray.largest
    outline = extent_of(spread.view.apply(solution.outline.exterior))
    assert max(outline.width, outline.height) >= spread.cells.largest
    assert math.isclose(spread.cells.room.right, TRAY.right)

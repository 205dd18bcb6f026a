"""A chosen option is marked where it stands: its ring is round what is spoken of, and gives nothing else away."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from demo_items import demo_items
from shapely import LineString, Polygon, box
from shapely import Point as Spot
from strategies import random_item

from explainers.choice.differences.corner_angle import CornerAngleFact
from explainers.choice.differences.corner_count import CornerCountFact
from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.differences.extra_part import ExtraPartFact
from explainers.choice.differences.missing_part import MissingPartFact
from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_length import SideLengthFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.drawing.choices import Choices
from explainers.choice.drawing.chosen import SMALLEST, RingOnOption, chosen, ring_on
from explainers.choice.drawing.option_cells import OptionCells
from explainers.choice.model import Solution, Verdict
from explainers.figure.legibility import overlaps
from explainers.figure.model import Area, Circle, Lines
from explainers.figure.subject import option_subject
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.rigid_motion import RigidMotion
from explainers.geometry.rings import interior_angles_deg, sides
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.sheet import Sheet
from explainers.kinds.join_and_cut.solving.solver import solve

ITEMS = demo_items("join-and-cut")
NEAR = 1e-6
AWAY = RigidMotion(shift=(30.0, 0.0))


@pytest.fixture(scope="module")
def solutions(cases: Callable[[int, int], int]) -> list[Solution]:
    return [*map(load_solution, ITEMS), *(solve(random_item(seed)) for seed in range(cases(12, 300)))]


@cache
def both_cells(solution: Solution) -> tuple[OptionCells, OptionCells]:
    """The options on the sheet, and beside the outline."""
    theme = DEFAULT_THEME
    return Sheet(solution=solution, theme=theme).cells, Choices(solution=solution, theme=theme).cells


def ringed(solution: Solution) -> Iterator[tuple[OptionCells, Verdict, DifferenceFact, RingOnOption | None]]:
    """Every difference of every wrong option, on the sheet and beside the outline."""
    for cells in both_cells(solution):
        for verdict in solution.verdicts:
            for fact in verdict.reasons:
                if isinstance(fact, DifferenceFact):
                    yield cells, verdict, fact, ring_on(cells, verdict, fact, DEFAULT_THEME)


def drawn(cells: OptionCells, verdict: Verdict) -> Area:
    """The option's outline as it is drawn in its cell."""
    (area,) = (each for each in cells.entries(DEFAULT_THEME) if each.id == option_subject(verdict.label).group)
    assert isinstance(area, Area)
    return area


def disc(ring: RingOnOption, *, outer: bool = False) -> Polygon:
    wide = DEFAULT_THEME.sign_width / 2 if outer else 0.0
    return Spot(ring.centre).buffer(ring.radius + wide, quad_segs=32)


def test_a_ring_stays_in_the_room_of_its_own_option_and_away_from_every_other(solutions: list[Solution]) -> None:
    for solution in solutions:
        for cells, verdict, _, ring in ringed(solution):
            if ring is None:
                continue
            own = cells.room_of(verdict.label)
            assert box(own.left, own.bottom, own.right, own.top).buffer(NEAR).covers(disc(ring, outer=True))
            for other in solution.verdicts:
                if other is not verdict:
                    shape = Polygon(drawn(cells, other).rings[0])
                    assert not disc(ring, outer=True).intersects(shape)
            assert math.dist(ring.centre, ring.spot) < ring.radius
            assert ring.radius >= SMALLEST


def test_what_is_spoken_of_stands_in_the_ring(solutions: list[Solution]) -> None:
    seen = set()
    for solution in solutions:
        for cells, verdict, fact, ring in ringed(solution):
            if ring is None:
                continue
            rings = drawn(cells, verdict).rings
            material = Polygon(rings[0], rings[1:])
            within = disc(ring)
            seen.add(type(fact))
            match fact:
                case CornerAngleFact():  # a corner of the picture, with that very angle
                    angles = [
                        angle
                        for each in rings
                        for corner, angle in zip(each, interior_angles_deg(each), strict=True)
                        if within.contains(Spot(corner)) and math.dist(corner, ring.spot) < NEAR
                    ]
                    assert angles == [pytest.approx(fact.angle_deg, abs=0.01)]
                case CornerCountFact(on_option=True):
                    assert min(math.dist(ring.spot, corner) for each in rings for corner in each) < NEAR
                case SideLengthFact():  # it is an end of a side that is that long beside the others
                    ends = [side for each in rings for side in sides(each) if is_end(ring, side)]
                    scale = cells.view(verdict.label).scale / verdict.fit.motion.scale
                    assert any(math.dist(*side) == pytest.approx(fact.length * scale, rel=1e-3) for side in ends)
                case SideRatioFact():
                    lengths = sorted(math.dist(*side) for each in rings for side in sides(each) if is_end(ring, side))
                    assert lengths[1] / lengths[0] == pytest.approx(fact.ratio, rel=1e-3)
                case ExtraPartFact() | PartElsewhereFact(filled=True):
                    assert within.intersection(material).area > 0.2 * within.area
                case MissingPartFact() | PartElsewhereFact(filled=False):
                    assert within.difference(material).area > 0.2 * within.area
                    assert within.intersects(material.convex_hull)
    assert {CornerAngleFact, CornerCountFact, SideLengthFact, SideRatioFact, ExtraPartFact, MissingPartFact} <= seen
    assert PartElsewhereFact in seen


def is_end(ring: RingOnOption, side: tuple[tuple[float, float], tuple[float, float]]) -> bool:
    return min(math.dist(ring.spot, end) for end in side) < NEAR


def test_each_wrong_option_has_a_difference_that_can_be_ringed(solutions: list[Solution]) -> None:
    for solution in solutions:
        with_ring = {verdict.label for _, verdict, _, ring in ringed(solution) if ring is not None}
        assert with_ring == {verdict.label for verdict in solution.verdicts if not verdict.same}


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_the_picture_is_the_questions_own_with_one_option_marked(path: Path) -> None:
    solution = load_solution(path)
    sheet = Sheet(solution=solution, theme=DEFAULT_THEME)
    shown = sheet.figure("The question.")
    for verdict in solution.verdicts:
        fact = next((fact for _, v, fact, ring in ringed(solution) if v is verdict and ring is not None), None)
        figure = chosen(shown, sheet.cells, verdict, DEFAULT_THEME, "Marked.", fact=fact)
        assert figure.entries[: len(shown.entries)] == shown.entries
        more = figure.entries[len(shown.entries) :]
        assert {entry.group for entry in more} == {"chosen"}
        assert not overlaps(figure)
        room = sheet.cells.room_of(verdict.label)
        crop = box(room.left, room.bottom, room.right, room.top)
        assert not any(crop.intersects(line.buffer(DEFAULT_THEME.sign_width / 2)) for line in sign_of(more))
        assert any(isinstance(entry, Circle) and entry.id == "chosen-ring" for entry in more) is not verdict.same


def sign_of(entries: tuple[object, ...]) -> list[LineString]:
    """The strokes of the sign, which stands under the letter and not in the crop of the option."""
    (sign,) = (entry for entry in entries if isinstance(entry, Lines) and entry.id == "chosen-sign")
    return [LineString(segment) for segment in sign.segments]


def test_the_right_option_is_never_ringed_and_a_place_elsewhere_has_no_ring() -> None:
    solution = load_solution(ITEMS[0].with_name("corner-block.yaml"))
    cells = Sheet(solution=solution, theme=DEFAULT_THEME).cells
    shown = Sheet(solution=solution, theme=DEFAULT_THEME).figure("The question.")
    (right,) = (verdict for verdict in solution.verdicts if verdict.same)
    wrong = next(verdict for verdict in solution.verdicts if not verdict.same)
    fact = next(fact for fact in wrong.reasons if isinstance(fact, DifferenceFact))
    with pytest.raises(ValueError, match="is right"):
        chosen(shown, cells, right, DEFAULT_THEME, "", fact=fact)
    far = replace(fact, place=fact.place.moved(AWAY), ring_centre=AWAY.apply_point(fact.ring_centre))
    assert ring_on(cells, wrong, far, DEFAULT_THEME) is None
    with pytest.raises(ValueError, match="no ring"):
        chosen(shown, cells, wrong, DEFAULT_THEME, "", fact=far)

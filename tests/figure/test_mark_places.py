"""Signs stand beside their ticks and run into nothing, in the question and on the table."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import chain
from pathlib import Path

import pytest
import shapely
from demo_items import demo_items
from strategies import random_item

from explainers.figure.side_marks import tick_reach, tick_span
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.rigid_motion import Point
from explainers.geometry.side import point_along
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.assembly_drawing import AssemblyDrawing
from explainers.kinds.join_and_cut.drawing.cut_outs import CutOuts
from explainers.kinds.join_and_cut.drawing.sheet import Sheet
from explainers.kinds.join_and_cut.drawing.work_table import WorkTable
from explainers.kinds.join_and_cut.model import BASE, Does
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.words.mark_names import SIGN_NAMES

DEMO = demo_items("join-and-cut")
BESIDE = 0.25  # stage units between the disc of a sign and that of its ticks: half of a sign
NEAR = 0.9  # what no sign exceeds, however cramped its side is: less than two signs
FEW = 0.06  # the share of marks that may stand farther off than BESIDE, on sides hardly longer than their ticks


class Seen:
    """One mark: its side, its sign and its ticks, in stage units."""

    def __init__(self, assembly: AssemblyDrawing, index: int, *, own: bool) -> None:
        placement, letters = assembly.solution.placements[index], assembly.letters
        self.name = f"{placement.piece.name} {'own' if own else 'partner'}"
        side = placement.side if own else placement.partner
        along = (letters.own_ticks if own else letters.partner_ticks)[index]
        at = (letters.on_piece if own else letters.on_partner)[index]
        self.index, self.own, self.side = index, own, [_times(point, assembly.scale) for point in side]
        self.at, self.ticks = _times(at, assembly.scale), _times(point_along(side, along), assembly.scale)
        self.radius, self.reach = assembly.radii[index], tick_reach(index + 1, assembly.theme)

    @property
    def gap(self) -> float:
        return math.dist(self.at, self.ticks) - self.radius - self.reach


def _times(point: Point, scale: float) -> Point:
    return point[0] * scale, point[1] * scale


def marks(assembly: AssemblyDrawing) -> list[Seen]:
    count = len(assembly.solution.placements)
    return [Seen(assembly, index, own=own) for index in range(count) for own in (True, False)]


def together(one: Seen, other: Seen) -> bool:
    """Whether two marks are ever seen in the places that they have: a piece's own goes when the piece is done."""
    if one.own and other.own:
        return one.index == other.index
    return not (one.own and other.index < one.index) and not (other.own and one.index < other.index)


def faults(assembly: AssemblyDrawing) -> Iterator[str]:
    """Where a sign overlaps a side, another sign or ticks."""
    placements, base, every = assembly.solution.placements, assembly.solution.item.base, marks(assembly)
    for mark in every:
        there = [*base.rings, *(placement.ring for placement in placements[: mark.index + 1])]
        lines = [shapely.LinearRing([_times(corner, assembly.scale) for corner in ring]) for ring in there]
        if min(line.distance(shapely.Point(mark.at)) for line in lines) < mark.radius - 1e-6:
            yield f"{mark.name} on a side"
        for other in every:
            if (
                other is not mark
                and together(mark, other)
                and math.dist(mark.at, other.at) < mark.radius + other.radius
            ):
                yield f"{mark.name} on the sign of {other.name}"
            if together(mark, other) and math.dist(mark.at, other.ticks) < mark.radius + other.reach - 1e-6:
                yield f"{mark.name} on the ticks of {other.name}"


def ticks_stay_on_their_side(assembly: AssemblyDrawing) -> bool:
    return all(
        math.dist(mark.ticks, end) >= min(tick_span(mark.index + 1, DEFAULT_THEME), math.dist(*mark.side) / 2) - 1e-6
        for mark in marks(assembly)
        for end in mark.side
    )


def drawings(solution: JoinAndCutSolution) -> list[AssemblyDrawing]:
    return [each(solution=solution, theme=DEFAULT_THEME).assembly for each in (Sheet, WorkTable)]


def signed(seed: int) -> JoinAndCutSolution:
    item = random_item(seed)
    pieces = tuple(replace(piece, mark=sign) for piece, sign in zip(item.pieces, SIGN_NAMES, strict=False))
    return solve(replace(item, pieces=pieces))


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.stem)
def test_in_the_demo_every_sign_stands_beside_its_ticks_and_on_nothing(path: Path) -> None:
    for assembly in drawings(load_solution(path)):
        assert list(faults(assembly)) == []
        assert {mark.name: mark.gap for mark in marks(assembly) if mark.gap > BESIDE} == {}
        assert ticks_stay_on_their_side(assembly)


def test_in_generated_items_signs_stand_beside_their_ticks_and_on_nothing(cases: Callable[[int, int], int]) -> None:
    gaps = []
    for seed in range(cases(20, 200)):
        for assembly in drawings(signed(seed)):
            assert list(faults(assembly)) == [], seed
            assert ticks_stay_on_their_side(assembly), seed
            gaps += [mark.gap for mark in marks(assembly)]
    assert max(gaps) < NEAR
    assert sum(gap > BESIDE for gap in gaps) <= FEW * len(gaps)


def test_ticks_move_with_a_sign_and_still_meet() -> None:
    """Some pieces of the generated items are that cramped; where both sides move alike, the ticks lie on each other."""
    moved = 0
    for seed in range(20):
        for assembly in drawings(signed(seed)):
            every = marks(assembly)
            for own, partner in zip(every[::2], every[1::2], strict=True):
                apart = math.dist(own.ticks, partner.ticks)
                along = [assembly.letters.own_ticks[own.index], assembly.letters.partner_ticks[own.index]]
                is_join = assembly.solution.placements[own.index].piece.does is Does.JOIN
                alike = along[0] == pytest.approx(1.0 - along[1] if is_join else along[1])
                assert alike == (apart < 1e-3)
                moved += alike and along[0] != 0.5
    assert moved > 3


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.stem)
def test_on_paper_to_cut_out_a_sign_stands_inside_beside_its_ticks(path: Path) -> None:
    solution = load_solution(path)
    sheet = CutOuts(solution=solution, theme=DEFAULT_THEME, width=18.0, height=20.0, mm_per_unit=10.0)
    assembly = sheet._assembly(sheet.unit_mm)
    shapes = {placement.piece.name: shapely.Polygon(placement.ring) for placement in solution.placements}
    shapes[BASE] = shapely.Polygon(solution.item.base.exterior, solution.item.base.holes)
    letters = assembly.letters
    for placement, own, other in zip(solution.placements, letters.on_piece, letters.on_partner, strict=True):
        for name, at in ((placement.piece.name, own), (placement.piece.of, other)):
            assert shapes[name].contains(shapely.Point(at))
    assert max(chain.from_iterable([[mark.gap] for mark in marks(assembly)])) < NEAR

"""Base and pieces at one true scale, to be cut out of paper: marks and their signs inside, names beside.

What lies outside an outline is lost when it is cut out, so every sign stands inside where there is any room for it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain

import shapely
from shapely.geometry import Point as PlanePoint
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points, unary_union

from ....choice.drawing.cut_scale import good_unit_mm
from ....figure.layout import Box, extent_of_entries
from ....figure.model import Entry, Figure, Label, Role, moved_entry
from ....figure.motion import Glide
from ....figure.paper import Picture
from ....figure.side_marks import tick_reach, tick_span
from ....figure.theme import Theme
from ....geometry.rigid_motion import Point, Side, Similarity
from ....geometry.side import left_normal, point_along
from ....typeface.faces import face
from ....words.names import named
from ..model import BASE, Does
from ..solving.placement import Placement
from ..solving.solution import JoinAndCutSolution
from ..words.actions import action_label
from .assembly_drawing import AssemblyDrawing, group_of
from .letters import MIDDLE, Letters, tick_places

__all__ = ["CutOuts"]

_PAD = 0.45  # round each part: room for scissors
_WORD_ROOM = 0.75  # under each part, for its name
_EDGE = 0.05
_CLEAR = 0.12  # between a sign and the nearest side or tick


@dataclass(frozen=True)
class _InnerAssembly(AssemblyDrawing):
    """Cloth whose signs all stand on what they mark, which is seen alone."""

    @cached_property
    def letters(self) -> Letters:
        placements, theme = self.solution.placements, self.theme
        base = Polygon(self.solution.item.base.exterior, self.solution.item.base.holes)
        shapes = {placement.piece.name: Polygon(placement.ring) for placement in placements} | {BASE: base}
        taken: dict[str, list[BaseGeometry]] = {name: [] for name in shapes}
        on_piece: list[Point] = []
        on_partner: list[Point] = []
        own_ticks: list[float] = []
        partner_ticks: list[float] = []
        for index, placement in enumerate(placements):
            radius, gap = self.radii[index] / self.scale, _CLEAR / self.scale
            reach = tick_reach(index + 1, theme) / self.scale
            room = (tick_span(index + 1, theme) + theme.end_dot) / self.scale + gap
            later = [
                _ticks(each, MIDDLE, tick_reach(number + 1, theme) / self.scale)
                for number, each in enumerate(placements)
                if number > index
            ]
            names = (placement.piece.name, placement.piece.of)
            is_join = placement.piece.does is Does.JOIN
            found = []
            for along in tick_places(math.dist(*placement.side), room):
                alongs = (along, 1.0 - along if is_join else along)
                places = []
                for name, side, part in zip(names, (placement.side, placement.partner), alongs, strict=True):
                    ticks = PlanePoint(point_along(side, part)).buffer(reach)
                    beside = [*taken[name], *(disc for owner, disc in chain(*later) if owner == name)]
                    if along != MIDDLE and any(ticks.intersects(disc) for disc in beside):
                        break
                    places.append(_inside(shapes[name], [*beside, ticks], (side, part), radius, reach, gap))
                if len(places) == len(names):
                    found.append((sum(astray for _, astray in places), alongs, [at for at, _ in places]))
                if found and found[0][0] <= radius:
                    break
            _, alongs, (own, other) = min(found)
            for name, side, part, at in zip(
                names, (placement.side, placement.partner), alongs, (own, other), strict=True
            ):
                taken[name] += [PlanePoint(point_along(side, part)).buffer(reach), PlanePoint(at).buffer(radius)]
            on_piece.append(own)
            on_partner.append(other)
            own_ticks.append(alongs[0])
            partner_ticks.append(alongs[1])
        return Letters(
            on_piece=tuple(on_piece),
            on_partner=tuple(on_partner),
            own_ticks=tuple(own_ticks),
            partner_ticks=tuple(partner_ticks),
        )


@dataclass(frozen=True)
class CutOuts:
    """The parts of one item to cut out.

    width, height : of the room for them on a page, stage units
    mm_per_unit   : of the stage, on paper
    """

    solution: JoinAndCutSolution
    theme: Theme
    width: float
    height: float
    mm_per_unit: float

    @cached_property
    def unit_mm(self) -> float:
        """What one unit of the item measures on paper."""
        return good_unit_mm(
            on_one_page=lambda unit_mm: bool(self._pages(unit_mm, most=1)),
            on_pages=lambda unit_mm: bool(self._pages(unit_mm)),
        )

    @cached_property
    def pictures(self) -> tuple[Picture, ...]:
        """A picture a page, as high as it needs to be; alt texts are left to whoever knows the words."""
        pages = self._pages(self.unit_mm)
        assert pages
        return tuple(self._picture(page) for page in pages)

    @cached_property
    def parts_on_pages(self) -> tuple[tuple[int, ...], ...]:
        """Which parts are on each page: 0 is the base, 1 the first piece."""
        return tuple(tuple(number for number, _ in page) for page in self._pages(self.unit_mm) or ())

    def _assembly(self, unit_mm: float) -> AssemblyDrawing:
        return _InnerAssembly(solution=self.solution, theme=self.theme, scale=unit_mm / self.mm_per_unit, tag="-cut")

    def _parts(self, unit_mm: float) -> list[tuple[Entry, ...]]:
        """Base and pieces, each somewhere on the stage, as the sheet shows them."""
        assembly = self._assembly(unit_mm)
        view = Similarity(scale=assembly.scale)
        base: list[Entry] = list(assembly.base(view))
        parts = []
        for index, placement in enumerate(self.solution.placements):
            if assembly.partner_owner(index) is None:
                base += assembly.partner_mark(index, view)
            back = Glide(
                group=group_of(index), about=view.apply_point(assembly.middle(index)), turn_deg=-placement.turn_deg
            )
            parts.append(assembly.moved(assembly.piece(index, view), back))
        return [tuple(base), *parts]

    def _pages(self, unit_mm: float, most: int = 99) -> list[list[tuple[int, tuple[Entry, ...]]]] | None:
        """The parts shelf by shelf, a new page where one is full; None where a part or the pages are too many."""
        pages: list[list[tuple[int, tuple[Entry, ...]]]] = [[]]
        left, top, shelf = 0.0, 0.0, 0.0
        for number, part in enumerate(self._parts(unit_mm)):
            box = extent_of_entries(part)
            word = self._word(number)
            width = max(box.width, face(bold=True).width(word, self.theme.word_size)) + 2 * _PAD
            height = box.height + 2 * _PAD + _WORD_ROOM
            if width > self.width or height > self.height:
                return None
            if left + width > self.width + 1e-9:
                left, top, shelf = 0.0, top + shelf, 0.0
            if top + height > self.height + 1e-9:
                pages.append([])
                left, top, shelf = 0.0, 0.0, 0.0
            goal = (left + width / 2, -top - _PAD - box.height / 2)
            pages[-1].append((number, self._laid(number, part, box, goal, word)))
            left, shelf = left + width, max(shelf, height)
        return pages if len(pages) <= most else None

    def _laid(self, number: int, part: Sequence[Entry], box: Box, goal: Point, word: str) -> tuple[Entry, ...]:
        by = Similarity(shift=(goal[0] - box.middle[0], goal[1] - box.middle[1]))
        name = Label(
            id=f"part-{number}-word",
            group="words",
            role=Role.WORD,
            text=word,
            at=(goal[0], goal[1] - box.height / 2 - 0.42),
            size=self.theme.word_size,
            colour=self.theme.ink,
            bold=True,
        )
        return (*(moved_entry(entry, by) for entry in part), name)

    def _word(self, number: int) -> str:
        if number == 0:
            return BASE
        piece = self.solution.placements[number - 1].piece
        said = action_label(piece.does, self.theme.fabrics[piece.does].word)
        text = f"{said}: {named(piece.name)}"
        return text if face(bold=True).width(text, self.theme.word_size) <= self.width - 1.0 else said

    def _picture(self, page: Sequence[tuple[int, tuple[Entry, ...]]]) -> Picture:
        entries = tuple(entry for _, part in page for entry in part)
        foot = min(extent_of_entries(part).bottom for _, part in page) - _EDGE
        figure = Figure(background=self.theme.paper, entries=entries)
        return Picture(figure=figure, box=Box(0.0, foot, self.width, 0.0), mm_per_unit=self.mm_per_unit)


def _ticks(placement: Placement, along: float, reach: float) -> list[tuple[str, BaseGeometry]]:
    """On which part each of the ticks of a piece is, and the disc that holds them."""
    own, partner = point_along(placement.side, along), point_along(placement.partner, along)
    of = placement.piece
    return [(of.name, PlanePoint(own).buffer(reach)), (of.of, PlanePoint(partner).buffer(reach))]


def _inside(
    shape: BaseGeometry,
    taken: Sequence[BaseGeometry],
    ticks: tuple[Side, float],
    radius: float,
    reach: float,
    gap: float,
) -> tuple[Point, float]:
    """The place inside a shape nearest to the calm one, straight in from the ticks; how much farther off it is.

    ticks : the marked side, and where its ticks stand as a part of the way along it
    """
    keep_off = unary_union(list(taken))
    side, along = ticks
    length, normal = math.dist(*side), left_normal(side)
    x, y = point_along(side, along)
    if not shape.contains(PlanePoint(x + normal[0] * length * 1e-3, y + normal[1] * length * 1e-3)):
        normal = (-normal[0], -normal[1])
    past = reach + radius + gap
    near = PlanePoint(x + normal[0] * past, y + normal[1] * past)
    for room in (radius + gap, 0.8 * radius, 0.6 * radius):
        free = shape.buffer(-room).difference(keep_off.buffer(room))
        if not free.is_empty:
            found, _ = nearest_points(free, near)
            crammed = radius + gap - room  # a place that is too small for the sign is none, while there is another
            return (found.x, found.y), max(0.0, math.dist((found.x, found.y), (x, y)) - past) + 4.0 * crammed
    point = shapely.maximum_inscribed_circle(shape).coords[0]
    return (float(point[0]), float(point[1])), 9.0 * (radius + length)

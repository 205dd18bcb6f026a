"""Base and pieces as entries: cloth, pattern, marked sides, letters; and as what a figure may be about.

The roles of their cloth are open names: "base", and for a piece what becomes of it, "join" or "cut".

Everything is built where it ends up, in the base's coordinates drawn by one view; a piece on the tray or on the sheet
is the same entries carried there by a rigid motion of the stage. So a piece cannot look different from what is laid.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from ....figure.fill_pattern import pattern_entries
from ....figure.model import Area, Entry, Lines, Role, moved_entry
from ....figure.motion import Glide
from ....figure.side_marks import mark_radius, side_mark_entries, tick_reach, tick_span
from ....figure.subject import Subject
from ....figure.theme import Theme
from ....geometry.rigid_motion import Point, Ring, Side, Similarity
from ....geometry.rings import signed_area, without_needless_corners
from ....geometry.side import point_along
from ....geometry.tolerance import authoring_tolerance
from ..model import BASE, Does
from ..solving.solution import JoinAndCutSolution
from .letters import Letters, letters

__all__ = ["PIECE", "THE_BASE", "AssemblyDrawing", "faded", "group_of", "piece_subject", "seam_id"]

PIECE = "piece"
THE_BASE = Subject(thing=BASE)


def piece_subject(index: int) -> Subject:
    """A piece in a figure, counted from 0: by its number, since its name may say too much to a learner."""
    return Subject(thing=PIECE, name=str(index + 1))


def group_of(index: int) -> str:
    """The group of a piece, counted from 0; neutral, since a learner may see it."""
    return piece_subject(index).group


def seam_id(index: int) -> str:
    """The id of the stitches of a piece, counted from 0."""
    return f"seam-{index + 1}"


@dataclass(frozen=True)
class AssemblyDrawing:
    """Base and pieces of one item at one scale.

    scale : stage units per item unit
    tag   : told apart in the ids of patterns, since those are laid anew at each scale
    """

    solution: JoinAndCutSolution
    theme: Theme
    scale: float
    tag: str = ""

    @cached_property
    def radii(self) -> tuple[float, ...]:
        """The disc that each piece's letter needs, stage units."""
        return tuple(mark_radius(placement.piece.mark, self.theme) for placement in self.solution.placements)

    @cached_property
    def letters(self) -> Letters:
        """Where the letters stand, in the base's coordinates."""
        theme = self.theme
        return letters(
            self.solution.item.base,
            self.solution.placements,
            radii=tuple(radius / self.scale for radius in self.radii),
            ticks=tuple(tick_reach(index + 1, theme) / self.scale for index in range(len(self.solution.placements))),
            spans=tuple(tick_span(index + 1, theme) / self.scale for index in range(len(self.solution.placements))),
            end=theme.end_dot / self.scale,
            gap=theme.letter_gap / self.scale,
        )

    def middle(self, index: int) -> Point:
        """The middle of a piece: the centre of the smallest circle round it, base's coordinates."""
        centre = shapely.minimum_bounding_circle(Polygon(self.solution.placements[index].ring)).centroid
        return (centre.x, centre.y)

    def reach(self, index: int) -> float:
        """Radius of the circle about a piece's middle that holds the piece with its letters, stage units."""
        placement = self.solution.placements[index]
        x, y = self.middle(index)
        corners = max(math.dist((x, y), corner) for corner in placement.ring) * self.scale
        at = [(self.letters.on_piece[index], self.radii[index])]
        at += [(self.letters.on_partner[later], self.radii[later]) for later in self._partners(placement.piece.name)]
        out = max(math.dist((x, y), place) * self.scale + radius for place, radius in at)
        return max(corners, out)

    def piece(
        self, index: int, view: Similarity, *, marked: bool = True, plain: bool = False, opacity: float = 1.0
    ) -> tuple[Entry, ...]:
        """A piece where it ends up, with its own mark and the marks of later pieces that meet it.

        plain : without its pattern, as where it is only measured
        """
        placement = self.solution.placements[index]
        lettered = [index, *self._partners(placement.piece.name)] if marked else []
        entries = list(self._piece_material(index, view, [placement.ring], opacity, lettered=lettered, plain=plain))
        if marked:
            entries += self.own_mark(index, view)
            for later in self._partners(placement.piece.name):
                entries += self.partner_mark(later, view, owner=piece_subject(index))
        return tuple(entries)

    def moved(self, entries: Iterable[Entry], glide: Glide) -> tuple[Entry, ...]:
        """Entries at the end of a glide."""
        there = glide.at(1.0)
        return tuple(moved_entry(entry, there) for entry in entries)

    def base(self, view: Similarity, *, done: int = 0, cut_now: bool = False) -> tuple[Entry, ...]:
        """The base as it is after the first `done` pieces, without marks; `cut_now`: the next one is out already."""
        theme = self.theme
        cloth = self.solution.item.base
        rest = Polygon(cloth.exterior, cloth.holes).difference(self._cut_away(done + cut_now))
        rings = [without_needless_corners(ring, self._near) for ring in _plain_rings(rest, self._near)]
        return (
            Area(
                id=THE_BASE.group,
                group=THE_BASE.group,
                subject=THE_BASE,
                role=BASE,
                rings=tuple(view.apply(ring) for ring in rings),
                fill=theme.base,
                stroke=theme.ink,
                width=theme.side_width,
            ),
        )

    def joined(self, view: Similarity, *, done: int, cut_now: bool = False) -> tuple[Entry, ...]:
        """The pieces joined so far, as later cuts have left them, with their seams."""
        entries: list[Entry] = []
        for index, placement in enumerate(self.solution.placements[:done]):
            if placement.piece.does is Does.CUT:
                continue
            away = self._cut_away(done + cut_now, start=index + 1)
            rest = Polygon(placement.ring).difference(away)
            partners_left = [later for later in self._partners(placement.piece.name) if later >= done]
            rings = [without_needless_corners(ring, self._near) for ring in _plain_rings(rest, self._near)]
            entries += self._piece_material(index, view, rings, 1.0, lettered=partners_left)
        for index, placement in enumerate(self.solution.placements[:done]):
            if placement.piece.does is Does.JOIN:
                entries += self.seam(index, view, done=done + cut_now)
        return tuple(entries)

    def own_mark(self, index: int, view: Similarity) -> tuple[Entry, ...]:
        """The mark on the piece itself."""
        placement = self.solution.placements[index]
        return side_mark_entries(
            f"{group_of(index)}-own",
            piece_subject(index),
            *view.apply(placement.side),
            inside=1,
            ticks=index + 1,
            mark=placement.piece.mark,
            along=self.letters.own_ticks[index],
            letter_at=view.apply_point(self.letters.on_piece[index]),
            theme=self.theme,
            partial=self._is_part(placement.side, [placement.ring]),
        )

    def partner_mark(self, index: int, view: Similarity, *, owner: Subject = THE_BASE) -> tuple[Entry, ...]:
        """The mark on the side that the piece must meet."""
        placement = self.solution.placements[index]
        return side_mark_entries(
            f"{group_of(index)}-partner",
            owner,
            *view.apply(placement.partner),
            inside=1,
            ticks=index + 1,
            mark=placement.piece.mark,
            along=self.letters.partner_ticks[index],
            letter_at=view.apply_point(self.letters.on_partner[index]),
            theme=self.theme,
            partial=self._is_part(placement.partner, self._owner_rings(index)),
        )

    def seam(self, index: int, view: Similarity, *, done: int | None = None) -> tuple[Entry, ...]:
        """Stitches along everything that a joined piece shares with the outline it was joined to."""
        placement = self.solution.placements[index]
        before = Polygon(placement.before.exterior, placement.before.holes)
        grown = before.buffer(self.solution.item.extent * 1e-6)
        shared = Polygon(placement.ring).boundary.intersection(grown)
        if done is not None:
            shared = shared.difference(self._cut_away(done, start=index + 1))
        stitches = tuple(
            stitch
            for start, end in _straight_parts(shared)
            for stitch in _stitches(view.apply_point(start), view.apply_point(end), self.theme)
        )
        return (
            Lines(
                id=seam_id(index),
                group=THE_BASE.group,
                subject=THE_BASE,
                role=Role.SEAM,
                segments=stitches,
                stroke=self.theme.paper,
                width=self.theme.seam_width,
            ),
        )

    def partner_owner(self, index: int) -> int | None:
        """The piece that carries the partner's mark, or None for the base."""
        of = self.solution.placements[index].piece.of
        if of == BASE:
            return None
        return next(i for i, placement in enumerate(self.solution.placements) if placement.piece.name == of)

    @property
    def _near(self) -> float:
        return authoring_tolerance(self.solution.item.extent)

    def _owner_rings(self, index: int) -> tuple[Ring, ...]:
        owner = self.partner_owner(index)
        return self.solution.item.base.rings if owner is None else (self.solution.placements[owner].ring,)

    def _partners(self, name: str) -> list[int]:
        return [i for i, placement in enumerate(self.solution.placements) if placement.piece.of == name]

    def _cut_away(self, done: int, *, start: int = 0) -> BaseGeometry:
        cuts = [p for p in self.solution.placements[start:done] if p.piece.does is Does.CUT]
        return unary_union([Polygon(placement.ring) for placement in cuts])

    def _piece_material(
        self,
        index: int,
        view: Similarity,
        rings: Sequence[Ring],
        opacity: float,
        *,
        lettered: Sequence[int],
        plain: bool = False,
    ) -> tuple[Entry, ...]:
        theme = self.theme
        placement = self.solution.placements[index]
        own, role = piece_subject(index), placement.piece.does.value
        fabric = theme.fabrics[role]
        drawn = tuple(view.apply(ring) for ring in rings)
        entries: list[Entry] = [
            Area(
                id=own.group,
                group=own.group,
                subject=own,
                role=role,
                rings=drawn,
                fill=fabric.fill,
                stroke=theme.ink,
                width=theme.side_width,
                dash=theme.dash_of(role),
                opacity=opacity,
            )
        ]
        if plain:  # measured at a scale far off, a pattern may have millions of dots
            return tuple(entries)
        discs = []
        for number in lettered:  # the pattern keeps clear of the letters that are on the piece now
            is_own = number == index
            at = view.apply_point(self.letters.on_piece[index] if is_own else self.letters.on_partner[number])
            discs.append((at, self.radii[number] + theme.pattern_clear))
            other = self.solution.placements[number]
            mark = other.side if is_own else other.partner
            along = (self.letters.own_ticks if is_own else self.letters.partner_ticks)[number]
            discs.append((view.apply_point(point_along(mark, along)), tick_reach(number + 1, theme)))
        turn = placement.motion.turn_deg
        anchor = view.apply_point(self.middle(index))
        name = f"{own.group}{self.tag}-pattern"
        for part in _parts(drawn):
            entries += pattern_entries(
                fabric.pattern_name,
                part,
                theme=theme,
                colour=fabric.pattern,
                name=f"{name}-{len(entries)}",
                group=own.group,
                subject=own,
                role=role,
                frame_deg=turn,
                anchor=anchor,
                clear=discs,
                opacity=opacity,
            )
        return tuple(entries)

    def _is_part(self, mark: Side, rings: Sequence[Ring]) -> bool:
        """Whether a mark takes up only a part of the side that it lies on."""
        whole = {corner for ring in rings for corner in ring}
        return any(min(math.dist(end, corner) for corner in whole) > self._near for end in mark)


def _plain_rings(shape: BaseGeometry, near: float) -> list[Ring]:
    """Exteriors and holes of every part that is more than a sliver."""
    rings: list[Ring] = []
    # Where a cut runs along a side, rounding may leave a needle of cloth: it would be drawn as a line to nowhere.
    opened = shape.buffer(-near, join_style="mitre").buffer(near, join_style="mitre")
    if opened.length < shape.length - near:
        shape = opened
    for part in shapely.get_parts(shape):
        if part.geom_type == "Polygon" and 2 * part.area > near * part.length:
            whole = shapely.orient_polygons(part)
            rings += [tuple(whole.exterior.coords[:-1]), *(tuple(hole.coords[:-1]) for hole in whole.interiors)]
    return rings


def _straight_parts(shape: BaseGeometry) -> list[Side]:
    parts: list[Side] = []
    for line in shapely.get_parts(shapely.line_merge(shape) if shape.geom_type == "MultiLineString" else shape):
        if line.geom_type == "LineString":
            places = list(line.coords)
            parts += list(pairwise(places))
    return parts


def _parts(rings: Sequence[Ring]) -> list[list[Ring]]:
    """Each exterior with the holes inside it: a later cut may leave a piece in several parts."""
    outers = [ring for ring in rings if signed_area(ring) > 0]
    inners = [ring for ring in rings if signed_area(ring) <= 0]
    return [[outer, *(hole for hole in inners if Polygon(outer).contains(Polygon(hole)))] for outer in outers]


def _stitches(start: Point, end: Point, theme: Theme) -> list[Side]:
    """Even stitches along a side, a half gap at either end."""
    length = math.dist(start, end)
    if length < theme.stitch:
        return []
    count = max(1, round(length / (theme.stitch + theme.stitch_gap)))
    part = theme.stitch / (theme.stitch + theme.stitch_gap) / count
    starts = [(i + 0.5) / count - part / 2 for i in range(count)]
    return [(point_along((start, end), a), point_along((start, end), a + part)) for a in starts]


def faded(entries: Iterable[Entry], opacity: float) -> tuple[Entry, ...]:
    """The entries, fainter."""
    return tuple(replace(entry, opacity=opacity) for entry in entries)

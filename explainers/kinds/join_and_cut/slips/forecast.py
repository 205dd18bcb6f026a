"""Which slips may make an outline, told before any is replayed.

Laying pieces on each other is dear, most slips make an outline that is plainly not the one asked about, and where all
pieces come to lie is known without laying them on each other. Corners that come near no other boundary then are
*witnesses*: whatever else the slip makes, they are corners of it. An outline that has no corner where a witness is,
however it is turned, shifted and scaled, is not made by that slip. All slips of an item are held against it at once.

A witness is only ever a reason to leave a slip out: a slip that is not left out is replayed as it always was. Corners
are complex numbers here, and every array has one row a way to take the item.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ....geometry.nearest import nearest_distances
from ....geometry.outline import Outline
from ....geometry.rings import interior_angles_deg
from .forecast_places import LaidShape, LaidShapes
from .model import Work

__all__ = ["Forecasts"]

Complex = NDArray[np.complex128]
Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

CLEAR = 10.0  # tolerances: a corner this far from every other boundary stays a corner, even when needless ones go
FLAT_DEG = 12.0  # a corner nearer to a straight line than this may be taken for needless once its sides are cut short
ANGLE_DEG = 25.0  # by how much moving the ends of a short side by the tolerance may change an angle
AREA = 4.0  # tolerances: by how much every boundary may move and change the area
WITNESSES = 2  # with fewer, nothing can be told
AT_ONCE = 250_000  # pairs of corners, or of a corner and a side, held in memory at a time
ROUNDED = 1e-6  # of the size of the numbers: what rounding may take from a distance, with room


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One way to take the item, and where everything lies then."""

    case: int  # the index of the slips that lead to it
    places: tuple[LaidShape | None, ...]  # by piece of the true item; None for one left out
    turned_over: bool


class Forecasts:
    """What is foreseen of a row of slips."""

    def __init__(self, works: Sequence[Sequence[Work]], places: LaidShapes) -> None:
        """works : for each slip the ways to take the item."""
        self._unknown = np.zeros(len(works), dtype=bool)
        ways: list[_Way] = []
        for case, ways_to_take in enumerate(works):
            found = [(work, places.of(work)) for work in ways_to_take]
            self._unknown[case] = not all(lying for _, lying in found)
            ways += [
                _Way(case=case, places=each, turned_over=work.turned_over) for work, lying in found for each in lying
            ]
        rows = max(1, AT_ONCE // places.corner_count**2)
        self._parts = [_Witnesses(ways[i : i + rows], places) for i in range(0, len(ways), rows)]

    def may_make(self, outline: Outline) -> Flags:
        """For each slip whether it may make the outline, which is given without needless corners."""
        found = self._unknown.copy()
        asked = _Asked.of(outline)
        for part in self._parts:
            found[part.cases[part.may_be(asked)]] = True
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """An outline asked about."""

    corners: Complex
    angles_deg: Floats
    area: float

    @classmethod
    def of(cls, outline: Outline) -> _Asked:
        return cls(
            corners=_complex([corner for ring in outline.rings for corner in ring]),
            angles_deg=np.asarray([angle for ring in outline.rings for angle in interior_angles_deg(ring)]),
            area=outline.area,
        )


class _Witnesses:
    """The witnesses of several ways, one row each."""

    def __init__(self, ways: Sequence[_Way], places: LaidShapes) -> None:
        self.cases = np.array([way.case for way in ways], dtype=int)
        slots = places.slots
        absent = places.absent
        rows = [[places.base, *(place or gone for place, gone in zip(way.places, absent, strict=True))] for way in ways]
        kinds = np.array([[place.kind for place in row] for row in rows])
        corners = np.array([[z for place in row for z in place.corners] for row in rows])
        angles = np.array([[angle for place in row for angle in place.angles_deg] for row in rows])
        slack = np.array([[place.slack for place in row] for row in rows])
        self.area_from = np.array([sum(place.area_from for place in row) for row in rows])
        self.area_to = np.array([sum(place.area_to for place in row) for row in rows])
        boundary = np.array([sum(place.boundary for place in row) for row in rows])
        self.area_from -= AREA * places.tolerance * boundary
        self.area_to += AREA * places.tolerance * boundary
        self.slack = slack[:, slots]
        bent = (np.abs(angles - 180.0) > FLAT_DEG) & (np.minimum(angles, 360.0 - angles) > FLAT_DEG)
        sides = _Sides(corners=corners, kinds=kinds, slots=slots, following=places.following, slack=self.slack)
        self.is_witness = bent & sides.free_corners(CLEAR * places.tolerance)
        over = np.array([way.turned_over for way in ways], dtype=bool)
        self.corners = np.where(over[:, None], -corners.conj(), corners)
        self.angles_deg = angles
        self.first, self.second = self._far_apart()
        self.in_turn = np.argsort(~self.is_witness, axis=1, kind="stable")  # the witnesses of each row come first

    def _far_apart(self) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        """Two witnesses of each row that lie far from each other."""
        count = np.maximum(self.is_witness.sum(axis=1), 1)
        middle = np.where(self.is_witness, self.corners, 0.0).sum(axis=1) / count
        first = np.where(self.is_witness, np.abs(self.corners - middle[:, None]), -1.0).argmax(axis=1)
        start = self.corners[np.arange(len(first)), first]
        second = np.where(self.is_witness, np.abs(self.corners - start[:, None]), -1.0).argmax(axis=1)
        return first, second

    def may_be(self, asked: _Asked) -> Flags:
        """For each row whether some similarity lays a corner of the outline on every witness."""
        found: Flags = self.is_witness.sum(axis=1) < WITNESSES
        apart = np.abs(asked.corners[:, None] - asked.corners)
        rows = max(1, AT_ONCE // apart.size)
        for first in range(0, len(found), rows):
            row, i, j = self._similarities(slice(first, first + rows), found, asked, apart)
            row += first
            at_once = max(1, AT_ONCE // len(asked.corners))
            for start in range(0, len(row), at_once):
                now = slice(start, start + at_once)
                self._hold(found, asked, row[now], i[now], j[now])
        return found

    def _similarities(
        self, rows: slice, told: Flags, asked: _Asked, apart: Floats
    ) -> tuple[NDArray[np.intp], NDArray[np.intp], NDArray[np.intp]]:
        """(row, i, j) wherever the outline's corners i and j may lie on the two far witnesses of a row.

        rows : that are looked at; rows are counted from the first of these
        told : the rows of which all is known
        """
        first, second = self.first[rows], self.second[rows]
        every = np.arange(len(told))[rows]
        turned = [
            np.abs((asked.angles_deg - self.angles_deg[every, which][:, None] + 180.0) % 360.0 - 180.0) < ANGLE_DEG
            for which in (first, second)
        ]
        length = np.abs(self.corners[every, second] - self.corners[every, first])
        reach = self.slack[every, first] + self.slack[every, second]
        scale_from = np.sqrt(np.maximum(self.area_from[rows], 0.0) / asked.area)
        scale_to = np.sqrt(np.maximum(self.area_to[rows], 0.0) / asked.area)
        possible = (
            turned[0][:, :, None]
            & turned[1][:, None, :]
            & (apart > 0.0)
            & ~told[rows][:, None, None]
            & (apart * scale_from[:, None, None] <= (length + reach)[:, None, None])
            & (apart * scale_to[:, None, None] >= (length - reach)[:, None, None])
        )
        row, i, j = possible.nonzero()
        return row, i, j

    def _hold(
        self, found: Flags, asked: _Asked, row: NDArray[np.intp], i: NDArray[np.intp], j: NDArray[np.intp]
    ) -> None:
        """Note the rows in which one of these similarities lays a corner on every witness.

        Most lay none on the first few witnesses, so the others are looked at for those alone that do.
        """
        size = float(np.abs(asked.corners - asked.corners[0]).max())
        start, end = self.corners[row, self.first[row]], self.corners[row, self.second[row]]
        a = (asked.corners[j] - asked.corners[i]) / (end - start)  # from the row to the outline
        there = asked.corners[i]
        done, most = 0, int(self.is_witness[row].sum(axis=1).max(initial=0))
        while done < most and len(row):
            step = max(1, AT_ONCE // (len(row) * len(asked.corners)))
            some = self.in_turn[row, done : min(done + step, most)]
            away = (self.corners[row[:, None], some] - start[:, None]) * a[:, None]
            distance = nearest_distances((away + there[:, None]).ravel(), asked.corners).reshape(away.shape)
            # The two ends that fix the similarity may be out of place, and what lies beyond them is then more so.
            along = away / (asked.corners[j] - there)[:, None]
            allowed = self.slack[row[:, None], some] + self.slack[row, self.first[row]][:, None] * np.abs(1.0 - along)
            allowed += self.slack[row, self.second[row]][:, None] * np.abs(along)
            allowed = allowed * np.abs(a)[:, None] + ROUNDED * (np.abs(away) + size)
            good = ((distance <= allowed) | ~self.is_witness[row[:, None], some]).all(axis=1)
            row, j, start, a, there = row[good], j[good], start[good], a[good], there[good]
            done += step
        found[row] = True


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sides:
    """The corners of several ways, one row each, and the sides that begin at them.

    kinds : of each place: 1 what adds material, -1 what takes it away, 0 what is not there
    """

    corners: Complex
    kinds: NDArray[np.int64]
    slots: NDArray[np.int64]
    following: NDArray[np.int64]
    slack: Floats

    def free_corners(self, clear: float) -> Flags:
        """Whether a corner comes near no boundary but its own, with material on one side of its own only."""
        count = self.corners.shape[1]
        step = max(1, AT_ONCE // self.corners.size)
        parts = [self._free(slice(first, first + step), clear) for first in range(0, count, step)]
        return np.concatenate(parts, axis=1)

    def _free(self, some: slice, clear: float) -> Flags:
        """Which of some corners are free; only some at a time, for they are held against every side at once."""
        corners, slots, kinds = self.corners[:, some], self.slots[some], self.kinds
        start, end = self.corners[:, None, :], self.corners[:, self.following][:, None, :]
        along = end - start
        length = np.maximum(np.abs(along), np.finfo(float).tiny)
        seen = (corners[:, :, None] - start) * (along.conj() / length)
        beyond = np.maximum(np.maximum(-seen.real, seen.real - length), 0.0)
        far = np.hypot(beyond, seen.imag) > clear + self.slack[:, some, None] + self.slack[:, None, :]
        own = slots[:, None] == self.slots
        stands_free = (far | own).all(axis=2) & (kinds[:, slots] != 0)
        # Inside which of the places each corner lies: sides that a line to the right crosses are counted.
        y = corners.imag[:, :, None]
        crosses = ((start.imag > y) != (end.imag > y)) & ((seen.imag > 0.0) == (along.imag > 0.0))
        firsts = np.searchsorted(self.slots, np.arange(kinds.shape[1]))
        inside = np.add.reduceat(crosses, firsts, axis=2, dtype=np.int64) % 2 == 1
        order = np.arange(kinds.shape[1])
        own_kind = kinds[:, slots][:, :, None]
        kind = kinds[:, None, :]
        other = slots[:, None] != order
        earlier = order < slots[:, None]
        covers = inside & other & (kind != 0)
        # A piece cut away shows its corners within the material there was before; anything later may hide them again.
        within_earlier = covers & earlier & (kind == 1)
        hidden = np.where(own_kind == -1, covers & ~within_earlier, covers).any(axis=2)
        bare = (own_kind[:, :, 0] == -1) & ~within_earlier.any(axis=2)
        found: Flags = stands_free & ~hidden & ~bare
        return found


def _complex(points: Sequence[tuple[float, float]]) -> Complex:
    found: Complex = np.asarray(points, dtype=float) @ np.array([1.0, 1.0j])
    return found

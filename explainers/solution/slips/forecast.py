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

from ...geometry.outline import Outline
from ...geometry.rings import interior_angles_deg
from .forecast_places import Place, Places
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
AT_ONCE = 2_000_000  # pairs of corners and sides held in memory at a time


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One way to take the item, and where everything lies then."""

    case: int  # the index of the slips that lead to it
    places: tuple[Place | None, ...]  # by piece of the true item; None for one left out
    turned_over: bool


class Forecasts:
    """What is foreseen of a row of slips."""

    def __init__(self, works: Sequence[Sequence[Work]], places: Places) -> None:
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

    def __init__(self, ways: Sequence[_Way], places: Places) -> None:
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
        clear = CLEAR * places.tolerance + self.slack[:, :, None] + self.slack[:, None, :]
        bent = (np.abs(angles - 180.0) > FLAT_DEG) & (np.minimum(angles, 360.0 - angles) > FLAT_DEG)
        self.is_witness = bent & _stands_free(corners, kinds, slots, places.following, clear)
        over = np.array([way.turned_over for way in ways], dtype=bool)
        self.corners = np.where(over[:, None], -corners.conj(), corners)
        self.angles_deg = angles
        self.first, self.second = self._far_apart()

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
        every = np.arange(len(self.cases))
        too_few: Flags = self.is_witness.sum(axis=1) < WITNESSES
        found = too_few.copy()
        start, end = self.corners[every, self.first], self.corners[every, self.second]
        fits = [
            np.abs((asked.angles_deg - self.angles_deg[every, which][:, None] + 180.0) % 360.0 - 180.0) < ANGLE_DEG
            for which in (self.first, self.second)
        ]
        apart = np.abs(asked.corners[:, None] - asked.corners)
        length = np.abs(end - start)
        first_slack, second_slack = self.slack[every, self.first], self.slack[every, self.second]
        reach = first_slack + second_slack
        scale_from = np.sqrt(np.maximum(self.area_from, 0.0) / asked.area)
        scale_to = np.sqrt(np.maximum(self.area_to, 0.0) / asked.area)
        row, i, j = (
            fits[0][:, :, None]
            & fits[1][:, None, :]
            & (apart > 0.0)
            & ~too_few[:, None, None]
            & (apart * scale_from[:, None, None] <= (length + reach)[:, None, None])
            & (apart * scale_to[:, None, None] >= (length - reach)[:, None, None])
        ).nonzero()
        if len(row):
            a = (end - start)[row] / (asked.corners[j] - asked.corners[i])
            laid = a[:, None] * (asked.corners - asked.corners[i][:, None]) + start[row][:, None]
            away = np.abs(self.corners[row][:, :, None] - laid[:, None, :]).min(axis=2)
            # The two ends that fix the similarity may be out of place, and what lies beyond them is then more so.
            along = (self.corners[row] - start[row][:, None]) / (end - start)[row][:, None]
            allowed = self.slack[row] + first_slack[row][:, None] * np.abs(1.0 - along)
            allowed += second_slack[row][:, None] * np.abs(along)
            found[row[((away <= allowed) | ~self.is_witness[row]).all(axis=1)]] = True
        return found


def _stands_free(
    corners: Complex, kinds: NDArray[np.int64], slots: NDArray[np.int64], following: NDArray[np.int64], clear: Floats
) -> Flags:
    """Whether a corner comes near no boundary but its own, and there is material on one side of its own only.

    kinds : of each place: 1 what adds material, -1 what takes it away, 0 what is not there
    """
    start, end = corners[:, None, :], corners[:, following][:, None, :]
    along = end - start
    length = np.maximum(np.abs(along), np.finfo(float).tiny)
    seen = (corners[:, :, None] - start) * (along.conj() / length)
    beyond = np.maximum(np.maximum(-seen.real, seen.real - length), 0.0)
    far = np.hypot(beyond, seen.imag) > clear
    own = slots[:, None] == slots
    stands_free = (far | own).all(axis=2) & (kinds[:, slots] != 0)
    # Inside which of the places each corner lies: sides that a line to the right crosses are counted.
    y = corners.imag[:, :, None]
    crosses = ((start.imag > y) != (end.imag > y)) & ((seen.imag > 0.0) == (along.imag > 0.0))
    firsts = np.searchsorted(slots, np.arange(kinds.shape[1]))
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

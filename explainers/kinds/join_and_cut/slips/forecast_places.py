"""Where the pieces of an item come to lie by their marks alone, without laying them on what is there already."""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from enum import Enum

import numpy as np

from ....geometry.locate import SideSpan, span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side
from ....geometry.rings import interior_angles_deg, perimeter
from ....geometry.side import midpoint
from ..model import BASE, Does, Piece
from .model import SolvedItem, Work

__all__ = ["LaidShape", "LaidShapes"]

OUT_OF_PLACE = 4.0  # tolerances: what welding, dropping needless corners and typing may move a corner by, with room
MOST_WAYS = 8  # in which the pieces may lie: where there are more, nothing is told
TILT = 2.0  # tolerances at the ends of a mark, by which the piece may be tilted


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LaidShape:
    """The base or a piece where it lies, corners as complex numbers."""

    kind: int  # 1 adds material, -1 takes it away, 0: is left out
    corners: tuple[complex, ...]
    angles_deg: tuple[float, ...]  # of material in the outline that comes of it
    slack: float  # how far a corner may be from where it really comes to lie
    area_from: float  # what it adds at least, less than nothing where it takes away
    area_to: float
    boundary: float  # its length
    rings: tuple[Ring, ...]  # in its own coordinates
    motion: tuple[complex, complex]  # a and b: w = a z + b brings its own coordinates to those of the base


class _Before(Enum):
    """What is known of the outline that a piece meets."""

    AS_IT_WAS = "the one that it truly meets"
    OWN_SIDE = "another, with the material on the side of the marks where the base or the piece of that side has it"
    EITHER_SIDE = "another, in which that may have been cut away and something else lies behind the marks"


class LaidShapes:
    """The places of one item's pieces, each found once."""

    def __init__(self, solved_item: SolvedItem, tolerance: float) -> None:
        self.tolerance = tolerance
        self._outlines = {placement.piece.name: placement.before for placement in solved_item.placements}
        self._names = [placement.piece.name for placement in solved_item.placements]
        base = solved_item.item.base.simplified(tolerance)
        self.base = LaidShape(
            kind=1,
            corners=tuple(complex(*corner) for ring in base.rings for corner in ring),
            angles_deg=tuple(angle for ring in base.rings for angle in interior_angles_deg(ring)),
            slack=OUT_OF_PLACE * tolerance,
            area_from=base.area,
            area_to=base.area,
            boundary=sum(perimeter(ring) for ring in base.rings),
            rings=base.rings,
            motion=(1.0 + 0j, 0j),
        )
        rings = [*base.rings, *(self._ring(placement.piece) for placement in solved_item.placements)]
        self._sizes = [len(self._ring(placement.piece)) for placement in solved_item.placements]
        self.absent = [_absent(size) for size in self._sizes]
        owners = [0] * len(base.rings) + list(range(1, len(solved_item.placements) + 1))
        self.slots = np.repeat(owners, [len(ring) for ring in rings])
        self.corner_count = len(self.slots)
        self.following = np.arange(1, self.corner_count + 1)
        first = 0
        for ring in rings:
            self.following[first + len(ring) - 1] = first
            first += len(ring)
        self._found: dict[tuple[Piece, LaidShape, float | None, _Before], tuple[LaidShape, ...]] = {}
        self._true_places: dict[str, LaidShape] = {}
        for placement in solved_item.placements:
            places = self._placed(placement.piece, self._true_places, None)
            if len(places) != 1:
                break
            self._true_places[placement.piece.name] = places[0]

    def of(self, work: Work) -> list[tuple[LaidShape | None, ...]]:
        """Each way in which the pieces may lie, by piece of the true item; None for one that is left out.

        Returns : nothing where that cannot be told
        """
        turns = dict(work.slip_turns)
        ways: list[dict[str, LaidShape]] = [{}]
        for piece in work.item.pieces:
            ways = [
                {**way, piece.name: place} for way in ways for place in self._placed(piece, way, turns.get(piece.name))
            ]
            if len(ways) > MOST_WAYS:
                return []
        return [tuple(way.get(name) for name in self._names) for way in ways]

    def _placed(
        self, piece: Piece, earlier: dict[str, LaidShape], slip_turn_deg: float | None
    ) -> tuple[LaidShape, ...]:
        host = self.base if piece.of == BASE else earlier.get(piece.of)
        if host is None:
            return ()
        key = piece, host, slip_turn_deg, self._before_it(piece, earlier, host)
        if key not in self._found:
            self._found[key] = self._places(*key)
        return self._found[key]

    def _before_it(self, piece: Piece, earlier: dict[str, LaidShape], host: LaidShape) -> _Before:
        """What is known of the outline that a piece meets."""
        names = self._names[: self._names.index(piece.name)]
        if all(earlier.get(name) is self._true_places.get(name) for name in names):
            return _Before.AS_IT_WAS
        kinds = {place.kind for place in earlier.values()}
        may_be_behind = -1 in kinds and (host is not self.base or 1 in kinds)
        return _Before.EITHER_SIDE if may_be_behind else _Before.OWN_SIDE

    def _places(
        self, piece: Piece, host: LaidShape, slip_turn_deg: float | None, before: _Before
    ) -> tuple[LaidShape, ...]:
        """Where its marks bring a piece; two places where it is not plain on which side of them the material is."""
        ring = self._ring(piece)
        own = span_on((ring,), piece.side, self.tolerance)
        if own is None or len(ring) != self._sizes[self._names.index(piece.name)]:
            return ()
        a, b = (_point(host.motion[0] * complex(*point) + host.motion[1]) for point in piece.meets)
        partner, motion = None, self.base.motion
        if before is _Before.AS_IT_WAS:
            partner = span_on(self._outlines[piece.name].rings, (a, b), self.tolerance)
        elif before is _Before.OWN_SIDE:
            partner, motion = span_on(host.rings, piece.meets, self.tolerance), host.motion
        if partner is not None:
            return (self._place(piece, ring, own, partner, host, motion, slip_turn_deg),)
        return tuple(
            self._place(
                piece, ring, own, SideSpan(whole=side, part=side, forward=True), host, self.base.motion, slip_turn_deg
            )
            for side in ((a, b), (b, a))
        )

    def _place(
        self,
        piece: Piece,
        ring: Ring,
        own: SideSpan,
        partner: SideSpan,
        host: LaidShape,
        motion: tuple[complex, complex],
        slip_turn_deg: float | None,
    ) -> LaidShape:
        """motion : from the coordinates of the partner to those of the base"""
        a, b = _motion(piece, own, partner, motion, slip_turn_deg)
        around, area = perimeter(ring), Outline(ring).area
        cuts = piece.does is Does.CUT
        angles = interior_angles_deg(ring)
        overlaps = 0.0 if slip_turn_deg is None else area  # turned as it likes, a piece may overlap or reach outside
        return LaidShape(
            kind=-1 if cuts else 1,
            rings=(ring,),
            corners=tuple(a * complex(*corner) + b for corner in ring),
            angles_deg=tuple(360.0 - angle for angle in angles) if cuts else angles,
            slack=host.slack + (OUT_OF_PLACE + TILT * around / math.dist(*own.part)) * self.tolerance,
            area_from=-area if cuts else area - overlaps,
            area_to=overlaps - area if cuts else area,
            boundary=around,
            motion=(a, b),
        )

    def _ring(self, piece: Piece) -> Ring:
        return Outline.of(piece.corners).simplified(self.tolerance).exterior


def _absent(size: int) -> LaidShape:
    return LaidShape(
        kind=0,
        corners=tuple(1e9 * complex(1.0, i) for i in range(size)),
        angles_deg=(180.0,) * size,
        slack=0.0,
        area_from=0.0,
        area_to=0.0,
        boundary=0.0,
        rings=(),
        motion=(1.0 + 0j, 0j),
    )


def _motion(
    piece: Piece, own: SideSpan, partner: SideSpan, host: tuple[complex, complex], slip_turn_deg: float | None
) -> tuple[complex, complex]:
    """a and b of the motion w = a z + b that brings the mark to its partner, as a piece is truly laid."""
    host_a, host_b = host
    if slip_turn_deg is None:
        start, end = own.whole
        goal_start, goal_end = partner.whole[::-1] if piece.does is Does.JOIN else partner.whole
        a = host_a * (complex(*goal_end) - complex(*goal_start)) / (complex(*end) - complex(*start))
        a /= abs(a)
    else:
        a = cmath.rect(1.0, math.radians(piece.turned + slip_turn_deg))
    return a, host_a * _middle(partner.part) + host_b - a * _middle(own.part)


def _point(z: complex) -> Point:
    return z.real, z.imag


def _middle(side: Side) -> complex:
    return complex(*midpoint(side))

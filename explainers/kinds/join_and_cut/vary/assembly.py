"""Base and pieces of one sibling, drawn at random on squared paper to a wish.

Each piece is laid on the outline as it stands and taken back to coordinates of its own, where its first side runs from
(0, 0) along the x axis: then all numbers are whole. What comes of it is laid by the solver's own hand.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from random import Random

from ....choice.new_outlines import GridPoint, GridRing, base_ring, is_fair, piece_ring, with_gap
from ....geometry.angles import wrapped_deg
from ....geometry.congruence import rotational_symmetry_order
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side
from ....geometry.rings import point_in_polygon, sides
from ....geometry.tolerance import authoring_tolerance
from ..model import BASE, Does, Piece
from ..solving.placement import Placement
from ..solving.placing import lay
from .build import PieceBuild
from .request import VariationRequest

__all__ = ["Assembled", "assemble"]

TRIES_A_PIECE = 40
LEAST_SHARE, MOST_SHARE = 0.07, 0.6  # of the base's area: a piece that is seen, beside a base that is too
LEAST_MARK, MOST_MARK = 2, 6  # units


@dataclass(frozen=True, slots=True)
class Assembled:
    """A base with its pieces laid."""

    base: Outline
    placements: tuple[Placement, ...]

    @property
    def outline(self) -> Outline:
        """What comes of it."""
        return self.placements[-1].after


@dataclass(frozen=True, slots=True)
class _Contact:
    """Where a piece meets the outline: walked with the outline's material on the left."""

    start: GridPoint
    end: GridPoint
    direction: GridPoint
    beyond: int = 0  # how far a piece has to reach past `start` or `end` to close a gap; 0: no gap
    at_start: bool = False  # which of the two


def assemble(rng: Random, goal: VariationRequest) -> Assembled | None:
    """One try; None where it came to nothing."""
    base = _base(rng, goal)
    if base is None:
        return None
    standing, placements = base, tuple[Placement, ...]()
    for index, build in enumerate(goal.build.pieces):
        placement = next(
            (
                placement
                for _ in range(TRIES_A_PIECE)
                if (placement := _piece(rng, build, goal.turns[index], index, base, standing, placements))
            ),
            None,
        )
        if placement is None:
            return None
        placements, standing = (*placements, placement), placement.after
    return Assembled(base, placements)


def _base(rng: Random, goal: VariationRequest) -> Outline | None:
    build = goal.build
    holes_after = [build.base_holes, *(piece.holes_after for piece in build.pieces)]
    closing = any(
        later > earlier and piece.does is Does.JOIN
        for earlier, later, piece in zip(holes_after, holes_after[1:], build.pieces, strict=False)
    )
    draw = with_gap if closing and build.base_corners >= 8 else base_ring
    # An intricate base has short sides, and they are seen only if the whole is not large.
    least, most = (5, 7) if build.base_corners > 5 or closing or build.base_holes else (4, 8)
    ring = draw(rng, build.base_corners, width=rng.randint(least, most), height=rng.randint(least - 1, most - 1))
    if ring is None or not _tidy(ring):
        return None
    holes = []
    for _ in range(build.base_holes):
        hole = base_ring(rng, rng.choice((3, 4, 4)), width=rng.randint(1, 3), height=rng.randint(1, 3))
        x, y = rng.randint(1, 5), rng.randint(1, 5)
        if hole is None or not _tidy(hole):
            return None
        holes.append([(x + a, y + b) for a, b in hole])
    base = Outline.of(_typed(ring), [_typed(hole) for hole in holes])
    if not is_fair(base) or not all(point_in_polygon(corner, (_typed(ring),)) for hole in holes for corner in hole):
        return None
    return base


def _piece(
    rng: Random,
    build: PieceBuild,
    turns: tuple[float, ...],
    index: int,
    base: Outline,
    standing: Outline,
    placements: tuple[Placement, ...],
) -> Placement | None:
    host = next((placement for placement in placements if placement.piece.name == build.of), None)
    before_holes = len(standing.holes)
    closing = build.does is Does.JOIN and build.holes_after > before_holes
    rings = base.rings if host is None else (host.ring,)
    found = _contacts(standing, rings, build, closing)
    if not found:
        return None
    contact = _shortened(rng, rng.choice(found), build)
    if contact is None:
        return None
    length = max(abs(contact.end[0] - contact.start[0]), abs(contact.end[1] - contact.start[1]))
    left, right = _overhang(rng, build, contact)
    width = left + length + right
    ring = piece_ring(rng, build.corners, width=width, height=rng.randint(1, 4))
    if ring is None or not _tidy(ring):
        return None
    shape = Outline.of(_typed(ring))
    share = shape.area / base.area
    tolerance = authoring_tolerance(base.larger_extent)
    if not LEAST_SHARE <= share <= MOST_SHARE or not is_fair(shape, extent=base.larger_extent):
        return None
    if rotational_symmetry_order(shape, tolerance) > 1:  # it would fit with either end
        return None
    # A join runs against the outline's walk, so that its material lies on the other side.
    dx, dy = contact.direction if build.does is Does.CUT else (-contact.direction[0], -contact.direction[1])
    lies_deg = math.degrees(math.atan2(dy, dx))
    turned = wrapped_deg(lies_deg - rng.choice(turns))
    meets: Side = ((float(contact.start[0]), float(contact.start[1])), _float(contact.end))
    if host is not None:
        one, other = host.motion.inverse().apply_side(meets)
        meets = _float(_grid(one)), _float(_grid(other))
    piece = Piece(
        name=build.name,
        does=build.does,
        corners=_typed(ring),
        side=((float(left), 0.0), (float(left + length), 0.0)),
        meets=min(meets, meets[::-1]),
        of=BASE if host is None else host.piece.name,
        mark=build.mark,
        turned=turned,
    )
    laid = lay(
        piece,
        index=index,
        before=standing,
        earlier=placements,
        tolerance=tolerance,
    )
    placement = laid.placement
    if placement is None or laid.faults or len(placement.after.holes) != build.holes_after:
        return None
    return placement if is_fair(placement.after, extent=base.larger_extent) else None


def _contacts(standing: Outline, rings: tuple[Ring, ...], build: PieceBuild, closing: bool) -> list[_Contact]:
    """Every stretch along the squares where a piece may meet its partner, as long as it may be."""
    contacts = []
    for number, ring in enumerate(standing.rings):
        if bool(number) != build.meets_hole:
            continue
        walked = [(_grid(a), _grid(b)) for a, b in sides(ring)]
        for a, b in walked:
            direction = _direction(a, b)
            if direction is None:
                continue
            for partner in rings:
                for start, end in ((_grid(c), _grid(d)) for c, d in sides(partner)):
                    if _direction(start, end) != direction or _off(a, direction, start):
                        continue
                    low, high = max(0, _at(a, direction, start)), min(_at(a, direction, b), _at(a, direction, end))
                    whole = high - low == _at(start, direction, end)
                    if high - low < LEAST_MARK or not (whole or build.part_of_partner):
                        continue
                    stretch = _Contact(_step(a, direction, low), _step(a, direction, high), direction)
                    contacts += _with_gaps(stretch, walked) if closing else [stretch]
    return contacts


def _with_gaps(contact: _Contact, walked: list[tuple[GridPoint, GridPoint]]) -> list[_Contact]:
    """The contact, once for each further side on its line that a longer piece would reach."""
    found = []
    for a, b in walked:
        if _direction(a, b) != contact.direction or _off(contact.start, contact.direction, a):
            continue
        there, last = _at(contact.end, contact.direction, a), _at(contact.end, contact.direction, b)
        if there > 0:
            found += [_Contact(contact.start, contact.end, contact.direction, r) for r in range(there + 1, last + 1)]
        there, last = _at(contact.start, contact.direction, b), _at(contact.start, contact.direction, a)
        if there < 0:
            found += [
                _Contact(contact.start, contact.end, contact.direction, -r, at_start=True) for r in range(last, there)
            ]
    return found


def _shortened(rng: Random, contact: _Contact, build: PieceBuild) -> _Contact | None:
    """A part of the stretch where the build asks for one, else the whole of it."""
    length = _at(contact.start, contact.direction, contact.end)
    if not build.part_of_partner:
        return contact if length <= MOST_MARK else None
    most = min(MOST_MARK, length - 1)
    if most < LEAST_MARK:
        return None
    part = rng.randint(LEAST_MARK, most)
    low = rng.randint(0, length - part)
    if contact.beyond:  # the mark stays at the end from which the piece reaches over the gap
        low = 0 if contact.at_start else length - part
    start = _step(contact.start, contact.direction, low)
    end = _step(start, contact.direction, part)
    return _Contact(start, end, contact.direction, contact.beyond, contact.at_start)


def _overhang(rng: Random, build: PieceBuild, contact: _Contact) -> tuple[int, int]:
    """How far the piece's side goes on at the start of the mark and at its end, in the piece's own direction."""
    if contact.beyond:
        over = (contact.beyond, 0) if contact.at_start else (0, contact.beyond)
    elif build.part_of_own:
        over = rng.choice(((0, 1), (1, 0), (1, 1), (0, 2), (2, 0), (1, 2), (2, 1)))
    else:
        over = (0, 0)
    return over if build.does is Does.CUT else over[::-1]


def _tidy(ring: GridRing) -> bool:
    """Whether no corner lies on a straight line between its neighbours, or twice in one place."""
    if len(set(ring)) < len(ring):
        return False
    turns = zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True)
    return all((b[0] - a[0]) * (c[1] - b[1]) != (b[1] - a[1]) * (c[0] - b[0]) for a, b, c in turns)


def _direction(start: GridPoint, end: GridPoint) -> GridPoint | None:
    """The unit step along the squares; None for a slanted side."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    if (dx == 0) == (dy == 0):
        return None
    return (dx > 0) - (dx < 0), (dy > 0) - (dy < 0)


def _off(origin: GridPoint, direction: GridPoint, point: GridPoint) -> bool:
    return (point[0] - origin[0]) * direction[1] != (point[1] - origin[1]) * direction[0]


def _at(origin: GridPoint, direction: GridPoint, point: GridPoint) -> int:
    """How many units along the direction a point lies from the origin."""
    return (point[0] - origin[0]) * direction[0] + (point[1] - origin[1]) * direction[1]


def _step(point: GridPoint, direction: GridPoint, units: int) -> GridPoint:
    return point[0] + direction[0] * units, point[1] + direction[1] * units


def _grid(point: Point) -> GridPoint:
    return round(point[0]), round(point[1])


def _float(point: GridPoint) -> Point:
    return float(point[0]), float(point[1])


def _typed(ring: GridRing | list[GridPoint]) -> Ring:
    return tuple(_float(point) for point in ring)

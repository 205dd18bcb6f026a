"""Base and pieces of one sibling, drawn at random on squared paper to a goal.

Each piece is laid on the outline as it stands and taken back to coordinates of its own, where its first side runs from
(0, 0) along the x axis: then all numbers are whole. What comes of it is laid by the solver's own hand.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from random import Random

from ....choice.new_outlines import GridPoint, GridRing, base_ring, is_fair, piece_ring, with_gap
from ....choice.soundness import TOO_FINE_OPTION
from ....geometry.angles import wrapped_deg
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side
from ....geometry.rings import diameter, point_in_polygon, shortest_side, sides
from ....geometry.tolerance import authoring_tolerance
from ..model import BASE, Does, Piece
from ..solving.placement import Placement
from ..solving.placing import lay
from .build import PieceBuild
from .effort import Costs, Effort
from .request import VariationRequest

__all__ = ["Assembled", "assembled"]

TRIES_A_PIECE = 24
TRIES_A_HOLE = 8
BRANCHES, LAST_BRANCHES = 2, 3  # ways to lay a piece, and the last one, that are followed on one base
HIGHEST = 6  # units
MANY_JOINS = 3  # with as many the whole grows so large that sides of one unit are too fine: the base is small then
LEAST_SHARE, MOST_SHARE = 0.07, 0.6  # of the base's area: a piece that is seen, beside a base that is too
LEAST_MARK, MOST_MARK = 2, 6  # units

Walk = list[tuple[GridPoint, GridPoint]]  # the sides of a ring, in order


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
    heights: tuple[int, ...] = ()  # of a piece, one of these; none: any


def assembled(rng: Random, goal: VariationRequest, effort: Effort) -> Iterator[Assembled]:
    """What comes of one base after another, each with its pieces laid, until the effort is spent.

    A base that takes its pieces is used more than once, since finding it costs most.
    """
    while effort.spend(Costs.BASE):
        base = _base(rng, goal)
        contacts = _contacts(base, base, (), goal.build.pieces[0]) if base is not None else []
        if base is not None and contacts:
            effort.reached(0)
            yield from _continued(rng, goal, base, (), contacts, effort)


def _continued(
    rng: Random,
    goal: VariationRequest,
    base: Outline,
    placements: tuple[Placement, ...],
    contacts: Sequence[_Contact],
    effort: Effort,
) -> Iterator[Assembled]:
    """What comes of a base when the pieces that are left are laid on what stands, the next one at a contact."""
    index, pieces = len(placements), goal.build.pieces
    is_last = index + 1 == len(pieces)
    left = LAST_BRANCHES if is_last else BRANCHES
    for _ in range(TRIES_A_PIECE):
        if not effort.spend(Costs.PIECE):
            return
        placement = _piece(rng, goal, contacts, base, placements, effort)
        if placement is None:
            continue
        effort.reached(index + 1)
        after, laid = placement.after, (*placements, placement)
        if is_last:
            # All options share one scale: a side that is too short beside the whole is not seen in a row of them.
            if shortest_side(after.rings) < TOO_FINE_OPTION * diameter(after.exterior):
                continue
            yield Assembled(base, laid)
        else:
            following = _contacts(after, base, laid, pieces[index + 1])
            if not following:
                continue
            yield from _continued(rng, goal, base, laid, following, effort)
        left -= 1
        if not left:
            return


def _base(rng: Random, goal: VariationRequest) -> Outline | None:
    build = goal.build
    holes_after = [build.base_holes, *(piece.holes_after for piece in build.pieces)]
    closing = any(
        later > earlier and piece.does is Does.JOIN
        for earlier, later, piece in zip(holes_after, holes_after[1:], build.pieces, strict=False)
    )
    draw = with_gap if closing and build.base_corners >= 8 else base_ring
    roomy = any(piece.meets_hole and piece.does is Does.JOIN for piece in build.pieces)  # a hole with room for a piece
    # An intricate base has short sides, and they are seen only if the whole is not large.
    least, most = (5, 7) if build.base_corners > 5 or closing or build.base_holes else (4, 8)
    if roomy:
        least, most = 6, 7
    elif sum(piece.does is Does.JOIN for piece in build.pieces) >= MANY_JOINS:
        least, most = 4, 5
    ring = draw(rng, build.base_corners, width=rng.randint(least, most), height=rng.randint(least - 1, most - 1))
    if ring is None or not _tidy(ring) or not is_fair(Outline.of(_typed(ring))):
        return None
    if not build.base_holes:
        return Outline.of(_typed(ring))
    tries = (_with_holes(rng, ring, build.base_holes, roomy=roomy) for _ in range(TRIES_A_HOLE))
    return next((base for base in tries if base is not None), None)


def _with_holes(rng: Random, ring: GridRing, count: int, *, roomy: bool) -> Outline | None:
    """The base with holes somewhere in it; None where a try came to nothing.

    roomy : whether a piece is to be laid in a hole
    """
    holes = []
    for _ in range(count):
        if roomy:
            hole = base_ring(rng, 4, width=rng.randint(3, 5), height=rng.randint(2, 4))
            x, y = rng.randint(1, 2), rng.randint(1, 2)
        else:
            hole = base_ring(rng, rng.choice((3, 4, 4)), width=rng.randint(1, 3), height=rng.randint(1, 3))
            x, y = rng.randint(1, 5), rng.randint(1, 5)
        if hole is None or not _tidy(hole):
            return None
        holes.append([(x + a, y + b) for a, b in hole])
    exterior = _typed(ring)
    if not all(point_in_polygon(corner, (exterior,)) for hole in holes for corner in hole):
        return None
    base = Outline.of(exterior, [_typed(hole) for hole in holes])
    return base if is_fair(base) else None


def _piece(
    rng: Random,
    goal: VariationRequest,
    contacts: Sequence[_Contact],
    base: Outline,
    placements: tuple[Placement, ...],
    effort: Effort,
) -> Placement | None:
    """The next piece, drawn and laid at one of the contacts; None where a try came to nothing."""
    index = len(placements)
    build = goal.build.pieces[index]
    standing, host = placements[-1].after if placements else base, _host(placements, build)
    contact = _shortened(rng, rng.choice(contacts), build)
    if contact is None:
        return None
    length = max(abs(contact.end[0] - contact.start[0]), abs(contact.end[1] - contact.start[1]))
    left, right = _overhang(rng, build, contact)
    height = rng.choice(contact.heights) if contact.heights else rng.randint(1, 4)
    ring = piece_ring(rng, build.corners, width=left + length + right, height=height)
    if ring is None or not _tidy(ring) or _is_symmetric(ring):  # a symmetric one would fit with either end
        return None
    shape = Outline.of(_typed(ring))
    if not LEAST_SHARE <= shape.area / base.area <= MOST_SHARE or not is_fair(shape, extent=base.larger_extent):
        return None
    # A join runs against the outline's walk, so that its material lies on the other side.
    dx, dy = contact.direction if build.does is Does.CUT else (-contact.direction[0], -contact.direction[1])
    lies_deg = math.degrees(math.atan2(dy, dx))
    turned = wrapped_deg(lies_deg - rng.choice(goal.turns[index]))
    meets: Side = _float(contact.start), _float(contact.end)
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
    if not effort.spend(Costs.LAYING):
        return None
    tolerance = authoring_tolerance(base.larger_extent)
    laid = lay(piece, index=index, before=standing, earlier=placements, tolerance=tolerance, only_legal=True)
    placement = laid.placement
    if placement is None or laid.faults or len(placement.after.holes) != build.holes_after:
        return None
    return placement if is_fair(placement.after, extent=base.larger_extent) else None


def _host(placements: tuple[Placement, ...], build: PieceBuild) -> Placement | None:
    """The piece that this one meets; None for the base."""
    return next((placement for placement in placements if placement.piece.name == build.of), None)


def _contacts(standing: Outline, base: Outline, placements: tuple[Placement, ...], build: PieceBuild) -> list[_Contact]:
    """Every stretch along the squares where a piece may meet its partner, as long as it may be."""
    host = _host(placements, build)
    partners = [(_grid(c), _grid(d)) for ring in (base.rings if host is None else (host.ring,)) for c, d in sides(ring)]
    change = build.holes_after - len(standing.holes)
    walks = [[(_grid(a), _grid(b)) for a, b in sides(ring)] for ring in standing.rings]
    contacts: list[_Contact] = []
    for walked in walks[1:] if build.meets_hole else walks[:1]:
        for a, b in walked:
            direction = _direction(a, b)
            if direction is None:
                continue
            for start, end in partners:
                if _direction(start, end) != direction or _off(a, direction, start):
                    continue
                low, high = max(0, _at(a, direction, start)), min(_at(a, direction, b), _at(a, direction, end))
                whole = high - low == _at(start, direction, end)
                if high - low < LEAST_MARK or not (whole or build.part_of_partner):
                    continue
                stretch = _Contact(_step(a, direction, low), _step(a, direction, high), direction)
                if change == 0:
                    contacts.append(stretch)
                elif change > 0 and build.does is Does.JOIN and not build.meets_hole:
                    contacts += _with_gaps(stretch, walked)
                else:
                    found = _with_heights(stretch, walks, build.does)
                    contacts += [found] if found.heights else []
    return contacts


def _with_heights(contact: _Contact, walks: Sequence[Walk], does: Does) -> _Contact:
    """The contact with the heights at which a piece on it just reaches another side: what makes or unmakes a hole."""
    dx, dy = contact.direction
    towards = (-dy, dx) if does is Does.CUT else (dy, -dx)
    length = _at(contact.start, contact.direction, contact.end)
    heights = set()
    for a, b in (side for walked in walks for side in walked):
        if _direction(a, b) != (-dx, -dy):  # the material lies on the other side of what is reached
            continue
        height = _at(contact.start, towards, a)
        low, high = _at(contact.start, contact.direction, b), _at(contact.start, contact.direction, a)
        if 1 <= height <= HIGHEST and min(high, length) > max(low, 0):
            heights.add(height)
    return replace(contact, heights=tuple(sorted(heights)))


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


def _is_symmetric(ring: GridRing) -> bool:
    """Whether half a turn lays a ring on itself: of all turns the one that does, where any does, on squared paper."""
    half, rest = divmod(len(ring), 2)
    if rest:
        return False
    (ax, ay), (bx, by) = ring[0], ring[half]
    return all(a[0] + b[0] == ax + bx and a[1] + b[1] == ay + by for a, b in zip(ring, ring[half:], strict=False))


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

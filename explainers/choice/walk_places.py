"""What there is only one of on an outline, so that it is found again however it is turned: a corner, a side, a hole.

Each is found only where it is plain at a glance: where two may be taken for it, there is none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from ..geometry.locate import distance_to_side
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring, Side
from ..geometry.rings import centroid, interior_angles_deg, sides, signed_area
from .sieves.corner_kinds import Corner, CornerKind, corners_seen
from .sieves.corners_anew import corners_anew

__all__ = [
    "ANEW", "LEAST_SEEN", "LEAST_WALKED", "LONGER", "NEARER", "SEEN", "Looks", "Round", "beside", "hole_meant",
    "holes_meant", "is_apart", "long_beside", "nearest", "off_side", "only", "outstanding", "sharpest",
]  # fmt: skip

# Judgement, no source: what is told apart at a glance.
LONGER = 1.3  # a side is seen to be longer than another
_EQUAL = 1.02  # sides are taken for equally long
_LONGEST = 1.15  # the longest side stands out
NEARER = 1.3  # a corner or a side is seen to be nearer to a hole than another
_LARGER = 1.5  # a hole is seen to be larger than another, by its area
LEAST_WALKED = 0.12  # of the larger extent of the outline: across a hole that is walked round
LEAST_SEEN = 0.03  # the same of a hole that is pointed at
_SHARPER_DEG = 10.0  # a corner is seen to be sharper than another


class Round(StrEnum):
    """Along which ring a way goes."""

    EDGE = "edge"  # the outer one
    HOLE = "hole"  # the only hole
    LARGEST = "largest-hole"
    SMALLEST = "smallest-hole"
    TRIANGLE = "triangular-hole"
    NEAREST = "hole-nearest-to-a-corner"
    SHARPEST = "hole-with-the-sharpest-corner"
    ANY = "any-hole"  # any of several, all of which tell the same


@dataclass(frozen=True, slots=True)
class Looks:
    """How an outline is looked at: there are two ways of it, each of which must find the same.

    corners : of the exterior, in its order
    off     : how far a point lies from a side
    angles  : the angle inside a ring at each of its corners, in degrees
    """

    corners: Callable[[Outline], tuple[Corner, ...]]
    off: Callable[[Point, Side], float]
    angles: Callable[[Ring], tuple[float, ...]]


def holes_meant(outline: Outline, which: Round) -> tuple[Ring, ...]:
    """The hole that is pointed at; where any will do, all of several."""
    if which is Round.ANY:
        return outline.holes if len(outline.holes) > 1 else ()
    one = hole_meant(outline, which, LEAST_SEEN)
    return () if one is None else (one,)


def hole_meant(outline: Outline, which: Round, least: float) -> Ring | None:
    """The hole that is meant; None where it is not seen at a glance which that is."""
    holes = sorted(outline.holes, key=lambda hole: -abs(signed_area(hole)))
    areas = [abs(signed_area(hole)) for hole in holes]
    found: Ring | None = None
    match which:
        case Round.HOLE if len(holes) == 1:
            (found,) = holes
        case Round.LARGEST if len(holes) > 1 and areas[0] >= _LARGER * areas[1]:
            found = holes[0]
        case Round.SMALLEST if len(holes) > 1 and areas[-2] >= _LARGER * areas[-1]:
            found = holes[-1]
        case Round.TRIANGLE if len(holes) > 1:
            triangles = [hole for hole in holes if len(hole) == 3]
            found = triangles[0] if len(triangles) == 1 else None
        case Round.NEAREST if len(holes) > 1:
            near = nearest(outline.exterior, outline.holes, SEEN)
            found = None if near is None else near[1]
        case Round.SHARPEST if holes:
            found = _with_sharpest(outline.holes, SEEN)
        case Round.ANY if len(holes) > 1:
            found = min(holes, key=_width)
    return found if found is not None and _width(found) >= least * outline.larger_extent else None


def only(corners: tuple[Corner, ...], kind: CornerKind) -> tuple[int, None] | None:
    """The number of the only corner that is taken for one of a kind."""
    if any(corner.may_look(kind) for corner in corners):
        return None
    at = [index for index, corner in enumerate(corners) if corner.looks is kind]
    return (at[0], None) if len(at) == 1 else None


def outstanding(points: tuple[Point, ...], *, longest: bool) -> tuple[int, None] | None:
    """The number of the side that is plainly the longest, or the shortest."""
    lengths = [math.dist(*side) for side in sides(points)]
    at, other, *_ = sorted(range(len(points)), key=lambda index: -lengths[index] if longest else lengths[index])
    return (at, None) if is_apart(lengths[at], lengths[other], _LONGEST if longest else LONGER) else None


def nearest(points: tuple[Point, ...], holes: tuple[Ring, ...], looks: Looks) -> tuple[int, Ring] | None:
    """The number of the corner that is plainly the nearest, and the hole to which it is.

    Measured to the edge of the hole and to its middle: where these disagree, so may two children.
    """
    return _least(
        [[_off_point(point, hole, looks) for point in points] for hole in holes],
        [[math.dist(point, centroid(hole)) for point in points] for hole in holes],
        holes,
    )


def beside(walk: Sequence[Side], holes: tuple[Ring, ...], looks: Looks) -> tuple[int, Ring] | None:
    """The number of the side that is plainly the nearest, and the hole to which it is."""
    return _least(
        [[off_side(side, hole, looks) for side in walk] for hole in holes],
        [[looks.off(centroid(hole), side) for side in walk] for hole in holes],
        holes,
    )


def long_beside(points: tuple[Point, ...], holes: tuple[Ring, ...], looks: Looks) -> tuple[int, Ring] | None:
    """Of the two sides that are plainly the longest and equally long, the number of the one nearer to the hole."""
    walk = sides(points)
    lengths = [math.dist(*side) for side in walk]
    first, second, third = sorted(range(len(walk)), key=lambda index: -lengths[index])[:3]
    if is_apart(lengths[first], lengths[second], _EQUAL) or not is_apart(lengths[second], lengths[third], _LONGEST):
        return None
    found = beside([walk[first], walk[second]], holes, looks)
    return None if found is None else ((first, second)[found[0]], found[1])


def _least(offs: list[list[float]], middles: list[list[float]], holes: tuple[Ring, ...]) -> tuple[int, Ring] | None:
    """The number of what is plainly nearest to any hole by both measures, and that hole."""
    if not holes:
        return None
    of = min(range(len(holes)), key=lambda number: min(offs[number]))
    at = min(range(len(offs[of])), key=offs[of].__getitem__)
    others = [off for number, row in enumerate(offs) for index, off in enumerate(row) if (number, index) != (of, at)]
    if not is_apart(offs[of][at], min(others), NEARER) or min(middles[of]) < middles[of][at]:
        return None
    return at, holes[of]


def sharpest(ring: Ring, looks: Looks) -> tuple[int, None] | None:
    """The number of the corner that is plainly the sharpest."""
    angles = looks.angles(ring)
    at, other, *_ = sorted(range(len(ring)), key=angles.__getitem__)
    return (at, None) if angles[other] - angles[at] >= _SHARPER_DEG else None


def _with_sharpest(holes: tuple[Ring, ...], looks: Looks) -> Ring | None:
    """The hole that has the sharpest corner of all."""
    all_angles = [(min(looks.angles(hole[::-1])), hole) for hole in holes]
    found, *others = sorted(all_angles, key=lambda each: each[0])
    return found[1] if all(angle - found[0] >= _SHARPER_DEG for angle, _ in others) else None


def _off_point(point: Point, hole: Ring, looks: Looks) -> float:
    return min(looks.off(point, side) for side in sides(hole))


def off_side(side: Side, hole: Ring, looks: Looks) -> float:
    """How far a side is from a hole that it does not cross."""
    return min(
        min(looks.off(corner, side) for corner in hole),
        min(looks.off(end, own) for end in side for own in sides(hole)),
    )


def is_apart(one: float, other: float, factor: float) -> bool:
    return max(one, other) >= factor * min(one, other)


def _width(ring: Ring) -> float:
    xs, ys = zip(*ring, strict=True)
    return float(min(max(xs) - min(xs), max(ys) - min(ys)))


def _off_anew(point: Point, side: Side) -> float:
    """By the triangle of the three points: its height, or its shorter leg where its foot is beyond the side."""
    (px, py), ((ax, ay), (bx, by)) = point, side
    base = math.dist(*side)
    to_start, to_end = math.dist(point, side[0]), math.dist(point, side[1])
    if abs(to_start**2 - to_end**2) >= base**2:
        return min(to_start, to_end)
    return abs((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / base


def _angles_anew(ring: Ring) -> tuple[float, ...]:
    """By the law of cosines; from the whole turn where the corner points inwards."""
    angles = []
    for before, at, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True):
        one, two, across = math.dist(before, at), math.dist(at, after), math.dist(before, after)
        angle = math.degrees(math.acos(max(-1.0, min(1.0, (one**2 + two**2 - across**2) / (2.0 * one * two)))))
        is_inward = (at[0] - before[0]) * (after[1] - at[1]) < (at[1] - before[1]) * (after[0] - at[0])
        angles.append(360.0 - angle if is_inward else angle)
    return tuple(angles)


SEEN = Looks(corners_seen, distance_to_side, interior_angles_deg)
ANEW = Looks(corners_anew, _off_anew, _angles_anew)

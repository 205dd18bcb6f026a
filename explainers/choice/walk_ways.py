"""Ways round an outline: along which ring, from where, and what comes on it.

A way goes clockwise from a place that there is only once, so that it is found again however the outline is turned. It
goes round the outer edge, or round a hole that is known by itself: the only one, the largest, the smallest.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from ..geometry.locate import distance_to_side
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring, Side
from ..geometry.rings import centroid, sides, signed_area
from .sieves.corner_kinds import Corner, CornerKind, corners_seen
from .sieves.counts import corners_anew

__all__ = [
    "ALONG_A_SIDE", "ANEW", "GOALS", "MOST", "ORDINALS", "SEEN", "Feature", "Looks", "Round", "Start", "Telling", "Way",
    "features", "tellings", "way",
]  # fmt: skip

# Judgement, no source: what is told apart at a glance.
_LONGER = 1.3  # a side is seen to be longer than another
_EQUAL = 1.02  # sides are taken for equally long
_LONGEST = 1.15  # the longest side stands out
_NEARER = 1.3  # a corner or a side is seen to be nearer to a hole than another
_LARGER = 1.5  # a hole is seen to be larger than another, by its area
_LEAST_HOLE = 0.12  # of the larger extent of the outline: across a hole that is walked round
_LEAST_SEEN = 0.03  # the same of a hole that is pointed at
MOST = 3  # features named on a way


class Round(StrEnum):
    """Along which ring a way goes."""

    EDGE = "edge"  # the outer one
    HOLE = "hole"  # the only hole
    LARGEST = "largest-hole"
    SMALLEST = "smallest-hole"
    TRIANGLE = "triangular-hole"
    NEAREST = "hole-nearest-to-a-corner"
    ANY = "any-hole"  # any of several, all of which tell the same


class Start(StrEnum):
    """Where a way begins: what there is only one of."""

    INWARD = "inward"
    SHARP = "sharp"
    RIGHT = "right"
    WIDE = "wide"
    LONGEST = "longest"  # walked along first
    SHORTEST = "shortest"  # walked along first
    AT_HOLE = "at-hole"  # the corner of the outer edge that is nearest to the only hole
    AT_LARGEST = "at-largest-hole"
    AT_SMALLEST = "at-smallest-hole"
    AT_TRIANGLE = "at-triangular-hole"
    AT_ANY = "at-a-hole"  # that is nearest to any of several
    BY_HOLE = "by-hole"  # along the side of the outer edge that is nearest to the only hole
    BY_LARGEST = "by-largest-hole"
    BY_SMALLEST = "by-smallest-hole"
    BY_TRIANGLE = "by-triangular-hole"
    BY_ANY = "by-a-hole"
    LONG_BY_HOLE = "long-by-hole"  # along that of the two longest sides which is the nearer to the only hole


class Feature(StrEnum):
    """What comes on a way."""

    INWARD = "inward"
    SHARP = "sharp"
    RIGHT = "right"
    WIDE = "wide"
    LONGER = "longer"  # the longer of the two sides at the start
    SHORTER = "shorter"
    NEARER = "nearer"  # the nearer of these two to the hole that is spoken of
    FARTHER = "farther"
    NEXT_LONGER = "next-longer"  # the longer of the two sides beside the one that is walked along first
    NEXT_SHORTER = "next-shorter"
    NEXT_NEARER = "next-nearer"  # the nearer of these two to the only hole
    NEXT_FARTHER = "next-farther"
    FIRST = "1st"  # how many corners on the goal comes
    SECOND = "2nd"
    THIRD = "3rd"
    FOURTH = "4th"
    FIFTH = "5th"


ORDINALS = (Feature.FIRST, Feature.SECOND, Feature.THIRD, Feature.FOURTH, Feature.FIFTH)


class Telling(StrEnum):
    """By what a way is told."""

    CORNERS = "corners"
    LENGTHS = "lengths"
    HOLE = "hole"
    NEXT_LENGTHS = "next-lengths"
    NEXT_HOLE = "next-hole"
    REACH = "reach"  # how many corners on another place comes that there is once


# The hole from which a corner or a side is told.
_NEAREST_TO = {
    Start.AT_HOLE: Round.HOLE,
    Start.AT_LARGEST: Round.LARGEST,
    Start.AT_SMALLEST: Round.SMALLEST,
    Start.AT_TRIANGLE: Round.TRIANGLE,
    Start.AT_ANY: Round.ANY,
}
_BESIDE = {
    Start.BY_HOLE: Round.HOLE,
    Start.BY_LARGEST: Round.LARGEST,
    Start.BY_SMALLEST: Round.SMALLEST,
    Start.BY_TRIANGLE: Round.TRIANGLE,
    Start.BY_ANY: Round.ANY,
}
ALONG_A_SIDE = frozenset({Start.LONGEST, Start.SHORTEST, Start.LONG_BY_HOLE, *_BESIDE})
GOALS = tuple(start for start in Start if start not in ALONG_A_SIDE)  # corners that a way may lead to


@dataclass(frozen=True, slots=True)
class Looks:
    """How an outline is looked at: there are two ways of it, each of which must find the same.

    corners : of the exterior, in its order
    off     : how far a point lies from a side
    """

    corners: Callable[[Outline], tuple[Corner, ...]]
    off: Callable[[Point, Side], float]


@dataclass(frozen=True, slots=True)
class Way:
    """Corners in the order in which they come, the start first; what each is seen to be; the hole spoken of, if any."""

    points: tuple[Point, ...]
    corners: tuple[Corner, ...]
    hole: Ring | None = None
    goal: Point | None = None  # the corner that it leads to, if any
    only: Ring | None = None  # the only hole, if the way goes along the outer edge

    @property
    def ends(self) -> tuple[Side, Side]:
        """The side along which it starts, and the one on the other side of its start."""
        return (self.points[0], self.points[1]), (self.points[0], self.points[-1])

    @property
    def beside(self) -> tuple[Side, Side]:
        """Of a way that begins along a side: the side that comes next, and the one on the other side of it."""
        return (self.points[1], self.points[2]), (self.points[0], self.points[-1])


def way(outline: Outline, along: Round, start: Start, looks: Looks, goal: Start | None = None) -> Way | None:
    """Clockwise from the start; None where there is no such ring, start or goal, or more, or it is not clear."""
    led = None if goal is None else way(outline, along, goal, looks)
    if goal is not None and led is None:
        return None
    ring = outline.exterior if along is Round.EDGE else _hole(outline, along, _LEAST_HOLE)
    if ring is None or (along is not Round.EDGE and (start in _NEAREST_TO or start in _BESIDE)):
        return None
    corners = looks.corners(Outline.of(ring))[::-1]
    if along is not Round.EDGE and any(corner.kind is CornerKind.INWARD for corner in corners):
        return None  # what points into a hole is not what points into the shape
    points = tuple(corner.at for corner in corners)
    found: tuple[int, Ring | None] | None
    if start in _NEAREST_TO:
        found = _nearest(points, _holes(outline, _NEAREST_TO[start]), looks)
    elif start in _BESIDE:
        found = _beside(sides(points), _holes(outline, _BESIDE[start]), looks)
    elif start is Start.LONG_BY_HOLE:
        found = _long_beside(points, _holes(outline, Round.HOLE), looks) if along is Round.EDGE else None
    elif start in ALONG_A_SIDE:
        found = _outstanding(points, longest=start is Start.LONGEST)
    else:
        found = _only(corners, CornerKind(start.value))
    if found is None:
        return None
    at, hole = found
    at_start = (at, (at + 1) % len(corners)) if start in ALONG_A_SIDE else (at,)
    if not all(corners[index].is_clear for index in at_start):
        return None
    end = None if led is None else led.points[0]
    only = _hole(outline, Round.HOLE, _LEAST_SEEN) if along is Round.EDGE else None
    return Way(points[at:] + points[:at], corners[at:] + corners[:at], hole, end, only)


def features(found: Way, telling: Telling, count: int, looks: Looks) -> tuple[Feature, ...] | None:
    """What comes on a way; None where that is not plain at a glance.

    count : how many corners
    """
    match telling:
        case Telling.CORNERS:
            named = [corner.looks for corner in found.corners[1 : count + 1]]
            return None if None in named else tuple(Feature(kind.value) for kind in named if kind is not None)
        case Telling.LENGTHS if _are_clear(found, 0, 1, -1):
            return _of_two(_longer(found.ends), Feature.LONGER, Feature.SHORTER)
        case Telling.NEXT_LENGTHS if _are_clear(found, 0, 1, 2, -1):
            return _of_two(_longer(found.beside), Feature.NEXT_LONGER, Feature.NEXT_SHORTER)
        case Telling.HOLE if found.hole is not None and _are_clear(found, 0, 1, -1):
            return _of_two(_nearer(found.ends, found.hole, looks), Feature.NEARER, Feature.FARTHER)
        case Telling.NEXT_HOLE if found.only is not None and _are_clear(found, 0, 1, 2, -1):
            return _of_two(_nearer(found.beside, found.only, looks), Feature.NEXT_NEARER, Feature.NEXT_FARTHER)
        case Telling.REACH:
            at = found.points.index(found.goal) if found.goal is not None else 0
            if not 1 <= at <= len(ORDINALS) or not all(corner.is_clear for corner in found.corners[: at + 1]):
                return None
            return (ORDINALS[at - 1],)
    return None


def _of_two(is_first: bool | None, first: Feature, other: Feature) -> tuple[Feature] | None:
    return None if is_first is None else (first if is_first else other,)


def _longer(two: tuple[Side, Side]) -> bool | None:
    """Whether the first of two sides is the longer; None where that is not seen at a glance."""
    first, last = (math.dist(*side) for side in two)
    return first > last if _is_apart(first, last, _LONGER) else None


def _nearer(two: tuple[Side, Side], hole: Ring, looks: Looks) -> bool | None:
    """Whether the first of two sides is the nearer to a hole; None where that is not seen at a glance."""
    first, last = (_off(side, hole, looks) for side in two)
    middles = [looks.off(centroid(hole), side) for side in two]
    if not _is_apart(first, last, _NEARER) or (first < last) is not (middles[0] < middles[1]):
        return None
    return first < last


def tellings(found: Way, start: Start, looks: Looks) -> Iterator[tuple[Telling, int]]:
    """By what, and by how many features, a way is told from itself flipped, best first."""
    over = _flipped(found, start)

    def differs(telling: Telling, count: int) -> bool:
        both = [features(each, telling, count, looks) for each in (found, over)]
        return None not in both and both[0] != both[1]

    if found.goal is not None:
        if differs(Telling.REACH, 1):
            yield Telling.REACH, 1
        return
    count = next((n for n in range(1, MOST + 1) if differs(Telling.CORNERS, n)), None)
    if count is not None and count < len(found.points) - 1:
        more = min(MOST, max(2, count), len(found.points) - 2)
        yield Telling.CORNERS, more if differs(Telling.CORNERS, more) else count
    sided = (Telling.NEXT_LENGTHS, Telling.NEXT_HOLE) if start in ALONG_A_SIDE else (Telling.LENGTHS, Telling.HOLE)
    for telling in sided:
        if differs(telling, 1):
            yield telling, 1


def _flipped(found: Way, start: Start) -> Way:
    """The same way the other way round: what it is on the flipped outline."""
    turn = 1 if start in ALONG_A_SIDE else 0  # from the other end of that side
    points, corners = found.points[::-1], found.corners[::-1]
    at = len(points) - 1 - turn
    return Way(points[at:] + points[:at], corners[at:] + corners[:at], found.hole, found.goal, found.only)


def _holes(outline: Outline, which: Round) -> tuple[Ring, ...]:
    """The hole that is pointed at; where any will do, all of several."""
    if which is Round.ANY:
        return outline.holes if len(outline.holes) > 1 else ()
    one = _hole(outline, which, _LEAST_SEEN)
    return () if one is None else (one,)


def _hole(outline: Outline, which: Round, least: float) -> Ring | None:
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
            nearest = way(outline, Round.EDGE, Start.AT_ANY, SEEN)
            found = None if nearest is None else nearest.hole
        case Round.ANY if len(holes) > 1:
            found = min(holes, key=_width)
    return found if found is not None and _width(found) >= least * outline.larger_extent else None


def _only(corners: tuple[Corner, ...], kind: CornerKind) -> tuple[int, None] | None:
    """The number of the only corner that is taken for one of a kind."""
    if any(corner.may_look(kind) for corner in corners):
        return None
    at = [index for index, corner in enumerate(corners) if corner.looks is kind]
    return (at[0], None) if len(at) == 1 else None


def _outstanding(points: tuple[Point, ...], *, longest: bool) -> tuple[int, None] | None:
    """The number of the side that is plainly the longest, or the shortest."""
    lengths = [math.dist(*side) for side in sides(points)]
    at, other, *_ = sorted(range(len(points)), key=lambda index: -lengths[index] if longest else lengths[index])
    return (at, None) if _is_apart(lengths[at], lengths[other], _LONGEST if longest else _LONGER) else None


def _nearest(points: tuple[Point, ...], holes: tuple[Ring, ...], looks: Looks) -> tuple[int, Ring] | None:
    """The number of the corner that is plainly the nearest, and the hole to which it is.

    Measured to the edge of the hole and to its middle: where these disagree, so may two children.
    """
    return _least(
        [[_off_point(point, hole, looks) for point in points] for hole in holes],
        [[math.dist(point, centroid(hole)) for point in points] for hole in holes],
        holes,
    )


def _beside(walk: Sequence[Side], holes: tuple[Ring, ...], looks: Looks) -> tuple[int, Ring] | None:
    """The number of the side that is plainly the nearest, and the hole to which it is."""
    return _least(
        [[_off(side, hole, looks) for side in walk] for hole in holes],
        [[looks.off(centroid(hole), side) for side in walk] for hole in holes],
        holes,
    )


def _long_beside(points: tuple[Point, ...], holes: tuple[Ring, ...], looks: Looks) -> tuple[int, Ring] | None:
    """Of the two sides that are plainly the longest and equally long, the number of the one nearer to the hole."""
    walk = sides(points)
    lengths = [math.dist(*side) for side in walk]
    first, second, third = sorted(range(len(walk)), key=lambda index: -lengths[index])[:3]
    if _is_apart(lengths[first], lengths[second], _EQUAL) or not _is_apart(lengths[second], lengths[third], _LONGEST):
        return None
    found = _beside([walk[first], walk[second]], holes, looks)
    return None if found is None else ((first, second)[found[0]], found[1])


def _least(offs: list[list[float]], middles: list[list[float]], holes: tuple[Ring, ...]) -> tuple[int, Ring] | None:
    """The number of what is plainly nearest to any hole by both measures, and that hole."""
    if not holes:
        return None
    of = min(range(len(holes)), key=lambda number: min(offs[number]))
    at = min(range(len(offs[of])), key=offs[of].__getitem__)
    others = [off for number, row in enumerate(offs) for index, off in enumerate(row) if (number, index) != (of, at)]
    if not _is_apart(offs[of][at], min(others), _NEARER) or min(middles[of]) < middles[of][at]:
        return None
    return at, holes[of]


def _off_point(point: Point, hole: Ring, looks: Looks) -> float:
    return min(looks.off(point, side) for side in sides(hole))


def _off(side: Side, hole: Ring, looks: Looks) -> float:
    """How far a side is from a hole that it does not cross."""
    return min(
        min(looks.off(corner, side) for corner in hole),
        min(looks.off(end, own) for end in side for own in sides(hole)),
    )


def _are_clear(found: Way, *numbers: int) -> bool:
    """Whether the corners of these numbers are seen at a glance, so that the sides between them begin and end there."""
    return all(found.corners[number].is_clear for number in numbers)


def _is_apart(one: float, other: float, factor: float) -> bool:
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


SEEN = Looks(corners_seen, distance_to_side)
ANEW = Looks(corners_anew, _off_anew)

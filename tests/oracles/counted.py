"""What can be counted on an outline without laying it on anything: corners by kind, neighbours, ratios of sides.

Exact wherever the statement is: corners are taken as fractions (a float is one), so that which way a corner points, and
whether its angle is less than, equal to or more than a right one, are signs of whole products. Only the documented
leeway (how near to a right angle is one, what is too flat or too short to be seen) is reckoned in decimals. Nothing
here is imported from the package under test.

A ring is a sequence of (x, y) without needless corners, material on its left.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from shapely import Polygon

Point = tuple[float, float]
Ring = Sequence[Point]

RIGHT_DEG = 3.0  # within so much of 90 degrees an angle is a right one
CLEAR_DEG = 15.0  # a corner that is flatter may be overlooked; a sharp or wide one that is nearer to 90 is not told
LEAST_SIDE = 0.04  # of the larger extent: a corner at a shorter side may be overlooked
_SLACK = 1e-6  # relative: where a measure is within this of its limit, either answer will do


@dataclass(frozen=True)
class Seen:
    """A corner: right, sharp, wide or inward; whether that it is one is plain, and whether its kind is.

    may_be : the kinds that it may be taken for; "notch" is an inward one into which a right angle fits
    """

    kind: str
    is_clear: bool
    is_known: bool
    is_notch: bool
    may_be: frozenset[str]


def _exact(point: Point) -> tuple[Fraction, Fraction]:
    return Fraction(point[0]), Fraction(point[1])


def seen(ring: Ring) -> list[Seen]:
    """The corners of a ring in its order."""
    least = LEAST_SIDE * _extent(ring)
    return [_seen(ring[i - 1], ring[i], ring[(i + 1) % len(ring)], least) for i in range(len(ring))]


def _seen(before: Point, at: Point, after: Point, least: float) -> Seen:
    (bx, by), (x, y), (ax, ay) = map(_exact, (before, at, after))
    back, on = (bx - x, by - y), (ax - x, ay - y)
    side = on[0] * back[1] - on[1] * back[0]  # positive: the corner points outwards
    dot = on[0] * back[0] + on[1] * back[1]  # positive: less than a right angle
    lengths = math.dist(before, at), math.dist(at, after)
    cosine = float(dot) / math.prod(lengths)
    inside = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
    if side < 0:
        kind = "inward"
    elif dot == 0 or abs(inside - 90.0) <= RIGHT_DEG:
        kind = "right"
    else:
        kind = "sharp" if dot > 0 else "wide"
    is_bent = 180.0 - inside >= CLEAR_DEG * (1 - _SLACK)
    is_long = min(lengths) >= least * (1 - _SLACK)
    is_square = dot == 0 or abs(inside - 90.0) <= RIGHT_DEG
    is_told = is_square or abs(inside - 90.0) >= CLEAR_DEG * (1 - _SLACK)  # from a square one
    may_be = {kind} | ({"notch"} if kind == "inward" and is_square else set())
    if not is_long:
        may_be = {"right", "sharp", "wide", "inward", "notch"}
    elif not is_bent:
        may_be = {"wide", "inward"}
    elif not is_told:
        may_be |= {"notch"} if kind == "inward" else {"right"}
    is_known = kind == "inward" or is_told
    return Seen(kind, is_bent and is_long, is_known, kind == "inward" and is_square, frozenset(may_be))


def count(counted: str, rings: Sequence[Ring]) -> int:
    """How many there are: "corners" of the outer edge, "holes", or corners of the outer edge of a kind."""
    if counted == "holes":
        outer = Polygon(rings[0])
        return sum(outer.contains(Polygon(ring)) for ring in rings[1:])
    if counted == "corners":
        return len(rings[0])
    if counted == "notches":
        return sum(corner.is_notch for corner in seen(rings[0]))
    return sum(corner.kind == counted for corner in seen(rings[0]))


def most_and_least(counted: str, rings: Sequence[Ring]) -> tuple[int, int]:
    """The fewest and the most that a child may count on the outer edge."""
    if counted == "holes":
        plain = [ring for ring in rings[1:] if _width(ring) >= 0.03 * _extent(rings[0])]
        return len(plain), len(rings) - 1
    corners = seen(rings[0])
    if counted == "corners":
        return sum(corner.is_clear for corner in corners), len(corners)
    # None can be taken for anything but what it may be, nor be overlooked where it is clear.
    if counted == "notches":
        return sum(c.is_clear and c.is_notch for c in corners), sum("notch" in c.may_be for c in corners)
    plain = sum(c.kind == counted and c.is_clear and c.is_known for c in corners)
    doubtful = [c for c in corners if not (c.is_clear and c.is_known)]
    return plain, plain + sum(counted in c.may_be for c in doubtful)


def all_known(ring: Ring) -> bool:
    """Whether each corner is seen at a glance for what it is."""
    return all(corner.is_clear and corner.is_known for corner in seen(ring))


def all_clear(ring: Ring) -> bool:
    """Whether each corner is seen at a glance to be one."""
    return all(corner.is_clear for corner in seen(ring))


def neighbours(ring: Ring, one: str, other: str) -> int:
    """How many sides run between a corner of the one kind and a corner of the other."""
    kinds = [corner.kind for corner in seen(ring)]
    return sum({kinds[i - 1], kinds[i]} == {one, other} for i in range(len(kinds)))


def between(ring: Ring, kind: str) -> int | None:
    """How many corners lie between the only two of a kind, the shorter way; None where there are not two."""
    at = [index for index, corner in enumerate(seen(ring)) if corner.kind == kind]
    if len(at) != 2:
        return None
    one_way = at[1] - at[0] - 1
    return min(one_way, len(ring) - 2 - one_way)


def squared_ratio(ring: Ring, pair: str) -> Fraction | None:
    """The square of how many times as long the longer of two sides is; None where it is not clear which two."""
    squares = [_squared(ring[i], ring[(i + 1) % len(ring)]) for i in range(len(ring))]
    kinds = [corner.kind for corner in seen(ring)]
    longest, *others = sorted(squares, reverse=True)
    match pair.split("-"):
        case ["at", kind]:
            if kinds.count(kind) != 1:
                return None
            at = kinds.index(kind)
            one, two = squares[at - 1], squares[at]
        case ["gap", kind]:
            ends = [i for i in range(len(ring)) if kinds[i] == kinds[(i + 1) % len(ring)] == kind]
            if kinds.count(kind) != 2 or not ends:
                return None
            one, two = longest, squares[ends[0]]
        case ["longest"]:
            one, two = longest, others[0]
        case _:  # the longest and the shortest
            one, two = longest, others[-1]
    return max(one, two) / min(one, two)


def walk(ring: Ring, start: str) -> tuple[list[Point], list[str]] | None:
    """The corners clockwise from the only one of a kind, or along the one longest side; None where there is not one."""
    points, kinds = list(ring)[::-1], [corner.kind for corner in seen(ring)][::-1]
    if start == "longest":
        squares = [_squared(points[i], points[(i + 1) % len(points)]) for i in range(len(points))]
        at = max(range(len(points)), key=squares.__getitem__)
        if sorted(squares)[-1] == sorted(squares)[-2]:
            return None
    else:
        if kinds.count(start) != 1:
            return None
        at = kinds.index(start)
    return points[at:] + points[:at], kinds[at:] + kinds[:at]


def _squared(one: Point, other: Point) -> Fraction:
    (x, y), (u, v) = _exact(one), _exact(other)
    return (x - u) ** 2 + (y - v) ** 2


def _extent(ring: Ring) -> float:
    xs, ys = zip(*ring, strict=True)
    return max(max(xs) - min(xs), max(ys) - min(ys))


def _width(ring: Ring) -> float:
    xs, ys = zip(*ring, strict=True)
    return min(max(xs) - min(xs), max(ys) - min(ys))

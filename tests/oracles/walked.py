"""What comes on a walk round an outline, by shapely and exact squares: what the package says of walks is held to this.

Names of rings, starts and features are those that the package writes; nothing of it is imported. A walk that is not
plain (two places may be taken for its start, two lengths are hardly told apart) is None.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from oracles import counted
from oracles.counted import Point, Ring
from shapely import LineString, Polygon
from shapely import Point as Spot

LONGER, LONGEST, NEARER, LARGER, SHARPER_DEG = 1.3, 1.15, 1.3, 1.5, 10.0
_SLACK = 1e-9

ORDINALS = ("1st", "2nd", "3rd", "4th", "5th")
Rings = Sequence[Ring]


def comes(rings: Rings, along: str, start: str, goal: str | None, told: Sequence[str]) -> tuple[str, ...] | None:
    """What comes clockwise from the start, in the same way of telling as what is told."""
    if along == "any-hole":  # each of them must tell the same
        each = {comes((rings[0], hole), "hole", start, goal, told) for hole in rings[1:]}
        return each.pop() if len(each) == 1 and len(rings) > 2 else None
    ring = rings[0] if along == "edge" else _hole(rings, along)
    if ring is None:
        return None
    points = _clockwise(ring)
    at = _start(rings, points, start)
    if at is None:
        return None
    points = points[at:] + points[:at]
    corners = counted.seen(points[::-1])[::-1]
    if told[0] in ORDINALS:
        assert goal is not None
        reached = _start(rings, points, goal)
        if not reached or reached > len(ORDINALS) or not all(corner.is_clear for corner in corners[: reached + 1]):
            return None
        return (ORDINALS[reached - 1],)
    walk = [(points[i], points[(i + 1) % len(points)]) for i in range(len(points))]
    if told[0].startswith("next-"):
        first, last, names = walk[1], walk[-1], ("next-longer", "next-shorter", "next-nearer", "next-farther")
    else:
        first, last, names = walk[0], walk[-1], ("longer", "shorter", "nearer", "farther")
    if told[0] in names[:2]:
        return _of_two(math.dist(*first), math.dist(*last), LONGER, names[:2])
    if told[0] in names[2:]:
        hole = _hole(rings, "hole") if told[0].startswith("next-") else _hole_of(rings, start, points[0])
        if hole is None:
            return None
        offs = [LineString(side).distance(Polygon(hole)) for side in (first, last)]
        return _of_two(offs[1], offs[0], NEARER, names[2:])  # the nearer is the one that is less far
    named = corners[1 : len(told) + 1]
    return tuple(corner.kind for corner in named) if all(c.is_clear and c.is_known for c in named) else None


def _of_two(one: float, other: float, factor: float, names: tuple[str, ...]) -> tuple[str, ...] | None:
    if max(one, other) < factor * min(one, other) * (1 - _SLACK):
        return None
    return (names[0] if one > other else names[1],)


def _hole(rings: Rings, which: str) -> Ring | None:
    holes = sorted(rings[1:], key=lambda hole: Polygon(hole).area)
    areas = [Polygon(hole).area for hole in holes]
    triangles = [hole for hole in holes if len(hole) == 3]
    if not holes or ((which == "hole") is not (len(holes) == 1) and which != "hole-with-the-sharpest-corner"):
        return None
    match which:
        case "hole":
            return holes[0]
        case "largest-hole":
            return holes[-1] if areas[-1] >= LARGER * areas[-2] * (1 - _SLACK) else None
        case "smallest-hole":
            return holes[0] if areas[1] >= LARGER * areas[0] * (1 - _SLACK) else None
        case "triangular-hole":
            return triangles[0] if len(triangles) == 1 else None
        case "hole-nearest-to-a-corner":
            offs = sorted(
                (Polygon(hole).distance(Spot(corner)), i) for i, hole in enumerate(holes) for corner in rings[0]
            )
            return holes[offs[0][1]] if offs[1][0] >= NEARER * offs[0][0] * (1 - _SLACK) else None
        case _:
            sharpest = sorted((min(_angles(hole)), i) for i, hole in enumerate(holes))
            is_plain = len(sharpest) == 1 or sharpest[1][0] - sharpest[0][0] >= SHARPER_DEG * (1 - _SLACK)
            return holes[sharpest[0][1]] if is_plain else None


def _hole_of(rings: Rings, start: str, corner: Point) -> Ring | None:
    """The hole from which a start is told."""
    which = start.split("-", 1)[1]
    if which == "a-hole":
        return min(rings[1:], key=lambda hole: Polygon(hole).distance(Spot(corner)))
    return _hole(rings, which)


def _start(rings: Rings, points: list[Point], start: str) -> int | None:
    """The number of the corner from which it goes."""
    squares = [_squared(points[i], points[(i + 1) % len(points)]) for i in range(len(points))]
    walk = [LineString((points[i], points[(i + 1) % len(points)])) for i in range(len(points))]
    by_length = sorted(range(len(points)), key=squares.__getitem__)
    if start == "longest":
        is_plain = squares[by_length[-1]] >= LONGEST**2 * squares[by_length[-2]] * (1 - _SLACK)
        return by_length[-1] if is_plain else None
    if start == "shortest":
        is_plain = squares[by_length[1]] >= LONGER**2 * squares[by_length[0]] * (1 - _SLACK)
        return by_length[0] if is_plain else None
    if start == "sharpest":
        angles = _angles(points)
        first, second, *_ = sorted(range(len(points)), key=angles.__getitem__)
        return first if angles[second] - angles[first] >= SHARPER_DEG * (1 - _SLACK) else None
    if start == "long-by-hole":
        hole = _hole(rings, "hole")
        two = by_length[-2:]
        if hole is None or squares[two[0]] < LONGEST**2 * squares[by_length[-3]] * (1 - _SLACK):
            return None
        near, far = sorted(two, key=lambda index: walk[index].distance(Polygon(hole)))
        offs = [walk[index].distance(Polygon(hole)) for index in (near, far)]
        return near if offs[1] >= NEARER * offs[0] * (1 - _SLACK) else None
    if start.startswith(("at-", "by-")):
        how, which = start.split("-", 1)
        hole = None if which == "a-hole" else _hole(rings, which)
        holes = rings[1:] if which == "a-hole" else [] if hole is None else [hole]
        places = [Spot(point) for point in points] if how == "at" else walk
        offs_of = sorted((Polygon(hole).distance(place), i) for hole in holes for i, place in enumerate(places))
        if not offs_of or offs_of[1][0] < NEARER * offs_of[0][0] * (1 - _SLACK):
            return None
        return offs_of[0][1]
    kinds = [corner.kind for corner in counted.seen(points[::-1])[::-1]]
    return kinds.index(start) if kinds.count(start) == 1 else None


def _clockwise(ring: Ring) -> list[Point]:
    return list(ring)[::-1] if Polygon(ring).exterior.is_ccw else list(ring)


def _angles(ring: Ring) -> list[float]:
    """Inside a ring, by the cosine of what the two sides span, more than 180 where it points inwards."""
    points, found = _clockwise(ring), []
    for i, (x, y) in enumerate(ring):
        (a, b), (c, d) = ring[i - 1], ring[(i + 1) % len(ring)]
        angle = math.degrees(
            abs(math.atan2((a - x) * (d - y) - (b - y) * (c - x), (a - x) * (c - x) + (b - y) * (d - y)))
        )
        j = points.index((x, y))
        (p, q), (r, s) = points[j - 1], points[(j + 1) % len(points)]
        is_inward = (x - p) * (s - y) - (y - q) * (r - x) > 0  # a left turn of a clockwise ring
        found.append(360.0 - angle if is_inward else angle)
    return found


def _squared(one: Point, other: Point) -> float:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2

"""Shapes as sets of quarter-squares: joining and cutting are then set operations, exact and free of any geometry code.

Each unit square is split by its diagonals into four triangles, numbered 0 south, 1 east, 2 north, 3 west. Points stand
in doubled coordinates, so that the middle of a square is a whole number too: a square has sides of length 2. Half a
square is two neighbouring quarters; a whole one is four. Nothing here is imported from the package under test.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

Quarter = tuple[int, int, int]
Shape = frozenset[Quarter]
IntPoint = tuple[int, int]
IntRing = tuple[IntPoint, ...]


def triangle(quarter: Quarter) -> tuple[IntPoint, IntPoint, IntPoint]:
    """Corners of a quarter, anticlockwise."""
    x, y, which = quarter
    corners = [(2 * x, 2 * y), (2 * x + 2, 2 * y), (2 * x + 2, 2 * y + 2), (2 * x, 2 * y + 2)]
    return corners[which], corners[(which + 1) % 4], (2 * x + 1, 2 * y + 1)


def neighbours(quarter: Quarter) -> Iterator[Quarter]:
    """The three quarters that share a side with this one."""
    x, y, which = quarter
    yield x, y, (which + 1) % 4
    yield x, y, (which + 3) % 4
    dx, dy = ((0, -1), (1, 0), (0, 1), (-1, 0))[which]
    yield x + dx, y + dy, (which + 2) % 4


def halves(x: int, y: int) -> list[Shape]:
    """The four half-squares of one square."""
    return [frozenset({(x, y, which), (x, y, (which + 1) % 4)}) for which in range(4)]


def squares(cells: Iterable[tuple[int, int]]) -> Shape:
    """Whole squares."""
    return frozenset((x, y, which) for x, y in cells for which in range(4))


def rings_of(shape: Shape) -> tuple[IntRing, tuple[IntRing, ...]] | None:
    """(exterior anticlockwise, holes clockwise), corners only; None where in parts or pinched to a point."""
    following: dict[IntPoint, list[IntPoint]] = defaultdict(list)
    steps = {step for quarter in shape for step in steps_of(quarter)}
    for start, end in steps:
        if (end, start) not in steps:
            following[start].append(end)
    if not following or any(len(ends) > 1 for ends in following.values()):
        return None
    outer: list[IntRing] = []
    holes: list[IntRing] = []
    left = dict(following)
    while left:
        start = min(left)
        ring = [start]
        point = left.pop(start)[0]
        while point != start:
            ring.append(point)
            point = left.pop(point)[0]
        corners = straightened(tuple(ring))
        (outer if doubled_area(corners) > 0 else holes).append(corners)
    return (outer[0], tuple(sorted(holes))) if len(outer) == 1 else None


def steps_of(quarter: Quarter) -> Iterator[tuple[IntPoint, IntPoint]]:
    """The three sides of a quarter, walked with the quarter on the left."""
    a, b, c = triangle(quarter)
    yield from ((a, b), (b, c), (c, a))


def straightened(ring: IntRing) -> IntRing:
    """Without points in the middle of a straight run."""
    kept = []
    for i, (x, y) in enumerate(ring):
        (ax, ay), (bx, by) = ring[i - 1], ring[(i + 1) % len(ring)]
        if (x - ax) * (by - y) != (y - ay) * (bx - x):
            kept.append((x, y))
    return tuple(kept)


def doubled_area(ring: IntRing) -> int:
    """Twice the signed area, exact."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True))


def sides_of(ring: IntRing) -> list[tuple[IntPoint, IntPoint]]:
    """Each side as (start, end)."""
    return list(zip(ring, ring[1:] + ring[:1], strict=True))

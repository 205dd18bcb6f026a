"""New outlines on squared paper, and whether an outline is good to look at.

An outline is a plain start, then bites and peaks until it has the corners that are asked for; every corner is a whole
number of units. A base and a piece are drawn in the same way; a piece keeps its bottom side, from (0, 0) along the x
axis, because there it meets its partner.

Good to look at is one without a short side, a needle or a narrow neck. The demands are ours, measured on drawings;
there is no source for them.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from ..geometry.outline import Outline
from ..geometry.rings import interior_angles_deg, shortest_side, sides
from ..geometry.simple import meeting, self_contact

__all__ = ["GridPoint", "GridRing", "base_ring", "is_fair", "piece_ring", "with_gap"]

GridPoint = tuple[int, int]
GridRing = tuple[GridPoint, ...]
Bite = Callable[[Random, GridRing, int], GridRing | None]

SHORTEST_SIDE = 1 / 8  # of the larger extent
NARROWEST = 1 / 11  # of the larger extent: what keeps two parts of the boundary apart
SHARPEST_DEG = 26.0
BLUNTEST_DEG = 165.0  # nearer to straight, a corner is easily overlooked


def base_ring(rng: Random, corners: int, *, width: int, height: int) -> GridRing | None:
    """An outline anticlockwise, its box from (0, 0), any way round and any side up; None where a try came to nothing.

    Bites may make it smaller than ``width`` by ``height``, peaks larger.
    """
    ring = _grown(rng, corners, width, height, whole_bottom=False)
    return None if ring is None else _laid_anyhow(rng, ring)


def piece_ring(rng: Random, corners: int, *, width: int, height: int) -> GridRing | None:
    """A piece anticlockwise from (0, 0), its first side along the x axis and ``width`` long; None as above."""
    return _grown(rng, corners, width, height, whole_bottom=True)


def with_gap(rng: Random, corners: int, *, width: int, height: int) -> GridRing | None:
    """A base that has a notch in one side, such that another piece can close it into a hole; at least 8 corners."""
    ring: GridRing | None = ((0, 0), (width, 0), (width, height), (0, height))
    ring = ring and _notch(rng, ring, 2)
    ring = ring and _bitten(rng, ring, corners, first=0)
    return None if ring is None else _laid_anyhow(rng, ring)


def _grown(rng: Random, corners: int, width: int, height: int, *, whole_bottom: bool) -> GridRing | None:
    if corners == 3:
        return ((0, 0), (width, 0), (rng.choice((0, 0, width, width, rng.randint(0, width))), height))
    starts = (_rectangle, _slanted, _tapered, _leaning)
    # A rectangle has most corners to bite; with none to bite it would be nothing new.
    weights = (1, 3, 2, 1) if corners == 4 else (4, 2, 1, 1)
    start = rng.choices(starts, weights)[0](rng, width, height)
    return _bitten(rng, start, corners, first=1 if whole_bottom else 0)


def _bitten(rng: Random, ring: GridRing, corners: int, *, first: int) -> GridRing | None:
    """The ring after bites that bring it to so many corners; the sides before number ``first`` stay as they are."""
    for _ in range(4 * corners):
        left = corners - len(ring)
        if left == 0:
            return ring
        bites: list[Bite] = [
            bite
            for bite, cost in ((_corner_off, 1), (_peak, 1), (_step, 2), (_step, 2), (_dart, 3), (_notch, 4))
            if cost <= left
        ]
        bite = rng.choice(bites)
        # What is taken off a corner shortens the side before it too.
        lowest = first + 1 if first and bite in (_corner_off, _step) else first
        ring = bite(rng, ring, rng.randrange(lowest, len(ring))) or ring
    return None


def _rectangle(_rng: Random, width: int, height: int) -> GridRing:
    return (0, 0), (width, 0), (width, height), (0, height)


def _slanted(rng: Random, width: int, height: int) -> GridRing:
    """One of the upright sides shorter than the other."""
    short = rng.randint(1, max(1, height - 1))
    left, right = rng.choice(((short, height), (height, short)))
    return (0, 0), (width, 0), (width, right), (0, left)


def _tapered(rng: Random, width: int, height: int) -> GridRing:
    """The top shorter than the bottom: at one end, or at both."""
    left = rng.randint(0, max(0, width - 2))
    right = rng.randint(0 if left else 1, max(1, width - 1 - left))
    return (0, 0), (width, 0), (width - right, height), (left, height)


def _leaning(rng: Random, width: int, height: int) -> GridRing:
    lean = rng.choice((-1, 1)) * rng.randint(1, max(1, min(3, height)))
    return (0, 0), (width, 0), (width + lean, height), (lean, height)


def _corner_off(rng: Random, ring: GridRing, at: int) -> GridRing | None:
    """A right-angled corner cut off along a slanted line."""
    found = _right_angle(ring, at)
    if found is None:
        return None
    (back, back_most), (on, on_most) = found
    if min(back_most, on_most) < 2:
        return None
    one, two = rng.randint(1, back_most - 1), rng.randint(1, on_most - 1)
    return (*ring[:at], _along(ring[at], back, one), _along(ring[at], on, two), *ring[at + 1 :])


def _step(rng: Random, ring: GridRing, at: int) -> GridRing | None:
    """A rectangle taken out of a right-angled corner."""
    found = _right_angle(ring, at)
    if found is None:
        return None
    (back, back_most), (on, on_most) = found
    if min(back_most, on_most) < 2:
        return None
    one, two = rng.randint(1, back_most - 1), rng.randint(1, on_most - 1)
    start, end = _along(ring[at], back, one), _along(ring[at], on, two)
    return (*ring[:at], start, _along(start, on, two), end, *ring[at + 1 :])


def _peak(rng: Random, ring: GridRing, at: int) -> GridRing | None:
    """A side drawn out to a point, or in."""
    found = _upright(ring, at)
    if found is None or found[1] < 2:
        return None
    direction, length = found
    out = (direction[1], -direction[0])
    tip = _along(_along(ring[at], direction, rng.randint(1, length - 1)), out, rng.choice((1, 1, 2, -1)))
    return (*ring[: at + 1], tip, *ring[at + 1 :])


def _dart(rng: Random, ring: GridRing, at: int) -> GridRing | None:
    """A triangle taken out of a side."""
    found = _upright(ring, at)
    if found is None or found[1] < 4:
        return None
    direction, length = found
    inward = (-direction[1], direction[0])
    mouth = rng.randint(2, length - 2)
    start = _along(ring[at], direction, rng.randint(1, length - mouth - 1))
    tip = _along(_along(start, direction, rng.randint(0, mouth)), inward, rng.randint(1, 3))
    return (*ring[: at + 1], start, tip, _along(start, direction, mouth), *ring[at + 1 :])


def _notch(rng: Random, ring: GridRing, at: int) -> GridRing | None:
    """A rectangle taken out of a side."""
    found = _upright(ring, at)
    if found is None or found[1] < 3:
        return None
    direction, length = found
    inward = (-direction[1], direction[0])
    mouth = rng.randint(1, length - 2)
    start = _along(ring[at], direction, rng.randint(1, length - mouth - 1))
    end = _along(start, direction, mouth)
    depth = rng.randint(1, 4)
    return (*ring[: at + 1], start, _along(start, inward, depth), _along(end, inward, depth), end, *ring[at + 1 :])


def _along(point: GridPoint, direction: GridPoint, steps: int) -> GridPoint:
    return point[0] + direction[0] * steps, point[1] + direction[1] * steps


def _upright(ring: GridRing, at: int) -> tuple[GridPoint, int] | None:
    """(direction, length) of side ``at`` where it runs along the squares."""
    (ax, ay), (bx, by) = ring[at], ring[(at + 1) % len(ring)]
    length = max(abs(bx - ax), abs(by - ay))
    if length == 0 or (ax != bx and ay != by):
        return None
    return ((bx - ax) // length, (by - ay) // length), length


def _right_angle(ring: GridRing, at: int) -> tuple[tuple[GridPoint, int], tuple[GridPoint, int]] | None:
    """(direction, length) from a right-angled corner that points outward, back along the ring, then on."""
    before, after = _upright(ring, at - 1 if at else len(ring) - 1), _upright(ring, at)
    if before is None or after is None:
        return None
    (bx, by), (ax, ay) = before[0], after[0]
    if bx * ay - by * ax != 1:
        return None
    return ((-bx, -by), before[1]), after


def _laid_anyhow(rng: Random, ring: GridRing) -> GridRing:
    """Turned by quarters, perhaps turned over, its box from (0, 0), its lowest corner on the left first."""
    if rng.random() < 0.5:
        ring = tuple((-x, y) for x, y in reversed(ring))
    for _ in range(rng.randrange(4)):
        ring = tuple((-y, x) for x, y in ring)
    left, bottom = min(x for x, _ in ring), min(y for _, y in ring)
    ring = tuple((x - left, y - bottom) for x, y in ring)
    first = min(range(len(ring)), key=lambda i: (ring[i][1], ring[i][0]))
    return ring[first:] + ring[:first]


def is_fair(outline: Outline, *, extent: float | None = None) -> bool:
    """Whether a drawing of the outline shows each of its corners.

    extent : the larger extent of what it is drawn beside; left out, its own
    """
    size = max(extent or 0.0, outline.larger_extent)
    if shortest_side(outline.rings) < SHORTEST_SIDE * size - 1e-9:
        return False
    if any(not _plain(angle) for ring in outline.rings for angle in interior_angles_deg(ring)):
        return False
    narrow = NARROWEST * outline.larger_extent
    if any(self_contact(ring, narrow) is not None for ring in outline.rings):
        return False
    return not any(
        meeting(one, other, narrow)
        for i, ring in enumerate(outline.rings)
        for later in outline.rings[i + 1 :]
        for one in sides(ring)
        for other in sides(later)
    )


def _plain(angle_deg: float) -> bool:
    bend = min(angle_deg, 360.0 - angle_deg)
    return SHARPEST_DEG <= bend <= BLUNTEST_DEG

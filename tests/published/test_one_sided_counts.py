"""Shapes counted up to turning: the counts in the literature must come out of the matcher.

Sources: OEIS A000988 (polyominoes, one-sided) and A151519 (half-squares, one-sided). A matcher that let mirror images
through would give the free counts instead, OEIS A000105: 1, 1, 2, 5, 12, 35, and A006074: 1, 3, 4, 14, 30, 107.
No two half-square shapes of one size coincide by a turn of 45 degrees either: sides along the grid are whole numbers,
slanting ones multiples of the square root of 2. Mirror-symmetric polyominoes: A030227: 3, 6, 10 for n = 4, 5, 6.
"""

from __future__ import annotations

import cmath
import random
from collections.abc import Iterator

import pytest
from oracles import lattice
from oracles.lattice import IntPoint, Shape

from explainers.geometry.congruence import Match, congruence, is_chiral, motions_onto
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion
from explainers.geometry.tolerance import authoring_tolerance

POLYOMINOES = {1: 1, 2: 1, 3: 2, 4: 7, 5: 18, 6: 60}
HALF_SQUARES = {1: 1, 2: 4, 3: 6, 4: 22, 5: 56, 6: 198}
SYMMETRIC_POLYOMINOES = {4: 3, 5: 6, 6: 10}


def polyominoes(n: int) -> set[Shape]:
    """Every fixed polyomino of n squares, moved to the origin."""
    cells = {frozenset({(0, 0)})}
    for _ in range(n - 1):
        cells = {
            _at_origin(shape | {(x + dx, y + dy)})
            for shape in cells
            for x, y in shape
            for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))
            if (x + dx, y + dy) not in shape
        }
    return {lattice.squares(shape) for shape in cells}


def _at_origin(cells: frozenset[tuple[int, int]]) -> frozenset[tuple[int, int]]:
    left, low = min(x for x, _ in cells), min(y for _, y in cells)
    return frozenset((x - left, y - low) for x, y in cells)


Half = tuple[int, int, int]  # a square and the quarter with which its half begins, anticlockwise


def half_square_shapes(n: int) -> set[Shape]:
    """Every fixed shape of n half-squares joined along whole sides, moved to the origin."""
    shapes: set[frozenset[Half]] = {frozenset({(0, 0, which)}) for which in range(4)}
    for _ in range(n - 1):
        shapes = {
            _halves_at_origin(shape | {more}) for shape in shapes for half in shape for more in _beside(half, shape)
        }
    return {frozenset(q for half in shape for q in _quarters(half)) for shape in shapes}


def _quarters(half: Half) -> tuple[lattice.Quarter, lattice.Quarter]:
    x, y, which = half
    return (x, y, which), (x, y, (which + 1) % 4)


def _beside(half: Half, shape: frozenset[Half]) -> Iterator[Half]:
    """Halves that share a whole side with this one and overlap none of the shape."""
    taken = {quarter for other in shape for quarter in _quarters(other)}
    x, y, which = half
    steps = ((0, -1), (1, 0), (0, 1), (-1, 0))
    candidates = [(x, y, (which + 2) % 4)]  # across the slanting side
    for leg in (which, (which + 1) % 4):
        dx, dy = steps[leg]
        facing = (leg + 2) % 4  # the quarter on the other side of this leg
        candidates += [(x + dx, y + dy, facing), (x + dx, y + dy, (facing + 3) % 4)]
    yield from (more for more in candidates if not taken & set(_quarters(more)))


def _halves_at_origin(shape: frozenset[Half]) -> frozenset[Half]:
    left, low = min(x for x, _, _ in shape), min(y for _, y, _ in shape)
    return frozenset((x - left, y - low, which) for x, y, which in shape)


def classes(shapes: set[Shape], seed: int) -> list[Outline]:
    """One outline a class; every outline comes turned by its own chance angle, and is held against all classes."""
    rng = random.Random(seed)
    kept: list[Outline] = []
    for shape in sorted(shapes, key=sorted):
        found = lattice.rings_of(shape)
        if found is None:
            exterior, holes = _pinched(shape)
        else:
            exterior, holes = found
        motion = RigidMotion(turn_deg=rng.uniform(-180, 180), shift=(rng.uniform(-9, 9), rng.uniform(-9, 9)))
        outline = Outline.of(exterior, holes).moved(motion)
        tolerance = authoring_tolerance(outline.larger_extent)
        if not any(_may_be(outline, other) and motions_onto(outline, other, tolerance) for other in kept):
            kept.append(outline)
    return kept


def _may_be(outline: Outline, other: Outline) -> bool:
    """Cheap: shapes of one size have one area, so only a like number of corners is worth a comparison."""
    return len(outline.exterior) == len(other.exterior)


def _pinched(shape: Shape) -> tuple[tuple[IntPoint, ...], tuple[tuple[IntPoint, ...], ...]]:
    """The boundary of a shape that touches itself at points, as one walk that takes the left turn at each of them.

    The counts include such shapes; items refuse them, but the matcher compares walks and need not care.
    """
    following: dict[IntPoint, list[IntPoint]] = {}
    steps = {step for quarter in shape for step in lattice.steps_of(quarter)}
    for start, end in sorted(steps):
        if (end, start) not in steps:
            following.setdefault(start, []).append(end)
    rings = []
    while following:
        start = min(following)
        ring = [start]
        before, point = start, following[start].pop(0)
        if not following[start]:
            del following[start]
        while point != start or len(ring) < 3:
            ring.append(point)
            ends = following[point]
            way = max(ends, key=lambda end, point=point, before=before: _turn(before, point, end))
            ends.remove(way)
            if not ends:
                del following[point]
            before, point = point, way
            if point == start and start not in following:
                break
        rings.append(lattice.straightened(tuple(ring)))
    rings.sort(key=lambda ring: -abs(lattice.doubled_area(ring)))
    return rings[0], tuple(rings[1:])


def _turn(before: IntPoint, point: IntPoint, after: IntPoint) -> float:
    """Rightmost first: the walk stays with the material on its left and goes round a pinch on the outside."""
    way = complex(after[0] - point[0], after[1] - point[1]) / complex(point[0] - before[0], point[1] - before[1])
    return -cmath.phase(way)


@pytest.mark.parametrize(("n", "expected"), POLYOMINOES.items())
def test_polyominoes_up_to_turning(n: int, expected: int) -> None:
    assert len(classes(polyominoes(n), seed=n)) == expected


@pytest.mark.parametrize(("n", "expected"), HALF_SQUARES.items())
def test_half_squares_up_to_turning(n: int, expected: int) -> None:
    assert len(classes(half_square_shapes(n), seed=n)) == expected


@pytest.mark.parametrize(("n", "expected"), SYMMETRIC_POLYOMINOES.items())
def test_shapes_that_a_flip_does_not_change(n: int, expected: int) -> None:
    found = classes(polyominoes(n), seed=n + 100)
    assert sum(not is_chiral(outline, authoring_tolerance(outline.larger_extent)) for outline in found) == expected


def test_a_flip_is_told_from_a_turn() -> None:
    for outline in classes(polyominoes(5), seed=7):
        tolerance = authoring_tolerance(outline.larger_extent)
        turned = outline.moved(RigidMotion(turn_deg=77.0))
        assert congruence(outline, turned, tolerance).kind is Match.BY_TURNING
        expected = Match.MIRROR_ONLY if is_chiral(outline, tolerance) else Match.BY_TURNING
        assert congruence(outline.mirrored(), turned, tolerance).kind is expected

"""Whether two outlines are the same by turning, exactly: no tolerance, no floating point.

A corner is a complex number with rational parts. Seen from one side of an outline, so that this side runs from 0 to 1,
every corner has coordinates that no turn, shift or uniform scaling changes. So two outlines are the same exactly where
they look alike seen from some side of each. Nothing here is imported from the package under test.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

Number = Fraction | int
ExactPoint = tuple[Number, Number]
ExactRings = Sequence[Sequence[ExactPoint]]  # exterior first, then holes; material on the left of every side
View = tuple[tuple[tuple[Fraction, Fraction], ...], ...]


def view(rings: ExactRings, index: int) -> frozenset[tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]]:
    """Every side of the outline, as seen from one side of the exterior."""
    exterior = rings[0]
    ox, oy = exterior[index]
    ux, uy = (a - b for a, b in zip(exterior[(index + 1) % len(exterior)], (ox, oy), strict=True))
    squared = Fraction(ux * ux + uy * uy)

    def seen(point: ExactPoint) -> tuple[Fraction, Fraction]:
        x, y = point[0] - ox, point[1] - oy
        return Fraction(x * ux + y * uy) / squared, Fraction(y * ux - x * uy) / squared

    return frozenset((seen(a), seen(b)) for ring in rings for a, b in zip(ring, [*ring[1:], ring[0]], strict=True))


def views(rings: ExactRings) -> set[frozenset[tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]]]:
    """The outline as seen from each side of the exterior."""
    return {view(rings, index) for index in range(len(rings[0]))}


def same_by_turning(rings: ExactRings, other: ExactRings) -> bool:
    """Whether a turn, a shift and one uniform scaling lay one outline on the other."""
    if [len(ring) for ring in rings][:1] != [len(ring) for ring in other][:1]:
        return False
    return view(rings, 0) in views(other)


def turned_over(rings: ExactRings) -> ExactRings:
    """The mirror image, material still on the left."""
    return [[(-x, y) for x, y in reversed(ring)] for ring in rings]


def is_mirror_only(rings: ExactRings, other: ExactRings) -> bool:
    """Whether only turned over is one outline the other."""
    return not same_by_turning(rings, other) and same_by_turning(turned_over(rings), other)


def symmetry_order(rings: ExactRings) -> int:
    """In how many turned positions the outline looks the same."""
    first = view(rings, 0)
    return sum(view(rings, index) == first for index in range(len(rings[0])))


def area(rings: ExactRings) -> Fraction:
    """Area of the material, exact."""
    return sum(
        (
            Fraction(a[0] * b[1] - b[0] * a[1]) / 2
            for ring in rings
            for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)
        ),
        Fraction(0),
    )

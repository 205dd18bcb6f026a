"""What to write in place of a cut that meets no side: a hole is wished in the middle, where no marks can meet."""

from __future__ import annotations

import math

from ....document.notation import typed_pair
from ....geometry.locate import contains
from ....geometry.outline import Outline
from ....geometry.rigid_motion import RigidMotion, Ring, Side
from ....geometry.rings import sides

__all__ = ["in_place_of_inner_cut"]

_SQUARE_ON = 1e-6  # of the length: two sides that run the same way


def in_place_of_inner_cut(side: Side | None, meets: Side, corners: Ring, base: Outline, tolerance: float) -> str:
    """The advice for a cut whose side must meet two points inside the base; "" where they are not both inside.

    side    : the marked side of the piece, if known
    corners : of the piece, in the same coordinates as `side`
    base    : as typed, in the coordinates of `meets`
    """
    if not all(contains(base, point) for point in meets) or math.dist(*meets) <= tolerance:
        return ""
    hole = _hole(side, meets, corners, base, tolerance)
    written = f"such as holes: [{typed_pair(hole)}]" if hole else "beside its corners"
    part = _part_of_a_side(meets, base, tolerance)
    example = f", such as meets: {typed_pair(part)}" if part else ""
    return (
        f"if it is a hole in the middle, leave the piece out and write holes under base, {written}; "
        f"else let the piece meet a side of the base{example}"
    )


def _hole(side: Side | None, meets: Side, corners: Ring, base: Outline, tolerance: float) -> Ring | None:
    """The piece laid on those two points, where all of it is inside."""
    if side is None or abs(math.dist(*side) - math.dist(*meets)) > tolerance:
        return None
    for goal in (meets, meets[::-1]):
        laid = RigidMotion.laying(*side, onto=goal).apply(corners)
        if all(contains(base, corner) for corner in laid):
            return laid
    return None


def _part_of_a_side(meets: Side, base: Outline, tolerance: float) -> Side | None:
    """The part of the nearest side of the base along which the two points lie, each straight across from its own."""
    found: list[tuple[float, Side]] = []
    ahead = complex(*meets[1]) - complex(*meets[0])
    for ring in base.rings:
        for a, b in sides(ring):
            start, along = complex(*a), complex(*b) - complex(*a)
            length = abs(along)
            if abs((ahead * along.conjugate()).imag) > _SQUARE_ON * length * abs(ahead):
                continue
            seen = [(complex(*point) - start) * along.conjugate() / length for point in meets]
            if all(-tolerance <= spot.real <= length + tolerance for spot in seen):
                first, second = (start + along / length * min(max(spot.real, 0.0), length) for spot in seen)
                found.append((abs(seen[0].imag), ((first.real, first.imag), (second.real, second.imag))))
    return min(found)[1] if found else None

"""The parts of an outline: bumps and notches, each between two of its corners.

A part is a run of a few sides that keeps to one side of the straight line between its ends. Without it, the outline
runs straight from the one end to the other.
"""

from __future__ import annotations

from dataclasses import dataclass

from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring
from ....geometry.rings import signed_area, without_needless_corners
from ....geometry.simple import self_contact

__all__ = ["Part", "parts", "without_part"]

FEWEST_SIDES, MOST_SIDES = 2, 4
LARGEST = 0.75  # of the area without it: what is larger is no part but the outline itself


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A bump or a notch."""

    ring: int  # which ring of the outline it is a part of: 0 for the exterior, then the holes
    run: Ring  # its corners in the order of the outline, from one end to the other
    rest: Ring  # the ring without it, needless corners dropped
    stands_on_a_side: bool  # its ends lie on one straight side of what is left

    @property
    def ends(self) -> tuple[Point, Point]:
        """Where it begins and ends, with the material on the left."""
        return self.run[0], self.run[-1]


def parts(outline: Outline, tolerance: float) -> tuple[Part, ...]:
    """Every part: first those on one straight side, the exterior's before those of holes, the smallest first.

    outline : without needless corners
    """
    found = []
    for index, ring in enumerate(outline.rings):
        for start in range(len(ring)):
            turned = ring[start:] + ring[:start]
            for sides in range(FEWEST_SIDES, MOST_SIDES + 1):
                part = _part(index, turned[: sides + 1], turned[sides + 1 :], tolerance)
                if part is not None:
                    size = round(abs(signed_area(part.run)), 9)
                    found.append((not part.stands_on_a_side, index, size, start, part))
    return tuple(part for *_, part in sorted(found, key=lambda entry: entry[:4]))


def without_part(run: Ring, others: Ring, tolerance: float) -> Ring:
    """The ring without a part, needless corners dropped.

    others : its corners that are not the part's
    """
    return without_needless_corners((run[0], run[-1], *others), tolerance)


def _part(index: int, run: Ring, others: Ring, tolerance: float) -> Part | None:
    if not others:
        return None
    (ax, ay), (bx, by) = run[0], run[-1]
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    if length <= 20.0 * tolerance:
        return None
    off = [((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length for x, y in run[1:-1]]
    if min(off) <= tolerance and max(off) >= -tolerance:  # a corner on the line, or on either side of it
        return None
    rest = without_part(run, others, tolerance)
    area = signed_area(rest) * (1.0 if index == 0 else -1.0)  # holes run clockwise
    if len(rest) < 3 or area <= 0.0 or abs(signed_area(run)) > LARGEST * area:
        return None
    if self_contact(rest, tolerance) is not None or self_contact(run, tolerance) is not None:
        return None
    return Part(ring=index, run=run, rest=rest, stands_on_a_side=run[0] not in rest and run[-1] not in rest)

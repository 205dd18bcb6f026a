"""Facts about parts: one that sits on another side than it should, two sides that stand in another ratio.

Neither leans on the size at which an option is drawn: a part is held against the same part, a side against the side
beside it. Both are recomputed from the outlines by their own arithmetic. Places stand in the base's coordinates.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import overlay
from ..geometry.angles import bearing_deg, wrapped_deg
from ..geometry.congruence import motions_onto
from ..geometry.locate import contains, distance_to_boundary
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Side
from ..geometry.rings import sides
from ..geometry.tolerance import PLAIN_DEG, RELATIVE, plain
from .facts import DifferenceFact

__all__ = [
    "CLEAR_RATIO",
    "NEARLY_RATIO",
    "NEAR_CORNER",
    "PartElsewhereFact",
    "Side",
    "SideRatioFact",
    "are_next_to_each_other",
    "contact_side",
    "is_as_large",
    "is_one_corner",
    "shared_corner",
    "without_part",
]

CLEAR_RATIO = 1.25  # one ratio is at least so many times the other: 3 to 2 beside 2 to 1 is 1.33, and is seen
NEARLY_RATIO = 1e-3  # a ratio this close to 1 is of two sides that are equally long
NEAR_CORNER = 0.25  # of the shortest side at it: two corners this near are taken for the same one


@dataclass(frozen=True, slots=True, kw_only=True)
class PartElsewhereFact(DifferenceFact):
    """The option has a part of the outline, or a gap of it, on another side; ``place`` is where the option has it.

    What both are without that part is their *body*: the part taken off, or the gap filled.
    """

    filled: bool  # whether the part is material; else it is a gap
    home: Outline  # where the outline has it
    side: Side  # of both bodies, walked with the body on the left: the option has the part here
    home_side: Side  # the same for the outline
    adjacent: bool  # whether the two sides meet in a corner

    def holds(self) -> bool:
        """Both have the part where they are said to, and not where the other has it; it is the same by turning alone.

        Each touches its body along one side only, and both bodies have both sides, whole.
        """
        return (
            DifferenceFact.holds(self)
            and contains(self.option, self.ring_centre) is self.filled
            and _is_only_in(self.home, self.outline, self.option, self.filled, self.tolerance)
            and is_as_large(self.place, self.home, self.tolerance)
            and self._sits_on(self.option, self.place, self.side)
            and self._sits_on(self.outline, self.home, self.home_side)
            and not _is_one_side(self.side, self.home_side, self.tolerance)
            and are_next_to_each_other(self.side, self.home_side, self.tolerance) is self.adjacent
        )

    def _sits_on(self, shape: Outline, part: Outline, side: Side) -> bool:
        body = without_part(shape, part, filled=self.filled, tolerance=self.tolerance)
        if body is None:
            return False
        found = contact_side(part, body, filled=self.filled, tolerance=self.tolerance)
        whole = [own for ring in body.rings for own in sides(ring)]
        return (
            found is not None
            and _is_one_side(found, side, self.tolerance)
            and all(
                any(_is_one_side(own, wanted, self.tolerance) for own in whole)
                for wanted in (self.side, self.home_side)
            )
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SideRatioFact(DifferenceFact):
    """Two sides that meet in a corner are in another ratio than the two sides at the same corner of the outline."""

    pair: tuple[Side, Side]  # of the option, laid; the first is the longer, or they are equal
    ratio: float  # the first over the second, 1 or more
    other_pair: tuple[Side, Side]  # of the outline, in the same order
    other_ratio: float  # the first over the second; below 1 where the second is the longer

    @property
    def are_equal(self) -> tuple[bool, bool]:
        """Whether the two sides of the option are equally long, and those of the outline."""
        return abs(self.ratio - 1.0) <= NEARLY_RATIO, abs(self.other_ratio - 1.0) <= NEARLY_RATIO

    def holds(self) -> bool:
        """All four are whole sides, two and two meet in one corner and run the same way, and the ratios are right.

        A learner sees the two ratios differ, and one of the sides ends at the place.
        """
        pairs = ((self.option, self.pair, self.ratio), (self.outline, self.other_pair, self.other_ratio))
        return (
            DifferenceFact.holds(self)
            and all(_has_ratio(shape, pair, ratio, self.tolerance) for shape, pair, ratio in pairs)
            and self.ratio >= 1.0 - NEARLY_RATIO
            and max(self.ratio, self.other_ratio) >= CLEAR_RATIO * min(self.ratio, self.other_ratio)
            and is_one_corner(self.pair, self.other_pair, self.tolerance)
            and any(
                distance_to_boundary(end, self.place) <= 2 * self.tolerance
                for side in (*self.pair, *self.other_pair)
                for end in side
            )
        )


def without_part(shape: Outline, part: Outline, *, filled: bool, tolerance: float) -> Outline | None:
    """A shape without one of its parts, or with one of its gaps filled; None where that is no single outline."""
    if filled:
        bodies = overlay.regions(shape, part, tolerance)
    else:
        bodies = () if part.holes else overlay.joined(shape, part.exterior, tolerance).parts
    return bodies[0] if len(bodies) == 1 else None


def contact_side(part: Outline, body: Outline, *, filled: bool, tolerance: float) -> Side | None:
    """The one side of the body along which the part touches it, or opens to the outside; None for none or several.

    A part that is material runs against the body's side, a gap along with it.
    """
    own = [side[::-1] if filled else side for ring in part.rings for side in sides(ring)]
    touched = [
        side
        for ring in body.rings
        for side in sides(ring)
        if any(_run_along(mine, side, tolerance) > 2 * tolerance for mine in own)
    ]
    return touched[0] if len(touched) == 1 else None


def are_next_to_each_other(side: Side, other: Side, tolerance: float) -> bool:
    """Whether one side starts where the other ends."""
    return min(math.dist(side[1], other[0]), math.dist(other[1], side[0])) <= 2 * tolerance


def shared_corner(pair: tuple[Side, Side], tolerance: float) -> Point | None:
    """The corner in which two sides that follow each other meet; None where they do not."""
    first, second = pair
    if math.dist(first[1], second[0]) <= tolerance:
        return first[1]
    return first[0] if math.dist(second[1], first[0]) <= tolerance else None


def is_one_corner(pair: tuple[Side, Side], other: tuple[Side, Side], tolerance: float) -> bool:
    """Whether two pairs of sides run the same ways about corners so near that a learner takes them for one."""
    corner, other_corner = shared_corner(pair, tolerance), shared_corner(other, tolerance)
    if corner is None or other_corner is None:
        return False
    # East then north turns left, north then east turns right: which of the two comes first must agree too.
    if (pair[0][1] == corner) is not (other[0][1] == other_corner):
        return False
    shortest = min(math.dist(*side) for side in (*pair, *other))
    return math.dist(corner, other_corner) <= NEAR_CORNER * shortest and all(
        abs(wrapped_deg(bearing_deg(*mine) - bearing_deg(*theirs))) <= PLAIN_DEG
        for mine, theirs in zip(pair, other, strict=True)
    )


def _has_ratio(shape: Outline, pair: tuple[Side, Side], ratio: float, tolerance: float) -> bool:
    own = [side for ring in shape.simplified(tolerance).rings for side in sides(ring)]
    lengths = [math.dist(*side) for side in pair]
    return (
        all(any(_is_one_side(side, there, tolerance) for there in own) for side in pair)
        and min(lengths) > plain(tolerance)
        and abs(lengths[0] / lengths[1] - ratio) <= RELATIVE * ratio
    )


def _is_only_in(part: Outline, owner: Outline, other: Outline, filled: bool, tolerance: float) -> bool:
    """Whether the one shape has the part, as material or as a gap, all over, and the other nowhere."""
    inside, outside = (owner, other) if filled else (other, owner)
    return not overlay.regions(part, inside, tolerance) and overlay.shared_thickness(part, outside) <= tolerance


def is_as_large(part: Outline, other: Outline, tolerance: float) -> bool:
    """Whether a turn and a shift lay one part on the other, without any scaling that can be seen."""
    scale = math.sqrt(other.area / part.area)
    return abs(scale - 1.0) * part.larger_extent <= 2 * tolerance and bool(motions_onto(part, other, 2 * tolerance))


def _is_one_side(side: Side, other: Side, tolerance: float) -> bool:
    return all(math.dist(*ends) <= tolerance for ends in zip(side, other, strict=True))


def _run_along(mine: Side, side: Side, tolerance: float) -> float:
    """How long a stretch the two have in common, running the same way on one line; 0 for none."""
    (ax, ay), (bx, by) = side
    length = math.dist(*side)
    ux, uy = (bx - ax) / length, (by - ay) / length
    if any(abs((y - ay) * ux - (x - ax) * uy) > 2 * tolerance for x, y in mine):
        return 0.0
    start, end = (((x - ax) * ux + (y - ay) * uy) for x, y in mine)
    return max(0.0, min(length, end) - max(0.0, start))

"""How pieces meet what they lie at: along a side in place (a join, a cut), or by one letter at a side of each.

What lies along more than one side is married along the longest, since every one of them leads to the same place. What
more than one reading fits is left open.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..document.notation import shown_lengths
from ..geometry.locate import distance_to_side
from ..geometry.outline import Outline
from ..geometry.overlay import cut_out, joined, regions, shared_thickness
from ..geometry.rigid_motion import RigidMotion, Side
from ..geometry.side import unit_vector
from ..geometry.tolerance import authoring_tolerance
from .proposal import Does

__all__ = ["InPlace", "Lettered", "by_letters", "in_place"]

_PARALLEL = 0.02  # sine of the angle below which two sides run alike, for what nearly touches
_NEARLY = 0.04  # of the base's extent: what lies nearer than that nearly touches


@dataclass(frozen=True, slots=True)
class InPlace:
    """What a piece that stays where it lies does, or why that is open."""

    does: Does | None
    side: Side | None
    meets: Side | None
    doubt: str = ""
    fix: str = ""


def in_place(piece: Outline, host: Outline) -> InPlace | None:
    """How a piece lies at an outline; None where it lies clear of it."""
    tolerance = authoring_tolerance(host.larger_extent)
    if shared_thickness(host, piece) > tolerance:
        if regions(piece, host, tolerance):
            doubt = "it lies partly on the other outline and partly beside it"
            return InPlace(None, None, None, doubt, "draw it beside the outline for a join, inside it for a cut")
        married = _along(piece, host, tolerance, against=False)
        if married is None:
            doubt = "it lies inside, and along no side"
            fix = "give the base this outline as a hole, or put a letter at a side of both"
            return InPlace(Does.CUT, None, None, doubt, fix)
        return InPlace(Does.CUT, *married)
    married = _along(piece, host, tolerance, against=True)
    if married:
        return InPlace(Does.JOIN, *married)
    gap = _nearly(piece, host)
    if gap is not None:
        doubt = f"it nearly touches the other outline: {gap:.2g} is between them"
        return InPlace(None, None, None, doubt, "move it onto the side, or farther away")
    return None


def _along(piece: Outline, host: Outline, tolerance: float, *, against: bool) -> tuple[Side, Side] | None:
    """The longest stretch along which sides of both run; the same two points for both, each in its own direction.

    against : the sides run against each other, as where a piece lies outside
    """
    best, length = None, tolerance
    for side in piece.sides:
        for other in host.sides:
            part = _common(side, other, tolerance)
            if part is None or math.dist(*part) <= length + tolerance:
                continue
            ux, uy = unit_vector(side)
            vx, vy = unit_vector(other)
            if (ux * vx + uy * vy < 0) is against:
                best, length = part, math.dist(*part)
    return (best, best) if best else None


def _common(side: Side, other: Side, tolerance: float) -> Side | None:
    """What two sides share, from corner to corner as they are written; None where that is a point or less."""
    on_both = [
        point
        for point in (*side, *other)
        if distance_to_side(point, side) <= tolerance and distance_to_side(point, other) <= tolerance
    ]
    apart = [(math.dist(one, two), one, two) for one in on_both for two in on_both]
    if not apart:
        return None
    length, one, two = max(apart, key=lambda found: found[0])
    if length <= tolerance:
        return None
    ux, uy = unit_vector(side)
    forward = (two[0] - one[0]) * ux + (two[1] - one[1]) * uy > 0
    return (one, two) if forward else (two, one)


def _nearly(piece: Outline, host: Outline) -> float | None:
    """How far apart two sides are that run alike, almost against each other; None where none do."""
    near = _NEARLY * host.larger_extent
    found = list[float]()
    for side in piece.sides:
        for other in host.sides:
            (ux, uy), (vx, vy) = unit_vector(side), unit_vector(other)
            if abs(ux * vy - uy * vx) > _PARALLEL or ux * vx + uy * vy > 0:
                continue
            gap = max(distance_to_side(point, other) for point in side)
            gap = min(gap, max(distance_to_side(point, side) for point in other))
            if gap <= near:
                found.append(gap)
    return min(found, default=None)


@dataclass(frozen=True, slots=True)
class Lettered:
    """Two sides that bear the same letter, and what follows."""

    does: Does | None
    side: Side
    meets: Side | None
    doubt: str = ""
    fix: str = ""


def by_letters(piece: Outline, side: Side, host: Outline, meets: Side) -> Lettered:
    """What a piece does whose side bears the same letter as a side of the host."""
    tolerance = authoring_tolerance(host.larger_extent)
    own, its = math.dist(*side), math.dist(*meets)
    if abs(own - its) > tolerance:
        one, other = shown_lengths(own, its)
        doubt = f"its marked side is {one} long, the side that bears the same letter {other}"
        return Lettered(None, side, None, doubt, "say which part of the longer one it meets, by two points")
    # The ring of either runs with its inside on the left: a join lays the sides against each other.
    fits = list[Does]()
    for does, onto, overlay in ((Does.JOIN, meets[::-1], joined), (Does.CUT, meets, cut_out)):
        motion = RigidMotion.laying(*side, onto=(onto[0], onto[1]))
        laid = overlay(host, piece.moved(motion).exterior, tolerance)
        if laid.too_much == 0.0 and len(laid.parts) == 1:
            fits.append(does)
    if len(fits) == 1:
        return Lettered(fits[0], side, meets)
    if fits:
        return Lettered(None, side, meets, "both fit: that it is joined, and that it is cut", "write does: join or cut")
    doubt = "laid at the side with its letter it neither lies clear of the outline nor inside it"
    return Lettered(None, side, meets, doubt, "see whether the letter stands at the right side")

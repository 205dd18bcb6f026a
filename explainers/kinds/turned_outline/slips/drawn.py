"""The change that makes an outline drawn by hand, found from the corners that it left alone.

A change moves few corners, so all others of the drawn outline lie on those of the true one. That lays the one on the
other, and what the rest of its corners do tells how far, or to where, something was moved.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ....geometry.congruence import motions_onto
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point
from ....geometry.rings import sides
from .angle_changed import CornerMoved
from .change import Change
from .part_moved import PartMoved
from .part_resized import PartResized, factor_of
from .parts import parts

__all__ = ["corners_moved", "parts_moved", "parts_resized"]


def corners_moved(option: Outline, outline: Outline, tolerance: float) -> Iterator[Change]:
    """Every way in which moving one corner may make the option; whether it does is to be checked.

    option, outline : without needless corners
    """
    corners = [(index, ring, at) for index, ring in enumerate(outline.rings) for at in range(len(ring))]
    for index, ring, at in corners:
        corner, others = ring[at], (*ring[at + 1 :], *ring[:at])
        for laid in _laid(option, outline, index, others, 1, tolerance):
            for end in (others[0], others[-1]):
                along = complex(*end) - complex(*corner)
                part = ((laid[0] - complex(*corner)) / along).real
                to = complex(*corner) + part * along
                if abs(to - laid[0]) <= 2.0 * tolerance:
                    yield CornerMoved(corner=corner, to=(to.real, to.imag))


def parts_resized(option: Outline, outline: Outline, tolerance: float) -> Iterator[Change]:
    """Every way in which resizing a part may make the option; whether it does is to be checked."""
    for part in parts(outline, tolerance):
        ring = outline.rings[part.ring]
        first = ring.index(part.run[0])
        turned = ring[first:] + ring[:first]
        inner = part.run[1:-1]
        others = (*turned[len(part.run) - 1 :], turned[0])
        for laid in _laid(option, outline, part.ring, others, len(inner), tolerance):
            factor = factor_of(part.run, laid, tolerance)
            if factor > 0.0:
                yield PartResized(start=part.run[0], end=part.run[-1], factor=factor)


def parts_moved(option: Outline, outline: Outline, tolerance: float) -> Iterator[Change]:
    """Every way in which moving a part may make the option; whether it does is to be checked."""
    for part in parts(outline, tolerance):
        for index, side in enumerate(sides(part.rest)):
            others = part.rest[index + 1 :] + part.rest[: index + 1]
            start, along = complex(*side[0]), complex(*side[1]) - complex(*side[0])
            width = abs(complex(*part.run[-1]) - complex(*part.run[0]))
            room = abs(along) - width
            if room <= 2.0 * tolerance:
                continue
            for laid in _laid(option, outline, part.ring, others, len(part.run), tolerance):
                place = ((laid[0] - start) / along).real * abs(along) / room
                if 0.0 < place < 1.0:
                    yield PartMoved(start=part.run[0], end=part.run[-1], side=side, place=place)


def _laid(
    option: Outline, outline: Outline, index: int, others: Sequence[Point], count: int, tolerance: float
) -> Iterator[list[complex]]:
    """Some corners of one ring of the option, in order, for every way to lay all its further ones on some corners.

    index  : of the ring of the outline; in a hole, the exterior must lie on the exterior as well
    others : corners of that ring, in order, as it is walked after those others
    count  : of the corners that are left over
    """
    goals = [complex(*corner) for corner in others]
    if index == 0:
        yield from _laid_exterior([complex(*corner) for corner in option.exterior], goals, count, tolerance)
        return
    for motion in motions_onto(Outline(option.exterior), Outline(outline.exterior), tolerance):
        for hole in option.holes:
            own = [complex(*corner) for corner in motion.apply(hole)]
            for turned in _cycled(own) if len(own) == len(goals) + count else ():
                pairs = zip(goals, turned[count:], strict=True)
                if all(abs(goal - corner) <= 2.0 * tolerance for goal, corner in pairs):
                    yield turned[:count]


def _laid_exterior(own: list[complex], goals: list[complex], count: int, tolerance: float) -> Iterator[list[complex]]:
    """The similarity is the one that lays those corners on the goals as well as can be."""
    if len(own) != len(goals) + count or len(goals) < 2:
        return
    middle = sum(goals) / len(goals)
    for turned in _cycled(own):
        rest = turned[count:]
        at = sum(rest) / len(rest)
        size = sum(abs(corner - at) ** 2 for corner in rest)
        turn = sum((goal - middle) * (corner - at).conjugate() for goal, corner in zip(goals, rest, strict=True)) / size
        pairs = zip(goals, rest, strict=True)
        if turn and all(abs(turn * (corner - at) - (goal - middle)) <= 2.0 * tolerance for goal, corner in pairs):
            yield [turn * (corner - at) + middle for corner in turned[:count]]


def _cycled(corners: list[complex]) -> Iterator[list[complex]]:
    return (corners[shift:] + corners[:shift] for shift in range(len(corners)))

"""A short fingerprint of a fact: it changes with the figures and places that words may speak of, and with nothing else.

Two fingerprints agree where a sentence about the one fact is as true of the other. Shifting a whole item, another way
to type the same corners, or another way to lay an option that is told alike, change none. Figures are counted in
grains, finer than anyone says. No words here.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point

__all__ = ["FingerprintParts", "angle", "fingerprint_of", "length", "lower_left", "points", "shape"]

FingerprintParts = tuple[object, ...]

# Counted from an odd offset: figures such as 0.5 or 1/8 would else lie on the border between two grains.
OFFSET = 0.3171
ANGLE_GRAINS = 10.0  # a degree has so many: a tenth is more than anyone says
LENGTH_GRAINS = 100.0  # a unit has so many


def fingerprint_of(parts: object) -> str:
    """Twelve hexadecimal digits for anything whose ``repr`` says all there is to it."""
    return hashlib.sha256(repr(parts).encode()).hexdigest()[:12]


def angle(angle_deg: float) -> int:
    """An angle in grains."""
    return math.floor(angle_deg * ANGLE_GRAINS + OFFSET)


def length(size: float) -> int:
    """A length, an area or a ratio in grains."""
    return math.floor(size * LENGTH_GRAINS + OFFSET)


def points(places: Iterable[Point], origin: Point) -> tuple[tuple[int, int], ...]:
    """Where points are, seen from the origin, whatever their order."""
    return tuple(sorted((length(x - origin[0]), length(y - origin[1])) for x, y in places))


def shape(outline: Outline, origin: Point) -> FingerprintParts:
    """Where the corners of an outline are."""
    return tuple(points(ring, origin) for ring in (outline.exterior, *sorted(outline.holes)))


def lower_left(places: Iterable[Point]) -> Point:
    """The lower left corner of the box round points."""
    xs, ys = zip(*places, strict=True)
    return min(xs), min(ys)

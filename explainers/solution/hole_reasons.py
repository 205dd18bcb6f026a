"""Holes that only one of the two has: the candidates that ``reasons`` chooses from.

A hole may be there in the one and filled in the other; or both are empty there, and only the one closes it off from
the outside, or parts it in two.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Any

import shapely

from ..geometry import overlay
from ..geometry.locate import contains, distance_to_boundary
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring
from ..geometry.tolerance import plain
from .facts import HoleFact, HolePlace
from .model import Fit

__all__ = ["hole_counts", "is_clear"]

Geometry = Any  # shapely carries no types


def is_clear(place: Outline, tolerance: float) -> bool:
    """Whether a place is wide enough for a hole there, or an opening, to be seen as one at a glance."""
    return overlay.thickness(overlay.polygon(place)) >= plain(tolerance)


def hole_counts(label: str, fit: Fit, outline: Outline, place: Outline, tolerance: float) -> Iterator[HoleFact]:
    """That one of the two has more holes, with the place as what makes one of them; none where it makes none."""
    counts = len(fit.laid.holes), len(outline.holes)
    if counts[0] == counts[1]:
        return
    owner, other = (fit.laid, outline) if counts[0] > counts[1] else (outline, fit.laid)
    places = fit.extra if owner is fit.laid else fit.missing
    closing = _closing(owner, place, tolerance) if place in places else ()
    for at, spot in (*_in_holes(owner, other, place, tolerance), *closing):
        yield HoleFact(
            tolerance=tolerance,
            label=label,
            option=fit.laid,
            outline=outline,
            place=place,
            ring_centre=spot,
            option_holes=counts[0],
            outline_holes=counts[1],
            at=at,
        )


def _in_holes(owner: Outline, other: Outline, place: Outline, tolerance: float) -> Iterator[tuple[HolePlace, Point]]:
    """Spots of the place that are in a hole of the one, where the other is filled."""
    for hole in owner.holes:
        shape = Outline.of(hole)
        if any(overlay.shared_thickness(shape, Outline.of(twin)) > tolerance for twin in other.holes):
            continue
        for spot in (overlay.pole(place), overlay.pole(shape)):
            inside = contains(place, spot) and contains(shape, spot)
            if inside and all(distance_to_boundary(spot, of) > tolerance for of in (place, shape)):
                yield HolePlace.HOLE, spot


def _closing(owner: Outline, place: Outline, tolerance: float) -> Iterator[tuple[HolePlace, Point]]:
    """Spots of the place where it lies between a hole and the outside, then where between two holes."""
    outside = _touched(place, owner.exterior, tolerance)
    holes = [line for line in (_touched(place, hole, tolerance) for hole in owner.holes) if line is not None]
    if outside is not None:
        for hole in holes:
            yield HolePlace.WALL, _between(place, hole, outside)
    for hole, other in combinations(holes, 2):
        yield HolePlace.BAR, _between(place, hole, other)


def _touched(place: Outline, ring: Ring, tolerance: float) -> Geometry | None:
    """The stretch of a ring along which the place lies; None where it is too short to be seen as an opening."""
    near = shapely.buffer(overlay.polygon(place), 2 * tolerance)
    line = shapely.intersection(shapely.linearrings((*ring, ring[0])), near)
    return line if line.length >= plain(tolerance) else None


def _between(place: Outline, one: Geometry, other: Geometry) -> Point:
    """A point well inside the place, about midway between two stretches of its boundary."""
    x, y = shapely.get_coordinates(shapely.shortest_line(one, other)).mean(axis=0)
    return overlay.inside_near(place, (float(x), float(y)))

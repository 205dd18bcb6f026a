"""Whether what is drawn of two things meets: regions by what they cover, strokes and spots as wide as they are drawn.

A region covers what lies inside its rings, not the line that is drawn round it: two regions that share a side do not
meet. Lengths are in the unit of the points.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
import shapely

from .overlay import thickness
from .rigid_motion import Point, Ring

__all__ = ["Ink", "region", "shared_area", "spots", "strokes"]

Ink = Any  # shapely carries no types

_ROUNDING = 1e-6


def region(rings: Sequence[Ring]) -> Ink:
    """What lies inside the rings by the even-odd rule: holes are clear."""
    lines = [shapely.linestrings(np.asarray((*ring, ring[0]), dtype=float)) for ring in rings]
    return shapely.build_area(shapely.union_all(lines))


def strokes(paths: Iterable[Sequence[Point]], width: float) -> Ink:
    """Open lines of that width, with round ends."""
    lines = [shapely.linestrings(np.asarray(path, dtype=float)) for path in paths]
    return shapely.buffer(shapely.geometrycollections(lines), width / 2, quad_segs=4)


def spots(centres: Sequence[Point], radius: float) -> Ink:
    """Discs of one size."""
    return shapely.buffer(shapely.multipoints(np.asarray(centres, dtype=float).reshape(-1, 2)), radius, quad_segs=4)


def shared_area(one: Ink, other: Ink) -> float:
    """Area of what they have in common; 0 where that is no wider than a rounding error."""
    if not shapely.intersects(one, other):
        return 0.0
    common = shapely.intersection(one, other)
    return float(common.area) if thickness(common) > _ROUNDING else 0.0

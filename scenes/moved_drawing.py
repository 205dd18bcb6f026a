"""Whether an entry's drawing can be carried to where its group has gone, in place of being made anew.

Where that is the motion tells; here it is held against the entry, so that no frame is ever taken for another.
Places are complex numbers, x + iy on the stage: what is carried goes from z to z * turn + shift.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Label, Lines, drawing_moves
from explainers.geometry.rigid_motion import Point, Similarity, cos_sin_deg

__all__ = ["ComplexMotion", "Places", "moved_drawing", "places_of"]

Places = np.ndarray[Any, np.dtype[np.complex128]]
ComplexMotion = tuple[complex, complex]  # turn, shift

_SAME = 1e-7  # stage units: a hundred thousandth of a pixel


def places_of(entry: Entry) -> Places:
    """All points that an entry is made of, in order."""
    match entry:
        case Area():
            return _places([point for ring in entry.rings for point in ring])
        case Lines():
            return _places([point for pair in entry.segments for point in pair])
        case Dots():
            return _places(entry.centres)
        case Arrow():
            return _places(entry.path)
        case Circle():
            return _places([entry.centre])
        case Label():
            return _places([entry.at])
    raise TypeError(f"an entry of kind {type(entry).__name__} cannot be carried")


def moved_drawing(first: Entry, places: Places, now: Entry, way: Similarity) -> ComplexMotion | None:
    """How an entry has been carried, opacity aside; None where it has changed in any other way.

    places : those of the first
    way    : of its group; letters and circles may have found a place and size of their own
    """
    size = _resized(first, now)
    if size is None:
        return None
    places_now = places_of(now)
    if len(places) != len(places_now) or len(places) == 0:
        return None
    if isinstance(size, float):
        turn = complex(size)
        shift = complex(places_now[0] - places[0] * turn)
    else:
        turn, shift = way.scale * complex(*cos_sin_deg(way.turn_deg)), complex(*way.shift)
    if np.abs(places * turn + shift - places_now).max() > _SAME:
        return None
    if isinstance(first, Dots) and isinstance(now, Dots) and abs(now.radius - first.radius * abs(turn)) > _SAME:
        return None
    grows = abs(abs(turn) - 1.0) > _SAME
    if not isinstance(first, Label) and not drawing_moves(first, turns=False, grows=grows):  # letters have their size
        return None
    return turn, shift


def _resized(first: Entry, now: Entry) -> float | str | None:
    """How much larger a label or circle has become; for others "open"; None where they do not look alike."""
    match first, now:
        case Area(), Area():
            alike = (
                (first.fill, first.stroke, first.width, first.dash) == (now.fill, now.stroke, now.width, now.dash)
                and first.rounded == now.rounded == 0.0  # rounded ones must stay upright
                and [len(ring) for ring in first.rings] == [len(ring) for ring in now.rings]
            )
            return "open" if alike else None
        case Lines(), Lines():
            return "open" if (first.stroke, first.width) == (now.stroke, now.width) else None
        case Dots(), Dots():
            return "open" if first.fill == now.fill else None
        case Arrow(), Arrow():
            alike = (first.stroke, first.width, first.head) == (now.stroke, now.width, now.head)
            return "open" if alike else None
        case Circle(), Circle():
            alike = (first.fill, first.stroke, first.width, first.dash) == (now.fill, now.stroke, now.width, now.dash)
            return now.radius / first.radius if alike and first.radius > 0.0 else None
        case Label(), Label():
            looks = [(label.text, label.sign, label.colour, label.bold, label.align) for label in (first, now)]
            alike = looks[0] == looks[1]
            return now.size / first.size if alike and first.size > 0.0 else None
    return None


def _places(points: Sequence[Point]) -> Places:
    return np.array(points, dtype=np.float64).reshape(-1, 2).view(np.complex128).ravel()

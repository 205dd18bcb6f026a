"""Where corners are counted: a dot for each, then a cross where none is left and a ring where several make one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from ....figure.model import Circle, Dots, Entry, Lines, Role
from ....figure.theme import Theme
from ....geometry.rigid_motion import Point, Similarity
from ..facts.merge import Corners

__all__ = ["corner_signs"]

_GROUP = "pointed"
_DOT = 0.11
_CROSS = 0.17
_RING = 0.26
_BESIDE = 1.15  # of their radius: half the distance of two dots for corners that lie together
_APART = 0.46  # of the least distance of two places: so large is a ring at most


def corner_signs(corners: Corners, view: Similarity, theme: Theme, *, settled: bool) -> Iterator[Entry]:
    """The signs on the work table.

    settled : whether it is shown what becomes of them; else each corner that there was has a dot of its own
    """
    places = view.apply(corners.places)
    near = min((math.dist(*pair) for pair in combinations(places, 2)), default=math.inf)
    grown = min(1.0, _APART * near / _RING)
    gone = view.apply(tuple(place for place, _ in corners.vanish))
    alone = [view.apply_point(place) for place, count in corners.stay if count == 1]
    yield _dots("corners", alone, _DOT * grown, theme)
    if not settled:
        several = [(view.apply_point(place), count) for place, count in (*corners.met, *corners.vanish)]
        yield from _unless_empty(_dots("corners-together", _side_by_side(several, grown), _DOT * grown, theme))
        return
    made = [view.apply_point(place) for place, _ in corners.met]
    yield from _unless_empty(_dots("corners-made", made, _DOT * grown, theme))
    size = _CROSS * grown
    if gone:
        yield Lines(
            id="corners-gone",
            group=_GROUP,
            role=Role.POINTER,
            segments=tuple(
                stroke
                for x, y in gone
                for stroke in (
                    ((x - size, y - size), (x + size, y + size)),
                    ((x - size, y + size), (x + size, y - size)),
                )
            ),
            stroke=theme.attention,
            width=theme.sign_width,
        )
    for number, (place, _) in enumerate(corners.met, start=1):
        yield Circle(
            id=f"corners-met-{number}",
            group=_GROUP,
            role=Role.POINTER,
            centre=view.apply_point(place),
            radius=_RING * grown,
            stroke=theme.attention,
            width=theme.sign_width,
        )


def _dots(name: str, centres: Sequence[Point], radius: float, theme: Theme) -> Dots:
    return Dots(id=name, group=_GROUP, role=Role.POINTER, centres=tuple(centres), radius=radius, fill=theme.attention)


def _unless_empty(dots: Dots) -> Iterator[Dots]:
    if dots.centres:
        yield dots


def _side_by_side(places: Sequence[tuple[Point, int]], grown: float) -> list[Point]:
    """As many points at each place as there are corners, so that their dots can be told apart."""
    points: list[Point] = []
    for (x, y), count in places:
        out = 0.0 if count == 1 else _BESIDE * _DOT * grown / math.sin(math.pi / count)
        for number in range(count):
            at = 2.0 * math.pi * number / count
            points.append((x + out * math.cos(at), y + out * math.sin(at)))
    return points

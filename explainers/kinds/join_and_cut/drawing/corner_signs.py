"""Where corners are counted: a dot at each that there is, a cross where none is left, a ring where several make one."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from ....figure.model import Circle, Dots, Entry, Lines, Role
from ....figure.theme import Theme
from ....geometry.rigid_motion import Similarity
from ..facts.merge import Corners

__all__ = ["corner_signs"]

_GROUP = "pointed"
_DOT = 0.11
_CROSS = 0.17
_RING = 0.26
_APART = 0.46  # of the least distance of two places: so large is a ring at most


def corner_signs(corners: Corners, view: Similarity, theme: Theme, *, settled: bool) -> Iterator[Entry]:
    """The signs on the work table.

    settled : whether it is shown what becomes of them; else each place where there is a corner has a dot, and no more
    """
    places = view.apply(corners.places)
    near = min((math.dist(*pair) for pair in combinations(places, 2)), default=math.inf)
    grown = min(1.0, _APART * near / _RING)
    gone = view.apply(tuple(place for place, _ in corners.vanish))
    kept = view.apply(tuple(place for place, _ in corners.stay))
    yield Dots(
        id="corners",
        group=_GROUP,
        role=Role.POINTER,
        centres=kept,
        radius=_DOT * grown,
        fill=theme.attention,
    )
    if gone and not settled:
        yield Dots(
            id="corners-to-go",
            group=_GROUP,
            role=Role.POINTER,
            centres=gone,
            radius=_DOT * grown,
            fill=theme.attention,
        )
    if not settled:
        return
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

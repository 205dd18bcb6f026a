"""A turn on the tray: the arc that the marked side travels, with a stroke after a quarter, and where the piece lay."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ....figure.model import Area, Arrow, Entry, Lines, Role
from ....figure.signs import broken, broken_lines
from ....figure.strokes import arc
from ....figure.theme import Theme
from ....geometry.angles import wrapped_deg
from ....geometry.rigid_motion import Point, Ring, Side
from ....sentences.labels import turn_label

__all__ = ["TURN_GROUP", "ghost", "turn_arc"]

TURN_GROUP = "turn"

_QUARTER_TICK = 0.15  # how far the stroke after a quarter turn stands out from its arc
_OPACITY = 0.8  # of what shows where a piece lay
_OUTLINE_WIDTH = 0.03
_SIDE_WIDTH = 0.06


def turn_arc(centre: Point, radius: float, *, to_deg: float, turn_deg: float, theme: Theme) -> Iterator[Entry]:
    """The arc of a turn that ends in a direction, in stage units; there must be a turn.

    A turn of plainly more than a quarter has a stroke where the first quarter is over, and one at its start. Two
    quarters are never over before the head: a turn is told the shorter way round.
    """
    from_deg = wrapped_deg(to_deg - turn_deg)
    length = math.radians(abs(turn_deg)) * radius
    yield Arrow(
        id="turn-arc",
        group=TURN_GROUP,
        role=Role.TURN,
        path=arc(centre, radius, from_deg, turn_deg),
        stroke=theme.attention,
        width=theme.arrow_width,
        head=min(theme.arrow_head, 0.6 * length),
        alt=turn_label(turn_deg),
    )
    if abs(turn_deg) <= 90.0 + math.degrees(theme.arrow_head / radius):
        return
    quarter_deg = from_deg + math.copysign(90.0, turn_deg)
    yield Lines(
        id="turn-quarters",
        group=TURN_GROUP,
        role=Role.TURN,
        segments=tuple(_outward(centre, radius - theme.arrow_width / 2, at, theme) for at in (from_deg, quarter_deg)),
        stroke=theme.attention,
        width=theme.arrow_width,
    )


def _outward(centre: Point, radius: float, at_deg: float, theme: Theme) -> Side:
    """A short stroke away from the centre, from the inner edge of the arc on."""
    x, y = math.cos(math.radians(at_deg)), math.sin(math.radians(at_deg))
    far = radius + theme.arrow_width / 2 + _QUARTER_TICK
    return (centre[0] + radius * x, centre[1] + radius * y), (centre[0] + far * x, centre[1] + far * y)


def ghost(ring: Ring, side: Side, theme: Theme) -> Iterator[Entry]:
    """Where a piece lay before it turned: a thin broken outline, no cloth, its marked side a little thicker."""
    yield Area(
        id="turn-ghost",
        group=TURN_GROUP,
        role=Role.TURN,
        rings=(ring,),
        stroke=theme.quiet,
        width=_OUTLINE_WIDTH,
        dash=broken(_OUTLINE_WIDTH),
        opacity=_OPACITY,
    )
    yield Lines(
        id="turn-ghost-side",
        group=TURN_GROUP,
        role=Role.TURN,
        segments=broken_lines([side], _SIDE_WIDTH),
        stroke=theme.quiet,
        width=_SIDE_WIDTH,
        opacity=_OPACITY,
    )

"""What cloth wears: a pattern by its name, as entries that belong to the piece."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..geometry.rigid_motion import Point, Ring, Side
from .model import Dots, Entry, Lines
from .patterns import Disc, dots, hatch
from .subject import Subject
from .theme import Theme

__all__ = ["pattern_entries"]


def pattern_entries(
    pattern: str,
    rings: Sequence[Ring],
    *,
    theme: Theme,
    colour: str,
    name: str,
    group: str,
    role: str,
    frame_deg: float = 0.0,
    anchor: Point | None = None,
    clear: Sequence[Disc] = (),
    opacity: float = 1.0,
    subject: Subject | None = None,
) -> tuple[Entry, ...]:
    """One part of a cloth in a pattern: one entry, or none for plain cloth.

    pattern : one of ``style.PATTERNS``
    rings   : an exterior with its holes, on the stage
    name    : the id of the entry
    others  : as for ``patterns.hatch``
    """
    spacing = theme.pattern_spacing
    laid = {"frame_deg": frame_deg, "anchor": anchor, "clear": clear, "inset": theme.pattern_inset}
    if pattern == "plain":
        return ()
    if pattern == "dots":
        centres = dots(rings, spacing, theme.dot_radius, **laid)  # type: ignore[arg-type]
        return (
            Dots(
                id=name,
                group=group,
                role=role,
                centres=centres,
                radius=theme.dot_radius,
                fill=colour,
                opacity=opacity,
                subject=subject,
            ),
        )
    if pattern == "crosses":
        centres = dots(rings, spacing, theme.cross_reach, **laid)  # type: ignore[arg-type]
        segments = _crosses(centres, theme.cross_reach, frame_deg + theme.hatch_deg)
    else:
        ways = (theme.hatch_deg, theme.hatch_deg + 90.0) if pattern == "checks" else (theme.hatch_deg,)
        segments = tuple(
            pair
            for way in ways
            for pair in hatch(rings, spacing, way, **laid)  # type: ignore[arg-type]
        )
    return (
        Lines(
            id=name,
            group=group,
            role=role,
            segments=segments,
            stroke=colour,
            width=theme.hatch_width,
            opacity=opacity,
            subject=subject,
        ),
    )


def _crosses(centres: Sequence[Point], reach: float, turn_deg: float) -> tuple[Side, ...]:
    """Two strokes about each centre."""
    segments = []
    for deg in (turn_deg, turn_deg + 90.0):
        dx, dy = reach * math.cos(math.radians(deg)), reach * math.sin(math.radians(deg))
        segments += [((x - dx, y - dy), (x + dx, y + dy)) for x, y in centres]
    return tuple(segments)

"""The picture that stands for a step where nothing moves: on slides, on pages, in a script."""

from __future__ import annotations

from dataclasses import replace

from ...figure.extents import extent_of_entries
from ...figure.layout import PANEL_FOOT, PANEL_TOP, Box
from ...figure.model import STAGE_HEIGHT, STAGE_WIDTH, Figure, Role
from ...storyboard.model import Step

__all__ = ["drawn_part", "picture_of", "undressed"]

_EDGE = 0.08


def picture_of(step: Step) -> Figure:
    """What the step ends in, but of a pause the clock that has not yet run down."""
    return step.stills[0] if step.pause_s > 0.0 else step.picture


def undressed(figure: Figure, *, heading_only: bool = False) -> Figure:
    """The figure without its heading, and without its row of stitches too."""
    off = {Role.HEADING} if heading_only else {Role.HEADING, Role.PROGRESS}
    return replace(figure, entries=tuple(entry for entry in figure.entries if entry.role not in off))


def drawn_part(figure: Figure) -> Box:
    """The part of the stage that holds the picture; room for heading and captions is left out where it is free."""
    drawn = extent_of_entries(figure.entries)
    return Box(
        0.0,
        max(0.0, min(drawn.bottom, PANEL_FOOT) - _EDGE),
        STAGE_WIDTH,
        min(STAGE_HEIGHT, max(drawn.top, PANEL_TOP) + _EDGE),
    )

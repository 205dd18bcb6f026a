"""The outline of a question that shows it, to be turned by hand as on tracing paper, beside its options."""

from __future__ import annotations

import math

from ...figure.layout import extent_of
from ...figure.subject import THE_OUTLINE
from ...storyboard.doing import Loose
from ..drawing.choices import Choices

__all__ = ["loose_outline"]

_MOVES = (0.25, 1.0)  # a step by a key or a button, small and large, in stage units
_TURNS_DEG = (15.0, 45.0, 1.0)


def loose_outline(choices: Choices) -> Loose:
    """It stays on its own panel."""
    exterior = choices.solution.outline.exterior
    middle = extent_of(exterior).middle
    return Loose(
        group=THE_OUTLINE.group,
        about=choices.view.apply_point(middle),
        reach=max(math.dist(middle, corner) for corner in exterior) * choices.view.scale,
        room=choices.room,
        moves=_MOVES,
        turns_deg=_TURNS_DEG,
    )

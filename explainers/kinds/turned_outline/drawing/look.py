"""The outline looked at closely: alone, a corner ringed, the way round from there shown by an arrow."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from ....figure.layout import WHOLE, extent_of, fitting_scale, view_into
from ....figure.model import Arrow, Circle, Entry, Figure, Lines, Role
from ....figure.motion import Glide
from ....figure.panels import outline_entries, panel
from ....figure.signs import broken_lines
from ....figure.subject import THE_OUTLINE
from ....figure.theme import Theme
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Similarity
from ..facts.landmark import LandmarkFact

__all__ = ["Look", "LookPhase"]

_PAD = 0.7  # room for the ring
_RING = 0.42  # round the corner ...
_OF_SIDE = 0.8  # ... but no more of the shorter of its sides, so that both are seen to leave it
_LEAST_RING = 0.2


class LookPhase(StrEnum):
    """How far the look has got."""

    CORNER = "corner"  # the corner is ringed
    ROUND = "round"  # the sides beside it are told apart


@dataclass(frozen=True)
class Look:
    """The outline of one question, large."""

    outline: Outline
    theme: Theme

    @cached_property
    def view(self) -> Similarity:
        """From the outline's own coordinates to the stage."""
        shape, room = extent_of(self.outline.exterior), WHOLE.inset(_PAD)
        return view_into(shape, room, fitting_scale(shape, room))

    def glide(self, start: Similarity) -> Glide:
        """The outline from where another view draws it."""
        middle = extent_of(self.outline.exterior).middle
        return Glide.between(THE_OUTLINE.group, middle, start, self.view)

    def figure(self, alt: str, fact: LandmarkFact, phase: LookPhase) -> Figure:
        """The outline on its table, with what stands out in this phase."""
        entries = [panel("table", WHOLE, self.theme), *self.entries(self.view, fact, phase)]
        return Figure(background=self.theme.paper, entries=tuple(entries), alt=alt)

    def entries(self, view: Similarity, fact: LandmarkFact, phase: LookPhase) -> list[Entry]:
        """The outline with what stands out in a phase, without the table, drawn by any view."""
        theme = self.theme
        entries: list[Entry] = list(outline_entries(self.outline, view, theme))
        if phase is LookPhase.ROUND:
            entries.append(
                Lines(
                    id="look-behind",
                    group="pointed",
                    role=Role.POINTER,
                    segments=broken_lines([view.apply_side(fact.behind)], theme.mark_width),
                    stroke=theme.attention,
                    width=theme.mark_width,
                )
            )
            ahead = view.apply_side(fact.ahead)
            entries.append(
                Arrow(
                    id="look-ahead",
                    group="pointed",
                    role=Role.POINTER,
                    path=ahead,
                    stroke=theme.attention,
                    width=theme.mark_width,
                    head=min(1.8 * theme.arrow_head, 0.6 * math.dist(*ahead)),
                )
            )
        shorter = view.scale * min(math.dist(*fact.ahead), math.dist(*fact.behind))
        entries.append(
            Circle(
                id="look-ring",
                group="pointed",
                role=Role.POINTER,
                centre=view.apply_point(fact.corner),
                radius=max(_LEAST_RING, min(_RING, _OF_SIDE * shorter)),
                stroke=theme.attention,
                width=theme.sign_width,
            )
        )
        return entries

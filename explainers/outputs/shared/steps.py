"""Steps where nothing moves, on slides, pages and in scripts: heading, bookmark, picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from html import escape

from ...figure.layout import PANEL_FOOT, PANEL_TOP, Box, extent_of_entries
from ...figure.model import STAGE_HEIGHT, STAGE_WIDTH, Figure, Label, Role
from ...sentences.published import credit_lines
from ...storyboard.model import Imprint, Step

__all__ = [
    "bookmark",
    "drawn_part",
    "heading_label",
    "picture_of",
    "step_heading",
    "terms_of",
    "undecorated",
    "with_dividers",
]

_EDGE = 0.08


def heading_label(figure: Figure) -> Label | None:
    """The heading as it is drawn, which a page writes as text."""
    return next((entry for entry in figure.entries if isinstance(entry, Label) and entry.role == Role.HEADING), None)


def step_heading(step: Step, *, first: bool, style: str = "") -> str:
    """The heading as an element: of the first level for the first step of a document, of the second for the others."""
    level = "h1" if first else "h2"
    styled = f' style="{style}"' if style else ""
    return f"<{level}{styled}>{escape(step.heading)}</{level}>"


def bookmark(chapter: str) -> str:
    """The attributes of an element where a chapter starts; none where none does."""
    return f' data-chapter="{escape(chapter)}"' if chapter else ""


def terms_of(imprint: Imprint) -> str:
    """On what terms a file may be used, and whether its language is a draft, in the language spoken now."""
    return ". ".join(line for line in (*credit_lines("", imprint.licence), imprint.draft) if line)


def with_dividers(steps: Sequence[Step]) -> tuple[Step, ...]:
    """The steps, before each that begins with a card that card as a step of its own: a slide at which to pause."""
    return tuple(
        each for step in steps for each in ((step.card_alone(), step.without_card()) if step.card else (step,))
    )


def picture_of(step: Step) -> Figure:
    """What the step ends in, but of a pause the clock that has not yet run down."""
    return step.stills[0] if step.pause_s > 0.0 else step.picture


def undecorated(figure: Figure, *, heading_only: bool = False) -> Figure:
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

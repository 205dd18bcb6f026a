"""The steps of a lesson on pages: what is drawn of them, their headings, their bookmarks."""

from __future__ import annotations

from dataclasses import replace
from html import escape

from ..figure.model import Figure, Label, Role
from ..storyboard.model import Step

__all__ = ["bookmark", "heading_label", "picture_of", "step_heading", "undressed"]


def picture_of(step: Step) -> Figure:
    """What stands for a step: what it ends in, but of a pause the clock that has not yet run down."""
    return step.stills[0] if step.pause_s > 0.0 else step.picture


def heading_label(figure: Figure) -> Label | None:
    """The heading as it is drawn, which a page writes as text."""
    return next((entry for entry in figure.entries if isinstance(entry, Label) and entry.role is Role.HEADING), None)


def undressed(figure: Figure, *, heading_only: bool = False) -> Figure:
    """The figure without its heading, and without its row of stitches too."""
    off = {Role.HEADING} if heading_only else {Role.HEADING, Role.PROGRESS}
    return replace(figure, entries=tuple(entry for entry in figure.entries if entry.role not in off))


def step_heading(step: Step, *, first: bool, style: str = "") -> str:
    """The heading as an element: of the first level for the first step of a document, of the second for the others."""
    level = "h1" if first else "h2"
    styled = f' style="{style}"' if style else ""
    return f"<{level}{styled}>{escape(step.heading)}</{level}>"


def bookmark(chapter: str) -> str:
    """The attributes of an element where a chapter starts; none where none does."""
    return f' data-chapter="{escape(chapter)}"' if chapter else ""

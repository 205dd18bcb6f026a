"""The steps of a lesson on pages: their headings, their bookmarks."""

from __future__ import annotations

from html import escape

from ...figure.model import Figure, Label, Role
from ...storyboard.model import Imprint, Step
from ...wording.published import credit_lines

__all__ = ["bookmark", "heading_label", "step_heading", "terms_of"]


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

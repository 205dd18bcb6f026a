"""What several pictures lie on: panels, and the finished outline."""

from __future__ import annotations

from dataclasses import replace

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Similarity
from .layout import Box
from .model import Area, Entry, Role
from .subject import THE_OUTLINE, Subject
from .theme import Theme

__all__ = ["outline_entries", "panel"]


def panel(name: str, box: Box, theme: Theme, *, tray: bool = False, subject: Subject | None = None) -> Area:
    """A panel: a lighter field that holds what belongs together."""
    return Area(
        id=name,
        group="panels",
        subject=subject,
        role=Role.PANEL,
        rings=(box.ring,),
        fill=theme.tray if tray else theme.table,
        stroke=theme.panel_stroke,
        width=theme.panel_width,
        rounded=theme.panel_rounded,
    )


def outline_entries(
    outline: Outline, view: Similarity, theme: Theme, *, filled: bool = True, stroked: bool = True
) -> tuple[Entry, ...]:
    """The outline alone: its cloth beneath, its thick side line above."""
    rings, name = tuple(view.apply(ring) for ring in outline.rings), THE_OUTLINE.group
    material = Area(
        id=f"{name}-cloth", group=name, subject=THE_OUTLINE, role=Role.OUTLINE, rings=rings, fill=theme.outline
    )
    line = replace(material, id=name, fill=None, stroke=theme.ink, width=theme.outline_width)
    return (*((material,) if filled else ()), *((line,) if stroked else ()))

"""What frames every picture: the heading line, the row of stitches that fills as a lesson goes on, the countdown."""

from __future__ import annotations

from dataclasses import replace

from ..geometry.rigid_motion import Point
from .layout import HEADING_Y, MARGIN, PROGRESS_Y
from .model import STAGE_WIDTH, Align, Area, Entry, Figure, Label, Lines, Role
from .theme import Theme

__all__ = ["counting_down", "dressed", "title_figure"]

_PATCH = 0.34  # a patch of the countdown
_PATCH_GAP = 0.12


def dressed(figure: Figure, *, heading: str, done: int, steps: int, theme: Theme) -> Figure:
    """The figure with its heading, and with `done` of `steps` stitches sewn along the top edge."""
    width = STAGE_WIDTH - 2 * MARGIN
    pitch = width / steps
    stitch = min(0.7 * pitch, 0.6)
    rows: list[Entry] = []
    for name, colour, numbers in (
        ("progress-done", theme.stitch_done, range(done)),
        ("progress-to-come", theme.stitch_to_come, range(done, steps)),
    ):
        segments = tuple(
            (
                (MARGIN + (i + 0.5) * pitch - stitch / 2, PROGRESS_Y),
                (MARGIN + (i + 0.5) * pitch + stitch / 2, PROGRESS_Y),
            )
            for i in numbers
        )
        if segments:
            rows.append(
                Lines(
                    id=name,
                    group="progress",
                    role=Role.PROGRESS,
                    segments=segments,
                    stroke=colour,
                    width=theme.stitch_width,
                )
            )
    title = Label(
        id="heading",
        group="heading",
        role=Role.HEADING,
        text=heading,
        at=(MARGIN, HEADING_Y),
        size=theme.heading_size,
        colour=theme.ink,
        bold=True,
        align=Align.START,
    )
    return replace(figure, entries=(*rows, title, *figure.entries))


def counting_down(figure: Figure, *, left: int, patches: int, left_s: float, theme: Theme) -> Figure:
    """The figure with a row of patches at the top right, `left` of them still there, and the seconds left in words."""
    right = STAGE_WIDTH - MARGIN
    entries: list[Entry] = []
    for index in range(patches):
        x = right - (patches - index) * (_PATCH + _PATCH_GAP) + _PATCH_GAP
        y = HEADING_Y - _PATCH / 2
        ring = ((x, y), (x + _PATCH, y), (x + _PATCH, y + _PATCH), (x, y + _PATCH))
        entries.append(
            Area(
                id=f"clock-{index + 1}",
                group="clock",
                role=Role.CLOCK,
                rings=(ring,),
                fill=theme.join_pattern if index < left else None,
                stroke=theme.join_pattern,
                width=theme.side_width,
                rounded=0.06,
            )
        )
    entries.append(
        Label(
            id="clock-words",
            group="clock",
            role=Role.CLOCK,
            text=f"{left_s:.0f} s" if left_s > 0 else "time is up",
            at=(right - patches * (_PATCH + _PATCH_GAP) - 0.15, HEADING_Y),
            size=theme.word_size,
            colour=theme.ink,
            align=Align.END,
        )
    )
    return replace(figure, entries=(*figure.entries, *entries))


def title_figure(lines: tuple[str, ...], alt: str, theme: Theme) -> Figure:
    """A quiet card of a few centred lines: the opening, the closing, the thing to remember."""
    pitch = 0.85
    top = 4.1 + pitch * (len(lines) - 1) / 2
    entries: list[Entry] = _patchwork((STAGE_WIDTH / 2, top + 1.5), theme)
    entries += [
        Label(
            id=f"line-{index + 1}",
            group="words",
            role=Role.WORD,
            text=line,
            at=(STAGE_WIDTH / 2, top - index * pitch),
            size=theme.heading_size if index == 0 else theme.word_size * 1.15,
            colour=theme.ink,
            bold=index == 0,
        )
        for index, line in enumerate(lines)
    ]
    return Figure(background=theme.paper, entries=tuple(entries), alt=alt)


def _patchwork(at: Point, theme: Theme) -> list[Entry]:
    """A strip of patches, each of two triangles: decoration only, so it has no words."""
    colours = (theme.base, theme.outline, theme.join, theme.cut)
    width, count = 1.1, 7
    left, foot = at[0] - count * width / 2, at[1] - width / 2
    entries: list[Entry] = []
    for index in range(count):
        x = left + index * width
        low_left, low_right = (x, foot), (x + width, foot)
        top_right, top_left = (x + width, foot + width), (x, foot + width)
        rising = index % 2 == 0
        halves = (
            ((low_left, low_right, top_right), (low_left, top_right, top_left))
            if rising
            else ((low_left, low_right, top_left), (low_right, top_right, top_left))
        )
        for half, ring in enumerate(halves):
            entries.append(
                Area(
                    id=f"patch-{index + 1}-{half + 1}",
                    group="patchwork",
                    role=Role.PANEL,
                    rings=(ring,),
                    fill=colours[(index + 2 * half) % len(colours)],
                    stroke=theme.paper,
                    width=theme.outline_width,
                )
            )
    return entries

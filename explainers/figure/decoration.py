"""What frames every picture: the heading line, the row of stitches that fills as a lesson goes on, the countdown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..geometry.rigid_motion import Point, Side
from ..sentences.labels import clock_label
from .layout import HEADING_Y, MARGIN, PROGRESS_Y
from .model import STAGE_WIDTH, Align, Area, Dots, Entry, Figure, Label, Lines, Role
from .theme import Theme

__all__ = ["counting_down", "decorated", "footed", "numbered"]

_KNOT = 0.05  # radius, between the stitches of two chapters
_CHAPTER_GAP = 0.32
_FOOT_Y = 0.6  # the middle of the strip that is kept free for captions
_PATCH = 0.34  # a patch of the countdown
_PATCH_GAP = 0.12


def decorated(figure: Figure, *, heading: str, done: int, runs: Sequence[int], theme: Theme) -> Figure:
    """The figure with its heading, and with `done` stitches sewn along the top edge.

    runs : of how many stitches each chapter has; those of a chapter stand together, with a knot where the next begins
    """
    sewn, knots = _stitches(runs)
    rows: list[Entry] = []
    for name, colour, segments in (
        ("progress-done", theme.stitch_done, sewn[:done]),
        ("progress-to-come", theme.stitch_to_come, sewn[done:]),
    ):
        if segments:
            rows.append(
                Lines(
                    id=name,
                    group="progress",
                    role=Role.PROGRESS,
                    segments=tuple(segments),
                    stroke=colour,
                    width=theme.stitch_width,
                )
            )
    for name, colour, is_done in (
        ("knots-done", theme.stitch_done, True),
        ("knots-to-come", theme.stitch_to_come, False),
    ):
        centres = tuple(point for at, point in knots if (at <= done) is is_done)
        if centres:
            rows.append(Dots(id=name, group="progress", role=Role.PROGRESS, centres=centres, radius=_KNOT, fill=colour))
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


def _stitches(runs: Sequence[int]) -> tuple[list[Side], list[tuple[int, Point]]]:
    """Where each stitch is, and the knots between chapters with how many stitches are before each."""
    count, gaps = sum(runs), max(0, len(runs) - 1)
    width = STAGE_WIDTH - 2 * MARGIN
    gap = min(_CHAPTER_GAP, 0.3 * width / max(1, gaps))
    pitch = (width - gaps * gap) / max(1, count)
    stitch = min(0.7 * pitch, 0.6)
    sewn: list[Side] = []
    knots: list[tuple[int, Point]] = []
    x = MARGIN
    for number, run in enumerate(runs):
        if number:
            knots.append((len(sewn), (x + gap / 2, PROGRESS_Y)))
            x += gap
        for _ in range(run):
            middle = x + pitch / 2
            sewn.append(((middle - stitch / 2, PROGRESS_Y), (middle + stitch / 2, PROGRESS_Y)))
            x += pitch
    return sewn, knots


def numbered(figure: Figure, words: str, theme: Theme) -> Figure:
    """The figure with a few words at the right end of its heading line."""
    label = Label(
        id="number",
        group="heading",
        role=Role.WORD,
        text=words,
        at=(STAGE_WIDTH - MARGIN, HEADING_Y),
        size=theme.word_size,
        colour=theme.ink,
        align=Align.END,
    )
    return replace(figure, entries=(*figure.entries, label))


def footed(figure: Figure, words: str, theme: Theme, *, is_asked: bool = False) -> Figure:
    """The figure with a line at its foot, where captions would be: for a picture that has none.

    is_asked : whether it is what the picture asks, which is written larger
    """
    label = Label(
        id="foot",
        group="heading",
        role=Role.WORD,
        text=words,
        at=(STAGE_WIDTH / 2, _FOOT_Y),
        size=1.15 * theme.word_size if is_asked else theme.small_size,
        colour=theme.ink,
    )
    return replace(figure, entries=(*figure.entries, label))


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
                fill=theme.countdown if index < left else None,
                stroke=theme.countdown,
                width=theme.side_width,
                rounded=0.06,
            )
        )
    entries.append(
        Label(
            id="clock-words",
            group="clock",
            role=Role.CLOCK,
            text=clock_label(left_s),
            at=(right - patches * (_PATCH + _PATCH_GAP) - 0.15, HEADING_Y),
            size=theme.word_size,
            colour=theme.ink,
            align=Align.END,
        )
    )
    return replace(figure, entries=(*figure.entries, *entries))

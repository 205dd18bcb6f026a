"""What frames every picture: the heading line, the row of stitches that fills as a lesson goes on, the countdown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..geometry.rigid_motion import Point, Side
from ..sentences.labels import clock_label
from ..typeface.faces import face
from .fill_pattern import pattern_entries
from .layout import HEADING_Y, MARGIN, PROGRESS_Y
from .model import STAGE_WIDTH, Align, Area, Dots, Entry, Figure, Label, Lines, Role
from .theme import Theme

__all__ = ["counting_down", "decorated", "footed", "numbered", "routine_figure", "title_figure"]

_NUMBER_SIZE = 0.5  # of the type on a patch of 0.72: to be read on a phone, where a card is as wide as the window
_KNOT = 0.05  # radius, between the stitches of two chapters
_CHAPTER_GAP = 0.32
_FOOT_Y = 0.6  # the middle of the strip that is kept free for captions
_PATCH = 0.34  # a patch of the countdown
_PATCH_GAP = 0.12
_CARD_MARGIN = 0.8  # kept free beside the lines of a card
_CARD_TOP, _CARD_FOOT = 5.65, 1.7  # between them the lines of a card have room, below its patchwork
_ROUTINE_LEFT = 2.6  # where the lines of a routine begin; their numbers stand before them
_ROUTINE_TOP, _ROUTINE_ROWS = 6.5, 6
_ROOMY_ROWS = 6  # with more rows than this, all but the title are written smaller


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


def footed(figure: Figure, words: str, theme: Theme) -> Figure:
    """The figure with a line at its foot, where captions would be: for a picture that has none."""
    label = Label(
        id="foot",
        group="heading",
        role=Role.WORD,
        text=words,
        at=(STAGE_WIDTH / 2, _FOOT_Y),
        size=theme.small_size,
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


def title_figure(lines: tuple[str, ...], alt: str, theme: Theme) -> Figure:
    """A quiet card of a few centred lines: the opening, the closing. A long line is folded; many stand closer."""
    words_size = theme.word_size * 1.15
    rows = _folded(lines, theme, words_size)
    if len(rows) > _ROOMY_ROWS:
        words_size = theme.small_size
        rows = _folded(lines, theme, words_size)
    pitch = min(0.85, (_CARD_TOP - _CARD_FOOT) / max(1, len(rows) - 1))
    top = min(_CARD_TOP, 4.1 + pitch * (len(rows) - 1) / 2)
    entries: list[Entry] = _patchwork((STAGE_WIDTH / 2, top + 1.5), theme)
    entries += [
        Label(
            id=f"line-{index + 1}",
            group="words",
            role=Role.WORD,
            text=text,
            at=(STAGE_WIDTH / 2, top - index * pitch),
            size=theme.heading_size if is_title else words_size,
            colour=theme.ink,
            bold=is_title,
        )
        for index, (text, is_title) in enumerate(rows)
    ]
    return Figure(background=theme.paper, entries=tuple(entries), alt=alt)


def routine_figure(lines: tuple[str, ...], alt: str, theme: Theme) -> Figure:
    """A card of a few numbered lines to keep, large: a line that is too long is folded."""
    room = STAGE_WIDTH - _ROUTINE_LEFT - _CARD_MARGIN
    folded = [
        (size, [_rows_of(line, size, room, bold=False) for line in lines])
        for size in (
            *(theme.heading_size * times for times in (1.2, 1.1, 1.0)),
            theme.word_size * 1.15,
            theme.word_size,
        )
    ]
    # A line is best read whole; where none of the large sizes allows that, as large as there is room.
    whole = [each for each in folded[:3] if all(len(texts) == 1 for texts in each[1])]
    fits = [each for each in folded if sum(map(len, each[1])) <= _ROUTINE_ROWS]
    size, rows = (*whole, *fits, folded[-1])[0]
    gap = 0.55
    pitch = min(0.72, (_ROUTINE_TOP - _CARD_FOOT - gap * (len(lines) - 1)) / max(1, sum(map(len, rows)) - 1))
    y = (_ROUTINE_TOP + _CARD_FOOT) / 2 + (pitch * (sum(map(len, rows)) - 1) + gap * (len(lines) - 1)) / 2
    entries: list[Entry] = []
    for number, texts in enumerate(rows, start=1):
        entries += _number_patch(number, (_ROUTINE_LEFT - 0.8, y), theme)
        for row, text in enumerate(texts, start=1):
            entries.append(
                Label(
                    id=f"line-{number}-{row}",
                    group="words",
                    role=Role.WORD,
                    text=text,
                    at=(_ROUTINE_LEFT, y),
                    size=size,
                    colour=theme.ink,
                    align=Align.START,
                )
            )
            y -= pitch
        y -= gap
    return Figure(background=theme.paper, entries=tuple(entries), alt=alt)


def _number_patch(number: int, at: Point, theme: Theme) -> list[Entry]:
    """A number on a patch of cloth."""
    x, y = at
    half = 0.36
    ring = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return [
        Area(
            id=f"number-{number}-patch",
            group="words",
            role=Role.PANEL,
            rings=(ring,),
            fill=theme.base,
            stroke=theme.patch_seam,
            width=theme.side_width,
        ),
        Label(
            id=f"number-{number}",
            group="words",
            role=Role.WORD,
            text=str(number),
            at=at,
            size=_NUMBER_SIZE,
            colour=theme.ink,
            bold=True,
        ),
    ]


def _folded(lines: tuple[str, ...], theme: Theme, words_size: float) -> list[tuple[str, bool]]:
    """(text, whether it belongs to the first line) of each row."""
    room = STAGE_WIDTH - 2 * _CARD_MARGIN
    return [
        (row, index == 0)
        for index, line in enumerate(lines)
        for row in _rows_of(line, words_size if index else theme.heading_size, room, bold=index == 0)
    ]


def _rows_of(line: str, size: float, room: float, *, bold: bool) -> list[str]:
    """A line cut between words where it is too long."""
    rows, row = [], ""
    for word in line.split():
        longer = f"{row} {word}".strip()
        if row and face(bold).width(longer, size) > room:
            rows.append(row)
            row = word
        else:
            row = longer
    return [*rows, row]


def _patchwork(at: Point, theme: Theme) -> list[Entry]:
    """A strip of patches, each of two triangles: decoration only, so it has no words."""
    cloths = (
        (theme.base, "plain", theme.ink),
        (theme.outline, "plain", theme.ink),
        *((fabric.fill, fabric.pattern_name, fabric.pattern) for fabric in theme.fabrics.values()),
    )
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
            name = f"patch-{index + 1}-{half + 1}"
            fill, pattern, colour = cloths[(index + 2 * half) % len(cloths)]
            entries.append(
                Area(
                    id=name,
                    group="patchwork",
                    role=Role.PANEL,
                    rings=(ring,),
                    fill=fill,
                    stroke=theme.patch_seam,
                    width=theme.side_width,
                )
            )
            entries += pattern_entries(
                pattern,
                (ring,),
                theme=theme,
                colour=colour,
                name=f"{name}-pattern",
                group="patchwork",
                role=Role.PANEL,
            )
    return entries

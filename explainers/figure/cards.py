"""Cards: the opening, where a question begins, the closing; lines of words on a ground of patchwork."""

from __future__ import annotations

from collections.abc import Iterable

from ..geometry.rigid_motion import Point, Ring
from ..typeface.faces import face
from .fill_pattern import pattern_entries
from .model import STAGE_WIDTH, Align, Area, Entry, Figure, Label, Role
from .theme import Theme

__all__ = ["chapter_figure", "routine_figure", "title_figure"]

_NUMBER_SIZE = 0.5  # of the type on a patch of 0.72: to be read on a phone, where a card is as wide as the window
_CARD_MARGIN = 0.8  # kept free beside the lines of a card
_CARD_TOP, _CARD_FOOT = 5.65, 1.7  # between them the lines of a card have room, below its patchwork
_ROUTINE_LEFT = 2.6  # where the lines of a routine begin; their numbers stand before them
_ROUTINE_TOP, _ROUTINE_ROWS = 6.5, 6
_SPARE = 0.86  # of the room: on slides the words may be set in a wider typeface, where ours is not installed
_ROOMY_ROWS = 6  # with more rows than this, all but the title are written smaller
_BLOCK_MIDDLE, _BLOCK = (4.0, 4.45), 4.2  # of a chapter's card, the block and how wide it is
_BLOCK_NUMBER = 1.3  # size of the number in it
_BESIDE_BLOCK = 7.0  # where the words of a chapter's card begin
_TITLE_PITCH, _MOST_TITLE_ROWS = 1.45, 3  # of its size, from row to row
_ROW_ABOVE, _SMALL_PATCH = 0.35, 0.42  # the patches of all questions, under the words


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
    room = _SPARE * (STAGE_WIDTH - _ROUTINE_LEFT - _CARD_MARGIN)
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


def chapter_figure(title: str, doing: str, place: tuple[int, int], alt: str, theme: Theme) -> Figure:
    """Where a question begins: a quilt block with its number; beside it words, and a patch for each question.

    doing : what is done with it
    place : its number, and how many there are
    """
    number, count = place
    room = _SPARE * (STAGE_WIDTH - _BESIDE_BLOCK - _CARD_MARGIN)
    size = theme.heading_size * 1.6
    while size > theme.heading_size and len(_rows_of(title, size, room, bold=True)) > _MOST_TITLE_ROWS:
        size *= 0.95
    rows = _rows_of(title, size, room, bold=True)
    texts = [*((row, size, True) for row in rows), (doing, theme.word_size * 1.15, False)]
    pitches = [_TITLE_PITCH * text_size for _, text_size, _ in texts]
    tall = sum(pitches) + _ROW_ABOVE + _SMALL_PATCH
    y = _BLOCK_MIDDLE[1] + tall / 2 - pitches[0] / 2
    entries: list[Entry] = _block(str(number), theme)
    for index, (text, text_size, is_bold) in enumerate(texts, start=1):
        entries.append(
            Label(
                id=f"line-{index}",
                group="words",
                role=Role.WORD,
                text=text,
                at=(_BESIDE_BLOCK, y),
                size=text_size,
                colour=theme.ink,
                bold=is_bold,
                align=Align.START,
            )
        )
        y -= (pitches[index - 1] + (pitches[index] if index < len(pitches) else pitches[-1])) / 2
    entries += _small_patches(number, count, (_BESIDE_BLOCK, y - _ROW_ABOVE + _SMALL_PATCH / 2), room, theme)
    return Figure(background=theme.paper, entries=tuple(entries), alt=alt)


def _block(number: str, theme: Theme) -> list[Entry]:
    """A quilt block of nine patches: triangles in its corners, whole cloth between them, the number in the middle."""
    cloths = _cloths(theme)
    side = _BLOCK / 3
    left, foot = _BLOCK_MIDDLE[0] - _BLOCK / 2, _BLOCK_MIDDLE[1] - _BLOCK / 2
    entries: list[Entry] = []
    for row in range(3):
        for column in range(3):
            x, y = left + column * side, foot + row * side
            name, square = f"block-{row + 1}-{column + 1}", _square(x, y, side)
            if (row, column) == (1, 1):
                entries += _patch(name, square, (theme.paper, "plain", theme.ink), theme)
            elif row == 1 or column == 1:
                entries += _patch(name, square, cloths[2 % len(cloths)], theme)
            else:
                falls = row == column  # the seams of the four corners make a square that stands on its point
                low_left, low_right, top_right, top_left = square
                halves = (
                    ((low_left, low_right, top_left), (low_right, top_right, top_left))
                    if falls
                    else ((low_left, low_right, top_right), (low_left, top_right, top_left))
                )
                is_outer = (row == 0, row == 2) if falls else (column == 2, column == 0)
                for half, (ring, outer) in enumerate(zip(halves, is_outer, strict=True)):
                    cloth = cloths[1] if not outer else cloths[0]
                    entries += _patch(f"{name}-{half + 1}", ring, cloth, theme)
    label = Label(
        id="block-number",
        group="words",
        role=Role.WORD,
        text=number,
        at=_BLOCK_MIDDLE,
        size=_BLOCK_NUMBER / max(1, len(number) - 1),
        colour=theme.ink,
        bold=True,
    )
    return [*entries, label]


def _small_patches(number: int, count: int, at: Point, room: float, theme: Theme) -> Iterable[Entry]:
    """A patch for each question; those that have begun are of cloth, those to come are only drawn round."""
    side = min(_SMALL_PATCH, room / (1.35 * count))
    for index in range(count):
        ring = _square(at[0] + index * 1.35 * side, at[1] - side / 2, side)
        yield Area(
            id=f"question-{index + 1}",
            group="patchwork",
            role=Role.PANEL,
            rings=(ring,),
            fill=theme.stitch_done if index < number else None,
            stroke=theme.stitch_done if index < number else theme.quiet,
            width=theme.side_width,
        )


def _square(x: float, y: float, side: float) -> Ring:
    return ((x, y), (x + side, y), (x + side, y + side), (x, y + side))


def _cloths(theme: Theme) -> tuple[tuple[str, str, str], ...]:
    """(fill, pattern, its colour) of the cloths of a theme."""
    return (
        (theme.base, "plain", theme.ink),
        (theme.outline, "plain", theme.ink),
        *((fabric.fill, fabric.pattern_name, fabric.pattern) for fabric in theme.fabrics.values()),
    )


def _patch(name: str, ring: Ring, cloth: tuple[str, str, str], theme: Theme) -> list[Entry]:
    """A patch with its pattern."""
    fill, pattern, colour = cloth
    patch = Area(
        id=name,
        group="patchwork",
        role=Role.PANEL,
        rings=(ring,),
        fill=fill,
        stroke=theme.patch_seam,
        width=theme.side_width,
    )
    lines = pattern_entries(
        pattern, (ring,), theme=theme, colour=colour, name=f"{name}-pattern", group="patchwork", role=Role.PANEL
    )
    return [patch, *lines]


def _patchwork(at: Point, theme: Theme) -> list[Entry]:
    """A strip of patches, each of two triangles: decoration only, so it has no words."""
    cloths = _cloths(theme)
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
            entries += _patch(name, ring, cloths[(index + 2 * half) % len(cloths)], theme)
    return entries

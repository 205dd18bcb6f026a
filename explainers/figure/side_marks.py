"""Side marks: which part of a side is marked, with which ticks and which letter.

Equal ticks mean sides that must meet. Pieces 1 to 3 have one to three strokes, pieces 4 to 6 one to three crosses: signs
that stay themselves at every turn, unlike numerals such as IV and VI (hatch marks; references as for equal sides in
geometry books). The letter stands upright whatever the piece does.
"""

from __future__ import annotations

import math

from ..geometry.rigid_motion import Point
from .model import Circle, Entry, Label, Lines, Role
from .theme import Theme

__all__ = ["mark_alt", "side_mark_entries", "tick_segments"]

Pair = tuple[Point, Point]


def side_mark_entries(
    prefix: str,
    group: str,
    start: Point,
    end: Point,
    *,
    inside: int | Point,
    ticks: int,
    mark: str,
    letter_at: Point | None,
    theme: Theme,
    partial: bool = False,
    colour: str | None = None,
    backed: str | None = None,
) -> tuple[Entry, ...]:
    """Everything that marks one side.

    prefix    : ids are prefix + ".bar", ".ends", ".ticks", ".letter-back", ".letter"
    start, end: the marked part of the side, on the stage
    inside    : on which side of start-end the material lies: +1 left, -1 right, or a vector that points inwards
    ticks     : the number of the piece, 1 to 6
    letter_at : middle of the letter (see ``labels.place_mark``); None leaves the letter out
    partial   : the mark is only a part of a side, so that its ends are shown by small bars
    colour    : the theme's ink where none is given
    backed    : colour of a disc under the letter, for a letter that stands on a pattern that was not cleared
    """
    ink = colour or theme.ink
    nx, ny = _inward(start, end, inside)
    # Drawn against the side from within, so that two marks that meet along it stay two.
    off = theme.mark_width / 2 - theme.outline_width / 2
    bar = ((start[0] + off * nx, start[1] + off * ny), (end[0] + off * nx, end[1] + off * ny))
    alt = mark_alt(ticks, mark)
    entries: list[Entry] = [
        Lines(
            id=f"{prefix}.bar", group=group, role=Role.MARK, alt=alt, segments=(bar,), stroke=ink, width=theme.mark_width
        )
    ]
    if partial:
        half = theme.end_bar_length / 2
        ends = tuple(
            ((x + (off - half) * nx, y + (off - half) * ny), (x + (off + half) * nx, y + (off + half) * ny))
            for x, y in (start, end)
        )
        entries.append(
            Lines(id=f"{prefix}.ends", group=group, role=Role.MARK, segments=ends, stroke=ink, width=theme.tick_width)
        )
    entries.append(
        Lines(
            id=f"{prefix}.ticks",
            group=group,
            role=Role.MARK,
            segments=tick_segments(start, end, inside=inside, ticks=ticks, theme=theme),
            stroke=ink,
            width=theme.tick_width,
        )
    )
    if letter_at is not None:
        if backed is not None:
            from ..typeface.faces import label_disc_radius  # here: the font is opened only when a letter is set

            letter = Label(
                id="-", group=group, role=Role.MARK, text=mark, at=letter_at, size=theme.mark_size, colour=ink, bold=True
            )
            entries.append(
                Circle(
                    id=f"{prefix}.letter-back",
                    group=group,
                    role=Role.MARK,
                    centre=letter_at,
                    radius=label_disc_radius(letter) + theme.pattern_clear / 2,
                    fill=backed,
                )
            )
        entries.append(
            Label(
                id=f"{prefix}.letter",
                group=group,
                role=Role.MARK,
                text=mark,
                at=letter_at,
                size=theme.mark_size,
                colour=ink,
                bold=True,
            )
        )
    return tuple(entries)


def tick_segments(
    start: Point, end: Point, *, inside: int | Point, ticks: int, theme: Theme
) -> tuple[Pair, ...]:
    """The strokes or crosses over the middle of a marked side; obstacles for a label too.

    They are set closer and made smaller where the side is too short for them.
    """
    if not 1 <= ticks <= 6:
        raise ValueError(f"a side mark has 1 to 6 ticks, not {ticks}")
    length = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    nx, ny = _inward(start, end, inside)
    crosses, count = ticks > 3, (ticks - 1) % 3 + 1
    reach = theme.tick_length / 2
    spacing = theme.tick_spacing + (reach if crosses else 0.0)
    spacing = min(spacing, 0.7 * length / count)
    off = theme.mark_width / 2 - theme.outline_width / 2
    middle = ((start[0] + end[0]) / 2 + off * nx, (start[1] + end[1]) / 2 + off * ny)
    lean = min(reach, 0.9 * spacing / 2) if crosses else 0.0
    strokes: list[Pair] = []
    for k in range(count):
        along = (k - (count - 1) / 2) * spacing
        x, y = middle[0] + along * ux, middle[1] + along * uy
        for side in (-1.0, 1.0) if crosses else (0.0,):
            dx, dy = side * lean * ux + reach * nx, side * lean * uy + reach * ny
            strokes.append(((x - dx, y - dy), (x + dx, y + dy)))
    return tuple(strokes)


def mark_alt(ticks: int, mark: str) -> str:
    """A side mark in words."""
    sign = "cross" if ticks > 3 else "tick"
    count = (ticks - 1) % 3 + 1
    plural = "" if count == 1 else "es" if sign == "cross" else "s"
    return f"side marked {mark}, with {('one', 'two', 'three')[count - 1]} {sign}{plural}"


def _inward(start: Point, end: Point, inside: int | Point) -> Point:
    """Unit normal of the side that points into the material."""
    length = math.dist(start, end)
    left = (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)
    if isinstance(inside, tuple):
        side = left[0] * inside[0] + left[1] * inside[1]
    else:
        side = inside
    return left if side > 0 else (-left[0], -left[1])

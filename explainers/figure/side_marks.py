"""Side marks: which part of a side is marked, with which ticks and which sign or letter.

Equal ticks mean sides that must meet, as hatch marks for equal sides do in geometry books. Pieces 1 to 3 have one to
three strokes, pieces 4 to 6 one to three crosses: signs that stay themselves at every turn, unlike numerals such as IV
and VI. The sign, or the letter, stands upright whatever the piece does.
"""

from __future__ import annotations

import math

from ..geometry.rigid_motion import Point, Side
from ..geometry.side import left_normal, point_along, unit_vector
from ..sentences import labels
from ..typeface.faces import label_disc_radius
from .mark_signs import is_sign
from .model import Circle, Dots, Entry, Label, Lines, Role
from .subject import Subject
from .theme import Theme

__all__ = ["end_dot_radius", "mark_alt", "mark_radius", "side_mark_entries", "tick_reach", "tick_segments", "tick_span"]

_CROSS_LEAN = 0.55  # half the width of a cross, as a part of half its height: slim, so that three find room
_MOST_END = 0.12  # radius of a dot at an end of a part, as a share of the part: ticks keep their room


def side_mark_entries(
    prefix: str,
    owner: Subject,
    start: Point,
    end: Point,
    *,
    inside: int | Point = 1,
    ticks: int,
    along: float = 0.5,
    mark: str,
    letter_at: Point | None,
    theme: Theme,
    partial: bool = False,
    colour: str | None = None,
    backed: str | None = None,
) -> tuple[Entry, ...]:
    """Everything that marks one side.

    prefix    : ids are prefix + ".bar", ".ends", ".ticks", ".letter-back", ".letter"
    owner     : what the mark lies on, and moves with
    start, end: the marked part of the side, on the stage
    inside    : on which side of start-end the material lies: +1 left, -1 right, or a vector that points inwards
    ticks     : the number of the piece, 1 to 6
    along     : where the ticks stand, as a part of the way from start to end
    mark      : the name of a sign (``mark_signs``), or letters
    letter_at : middle of the sign or letter (see ``letters``); None leaves the letter out
    partial   : the mark is only a part of a side, so that its ends are shown, by dots: bars would pass for ticks
    colour    : the theme's ink where none is given
    backed    : colour of a disc under the letter, for a letter that stands on a pattern that was not cleared
    """
    ink, group = colour or theme.ink, owner.group
    nx, ny = _inward(start, end, inside)
    off = _bar_offset(theme)
    # Its round ends stop where the outline's own corners stop.
    back = off / math.dist(start, end)
    bar_start, bar_end = point_along((start, end), back), point_along((start, end), 1.0 - back)
    bar = ((bar_start[0] + off * nx, bar_start[1] + off * ny), (bar_end[0] + off * nx, bar_end[1] + off * ny))

    def lines(part: str, segments: tuple[Side, ...], width: float, alt: str = "") -> Lines:
        return Lines(
            id=f"{prefix}.{part}",
            group=group,
            subject=owner,
            role=Role.MARK,
            alt=alt,
            segments=segments,
            stroke=ink,
            width=width,
        )

    entries: list[Entry] = [lines("bar", (bar,), theme.mark_width, mark_alt(ticks, mark))]
    if partial:
        dots = tuple((x + off * nx, y + off * ny) for x, y in (start, end))
        radius = end_dot_radius(math.dist(start, end), theme)
        entries.append(
            Dots(id=f"{prefix}.ends", group=group, subject=owner, role=Role.MARK, centres=dots, radius=radius, fill=ink)
        )
    strokes = tick_segments(start, end, inside=inside, ticks=ticks, theme=theme, along=along)
    entries.append(lines("ticks", strokes, theme.tick_width))
    if letter_at is not None:
        letter = Label(
            id=f"{prefix}.letter",
            group=group,
            subject=owner,
            role=Role.MARK,
            text=labels.mark_shown(mark),
            at=letter_at,
            size=theme.mark_size,
            colour=ink,
            bold=True,
            sign=mark if is_sign(mark) else "",
        )
        if backed is not None:
            radius = label_disc_radius(letter) + theme.pattern_clear
            back_id = f"{prefix}.letter-back"
            entries.append(
                Circle(
                    id=back_id, group=group, subject=owner, role=Role.MARK, centre=letter_at, radius=radius, fill=backed
                )
            )
        entries.append(letter)
    return tuple(entries)


def mark_radius(mark: str, theme: Theme) -> float:
    """Radius of the disc that a mark's letter needs, stage units."""
    at, sign = (0.0, 0.0), mark if is_sign(mark) else ""
    ink = theme.ink
    return label_disc_radius(
        Label(
            id="-", group="-", role=Role.MARK, text=mark, at=at, size=theme.mark_size, colour=ink, bold=True, sign=sign
        )
    )


def tick_segments(
    start: Point, end: Point, *, inside: int | Point = 1, ticks: int, theme: Theme, along: float = 0.5
) -> tuple[Side, ...]:
    """The strokes or crosses over a marked side; obstacles for a label too.

    along : where their middle is, as a part of the way from start to end
    They are set closer and made smaller where the side is too short for them.
    """
    if not 1 <= ticks <= 6:
        raise ValueError(f"a side mark has 1 to 6 ticks, not {ticks}")
    length = math.dist(start, end)
    ux, uy = unit_vector((start, end))
    nx, ny = _inward(start, end, inside)
    crosses, count = ticks > 3, (ticks - 1) % 3 + 1
    reach = theme.tick
    lean = _CROSS_LEAN * reach if crosses else 0.0
    spacing = min(theme.tick_spacing + lean, 0.7 * length / count)
    lean = min(lean, 0.45 * spacing)
    off = _bar_offset(theme)
    middle_x, middle_y = point_along((start, end), along)
    strokes: list[Side] = []
    for k in range(count):
        way = (k - (count - 1) / 2) * spacing
        x, y = middle_x + off * nx + way * ux, middle_y + off * ny + way * uy
        for side in (-1.0, 1.0) if crosses else (0.0,):
            dx, dy = side * lean * ux + reach * nx, side * lean * uy + reach * ny
            strokes.append(((x - dx, y - dy), (x + dx, y + dy)))
    return tuple(strokes)


def end_dot_radius(length: float, theme: Theme) -> float:
    """Radius of the dots at the ends of a marked part of this length; never so small that the bar would hide them."""
    return max(0.75 * theme.mark_width, min(theme.end_dot, _MOST_END * length))


def tick_reach(ticks: int, theme: Theme) -> float:
    """Radius of the disc round the middle of a marked side that holds its strokes or crosses."""
    segments = tick_segments((-8.0, 0.0), (8.0, 0.0), ticks=ticks, theme=theme)
    return max(math.hypot(*point) for segment in segments for point in segment) + theme.tick_width / 2


def tick_span(ticks: int, theme: Theme) -> float:
    """How far its strokes or crosses reach along a side to either way from their middle."""
    segments = tick_segments((-8.0, 0.0), (8.0, 0.0), ticks=ticks, theme=theme)
    return max(abs(x) for segment in segments for x, _ in segment) + theme.tick_width / 2


def _bar_offset(theme: Theme) -> float:
    """How far the bar's middle lies inside the side: its outer rim is the rim of the outline's stroke.

    Drawn against the side from within, two marks that meet along it stay two.
    """
    return (theme.mark_width - theme.side_width) / 2


def mark_alt(ticks: int, mark: str) -> str:
    """A side mark in words."""
    return labels.mark_alt(mark, (ticks - 1) % 3 + 1, crosses=ticks > 3)


def _inward(start: Point, end: Point, inside: int | Point) -> Point:
    """Unit normal of the side that points into the material."""
    left = left_normal((start, end))
    side = left[0] * inside[0] + left[1] * inside[1] if isinstance(inside, tuple) else inside
    return left if side > 0 else (-left[0], -left[1])

"""Motions: the figure between two figures, as a pure function of a fraction.

A motion knows the figure it starts from and the figure it ends in. At 0 it *is* the first and at 1 it *is* the second;
in between, each named group glides (turns, shifts and grows about a point of its own) while whatever stands in only one
of the two figures fades. Nothing here draws, and nothing here knows seconds except the natural length of a motion.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from ..geometry.angles import wrapped_deg
from ..geometry.rigid_motion import Point, Ring, Similarity, cos_sin_deg
from .model import Area, Circle, Entry, Figure, Label, Lines, moved_entry

__all__ = ["DEGREES_PER_S", "Glide", "Motion", "Pulse", "Trace", "TurnOver"]

DEGREES_PER_S = 60.0  # a calm turn on the screen: the slowest published rates of mental turning, Shepard & Metzler 1971

_FADE_OUT = 0.25  # while something moves, what leaves is gone after this fraction of the motion
_FADE_IN = 0.75  # and what is new appears from this fraction on
_CROSS_FADE = (0.7, 0.3)  # the same where nothing moves: the one picture melts into the other
_YIELD = 0.2  # what makes way is gone this fraction after the start and back this fraction before the end


@dataclass(frozen=True, slots=True, kw_only=True)
class Glide:
    """A group turns about `about`, grows by `scale` about it, and `about` itself travels along `by`.

    `turn_deg` may lie outside (-180, 180]: it says how far and which way the group is seen to turn. `via` are points
    that the travelling `about` passes on its way, as offsets from the start like `by`.
    """

    group: str
    about: Point
    turn_deg: float = 0.0
    by: Point = (0.0, 0.0)
    scale: float = 1.0
    via: tuple[Point, ...] = ()

    def at(self, fraction: float) -> Similarity:
        """Where the group has got to, as a similarity of the stage."""
        turn_deg = self.turn_deg * fraction
        scale = 1.0 + (self.scale - 1.0) * fraction
        dx, dy = self._travelled(fraction)
        cos, sin = cos_sin_deg(turn_deg)
        x, y = self.about
        shift = (x + dx - scale * (cos * x - sin * y), y + dy - scale * (sin * x + cos * y))
        return Similarity(turn_deg=wrapped_deg(turn_deg), shift=shift, scale=scale)

    def _travelled(self, fraction: float) -> Point:
        stops = ((0.0, 0.0), *self.via, self.by)
        lengths = [((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in pairwise(stops)]
        total = sum(lengths)
        if total == 0.0:
            return (0.0, 0.0)
        left = fraction * total
        for ((ax, ay), (bx, by)), length in zip(pairwise(stops), lengths, strict=True):
            if left <= length and length > 0.0:
                part = left / length
                return (ax + part * (bx - ax), ay + part * (by - ay))
            left -= length
        return self.by


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """The strokes of one Lines entry of the end figure appear one after the other."""

    entry_id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Pulse:
    """A group swells by a tenth about a point and settles again: one calm beat, to draw the eye."""

    group: str
    about: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnOver:
    """A group is turned over about an upright line, as a page is: only ever used to show a slip."""

    group: str
    axis_x: float

    def at(self, fraction: float, entry: Entry) -> Entry:
        """An area of the group on its way: narrower and narrower to the line, then wider on its other side."""
        if not isinstance(entry, Area):
            return entry
        width = math.cos(math.pi * fraction)
        turned = tuple(
            tuple((self.axis_x + width * (x - self.axis_x), y) for x, y in ring)[:: 1 if width > 0 else -1]
            for ring in entry.rings
        )
        return replace(entry, rings=turned)


Move = Glide | Trace | Pulse | TurnOver


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """From one figure to the next."""

    start: Figure
    end: Figure
    moves: tuple[Move, ...] = ()
    seconds: float = 1.0  # its natural length; the timeline alone decides when it runs
    after_sentences: int | None = None  # of its step, spoken before it starts; None: one for each motion before it
    yields: tuple[str, ...] = ()  # entries that make way while something passes over them, and come back

    def figure_at(self, fraction: float) -> Figure:
        """The figure at a fraction from 0 to 1; exactly `start` at 0 and exactly `end` at 1."""
        if fraction <= 0.0:
            return self.start
        if fraction >= 1.0:
            return self.end
        eased = fraction * fraction * (3.0 - 2.0 * fraction)
        glides = {move.group: move for move in self.moves if isinstance(move, Glide)}
        pulses = {
            move.group: Glide(group=move.group, about=move.about, scale=1.0 + 0.4 * eased * (1.0 - eased)).at(1.0)
            for move in self.moves
            if isinstance(move, Pulse)
        }
        turned_over = {move.group: move for move in self.moves if isinstance(move, TurnOver)}
        traced = {move.entry_id for move in self.moves if isinstance(move, Trace)}
        fade_out, fade_in = (_FADE_OUT, _FADE_IN) if self.moves else _CROSS_FADE
        ends = {entry.id: entry for entry in self.end.entries}
        starts = {entry.id for entry in self.start.entries}
        still: list[Entry] = []
        moving: list[Entry] = []
        for entry in self.start.entries:
            goal = ends.get(entry.id)
            if goal is None and fraction >= fade_out:
                continue
            if entry.group in glides:
                shown = _glided(entry, goal, glides[entry.group], eased)
            elif entry.group in pulses:
                shown = moved_entry(entry, pulses[entry.group])
            elif entry.group in turned_over:
                shown = turned_over[entry.group].at(eased, entry)
            else:  # one that stays put may change all the same, such as a heading whose words change
                shown = entry if goal is None or fraction <= 0.5 else goal
            opacity = self._opacity(entry, goal, fraction, fade_out)
            if opacity != shown.opacity:  # most entries stay as they are, and are then the very same
                shown = replace(shown, opacity=opacity)
            (moving if entry.group in glides or entry.group in pulses else still).append(shown)
        for entry in self.end.entries:
            if entry.id in starts:
                continue
            if entry.id in traced and isinstance(entry, Lines):
                still.append(replace(entry, segments=entry.segments[: max(1, round(len(entry.segments) * eased))]))
            elif fraction > fade_in:
                shown = replace(entry, opacity=entry.opacity * (fraction - fade_in) / (1.0 - fade_in))
                if entry.group in glides:
                    glide = glides[entry.group]
                    moving.append(moved_entry(shown, glide.at(eased).after(glide.at(1.0).inverse())))
                else:
                    still.append(shown)
        return replace(self.end, entries=tuple(still + moving))

    def _opacity(self, entry: Entry, goal: Entry | None, fraction: float, fade_out: float) -> float:
        if goal is None:
            return entry.opacity * (1.0 - fraction / fade_out)
        opacity = entry.opacity + (goal.opacity - entry.opacity) * fraction
        if entry.id in self.yields:
            opacity *= max(0.0, 1.0 - min(fraction, 1.0 - fraction) / _YIELD)
        return opacity


def _glided(entry: Entry, goal: Entry | None, glide: Glide, eased: float) -> Entry:
    """The entry on its way.

    What the group's motion does not account for (a letter that finds a better place at a larger scale, a tick that
    keeps its length) is shared out evenly along the way, so that nothing jumps at the end.
    """
    here = glide.at(eased)
    shown = moved_entry(entry, here)
    if goal is None or type(goal) is not type(entry) or not isinstance(goal, Label | Circle | Lines):
        return shown
    meant = moved_entry(goal, here.after(glide.at(1.0).inverse()))
    match shown, meant:
        case Label(), Label():
            size = _mix(shown.size, meant.size, eased)
            return replace(shown, at=_mixed((shown.at,), (meant.at,), eased)[0], size=size)
        case Circle(), Circle():
            return replace(
                shown,
                centre=_mixed((shown.centre,), (meant.centre,), eased)[0],
                radius=_mix(shown.radius, meant.radius, eased),
            )
        case Lines(), Lines() if len(shown.segments) == len(meant.segments):
            pairs = zip(shown.segments, meant.segments, strict=True)
            return replace(shown, segments=tuple(_pair(_mixed(a, b, eased)) for a, b in pairs))
    return shown


def _mix(first: float, second: float, fraction: float) -> float:
    # a number on its way from the first to the second
    return first + (second - first) * fraction


def _mixed(first: Ring, second: Ring, fraction: float) -> Ring:
    return tuple(
        (_mix(ax, bx, fraction), _mix(ay, by, fraction)) for (ax, ay), (bx, by) in zip(first, second, strict=True)
    )


def _pair(ring: Ring) -> tuple[Point, Point]:
    return ring[0], ring[1]

"""Motions: the figure between two figures, as a pure function of a fraction.

A motion knows the figure it starts from and the figure it ends in. At 0 it *is* the first and at 1 it *is* the second;
in between, each named group glides (turns, shifts and grows about a point of its own) while whatever stands in only one
of the two figures fades. Nothing here draws, and nothing here knows seconds except the natural length of a motion.

What a motion means is decided here, for every renderer: `Motion.figure_at` tells what is seen, `Motion.pose_at` where
a group has got to, for those who would rather carry a drawing than draw it again, and `eased` how time is spread.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from ..geometry.angles import wrapped_deg
from ..geometry.rigid_motion import Point, Similarity, cos_sin_deg
from ..geometry.side import point_along
from .model import Circle, Entry, Figure, Label, Lines, moved_entry

__all__ = ["DEGREES_PER_S", "Glide", "Motion", "Pose", "Pulse", "Trace", "eased"]

DEGREES_PER_S = 60.0  # a calm turn on the screen: the slowest published rates of mental turning, Shepard & Metzler 1971

_FADE_OUT = 0.25  # while something moves, what leaves is gone after this fraction of the motion
_FADE_IN = 0.75  # and what is new appears from this fraction on
_CROSS_FADE = (0.7, 0.3)  # the same where nothing moves: the one picture melts into the other
_YIELD = 0.2  # what makes way is gone this fraction after the start and back this fraction before the end
_SWELLS = 0.4  # a pulse is a tenth larger half way: this much of eased * (1 - eased)


def eased(fraction: float) -> float:
    """How far along its way a motion is after this fraction of its time: it starts and ends calmly (smoothstep)."""
    return fraction * fraction * (3.0 - 2.0 * fraction)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """A group turned and grown about `about`, which has itself travelled along `by`, in stage units.

    `turn_deg` may lie outside (-180, 180]: it says how far and which way the group is seen to turn.
    """

    about: Point
    by: Point = (0.0, 0.0)
    turn_deg: float = 0.0
    scale: float = 1.0

    @property
    def similarity(self) -> Similarity:
        """This pose as a similarity of the stage."""
        cos, sin = cos_sin_deg(self.turn_deg)
        x, y = self.about
        dx, dy = self.by
        shift = (x + dx - self.scale * (cos * x - sin * y), y + dy - self.scale * (sin * x + cos * y))
        return Similarity(turn_deg=wrapped_deg(self.turn_deg), shift=shift, scale=self.scale)

    def since(self, earlier: Pose) -> Pose:
        """The way from an earlier pose of the same group to this one."""
        return Pose(
            about=(earlier.about[0] + earlier.by[0], earlier.about[1] + earlier.by[1]),
            by=(self.by[0] - earlier.by[0], self.by[1] - earlier.by[1]),
            turn_deg=self.turn_deg - earlier.turn_deg,
            scale=self.scale / earlier.scale,
        )


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

    @classmethod
    def between(cls, group: str, point: Point, start: Similarity, there: Similarity) -> Glide:
        """A group from where one view draws it to where another does, not turned on the way.

        point : of what is drawn, which is followed
        """
        about, goal = start.apply_point(point), there.apply_point(point)
        by = (goal[0] - about[0], goal[1] - about[1])
        return cls(group=group, about=about, by=by, scale=there.scale / start.scale)

    @property
    def back(self) -> Glide:
        """The same way back, straight."""
        return Glide(
            group=self.group,
            about=(self.about[0] + self.by[0], self.about[1] + self.by[1]),
            turn_deg=-self.turn_deg,
            by=(-self.by[0], -self.by[1]),
            scale=1.0 / self.scale,
        )

    def pose(self, along: float) -> Pose:
        """Where the group has got to after this part of its way."""
        scale = 1.0 + (self.scale - 1.0) * along
        return Pose(about=self.about, by=self._travelled(along), turn_deg=self.turn_deg * along, scale=scale)

    def at(self, along: float) -> Similarity:
        """The pose at a fraction of the way as a similarity of the stage."""
        return self.pose(along).similarity

    def _travelled(self, along: float) -> Point:
        stops = ((0.0, 0.0), *self.via, self.by)
        lengths = [((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in pairwise(stops)]
        total = sum(lengths)
        if total == 0.0:
            return (0.0, 0.0)
        left = along * total
        for leg, length in zip(pairwise(stops), lengths, strict=True):
            if left <= length and length > 0.0:
                return point_along(leg, left / length)
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

    def pose(self, along: float) -> Pose:
        """How far the group has swollen after this part of its beat: it is itself again at the end."""
        return Pose(about=self.about, scale=1.0 + _SWELLS * along * (1.0 - along))


Move = Glide | Trace | Pulse


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
        along = eased(fraction)
        ways = self._ways(fraction, since=0.0)
        ways_from_end = self._ways(fraction, since=1.0)
        gliding = {move.group for move in self.moves if isinstance(move, Glide)}
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
            way = ways.get(entry.group)
            if way is not None:
                shown = moved_entry(entry, way)
                if goal is not None and entry.group in gliding:
                    shown = _shared_out(shown, goal, ways_from_end[entry.group], along)
            else:  # one that stays put may change all the same, such as a heading whose words change
                shown = entry if goal is None or fraction <= 0.5 else goal
            opacity = self._opacity(entry, goal, fraction, fade_out)
            if opacity != shown.opacity:  # most entries stay as they are, and are then the very same
                shown = replace(shown, opacity=opacity)
            (still if way is None else moving).append(shown)
        for entry in self.end.entries:
            if entry.id in starts:
                continue
            if entry.id in traced and isinstance(entry, Lines):
                still.append(replace(entry, segments=entry.segments[: max(1, round(len(entry.segments) * along))]))
            elif fraction > fade_in:
                shown = replace(entry, opacity=entry.opacity * (fraction - fade_in) / (1.0 - fade_in))
                if entry.group in gliding:
                    moving.append(moved_entry(shown, ways_from_end[entry.group]))
                else:
                    still.append(shown)
        return replace(self.end, entries=tuple(still + moving))

    def pose_at(self, group: str, fraction: float, *, since: float = 0.0) -> Pose | None:
        """How a group has been carried at a fraction, easing included; None where it is not carried.

        since   : the fraction at which it lay where it is drawn: 0 for what the start figure shows, 1 for the end's
        Returns : in stage units; its similarity takes the areas, dots, lines and arrows of the group to where
                  `figure_at` has them. Words stay upright, and what a group's own way does not account for, such as
                  ticks that keep their length while the cloth grows, is shared out along the way besides.
        """
        for move in reversed(self.moves):
            if isinstance(move, Glide | Pulse) and move.group == group:
                return move.pose(eased(fraction)).since(move.pose(eased(since)))
        return None

    def _ways(self, fraction: float, *, since: float) -> dict[str, Similarity]:
        groups = {move.group for move in self.moves if isinstance(move, Glide | Pulse)}
        poses = {group: self.pose_at(group, fraction, since=since) for group in groups}
        return {group: pose.similarity for group, pose in poses.items() if pose is not None}

    def _opacity(self, entry: Entry, goal: Entry | None, fraction: float, fade_out: float) -> float:
        if goal is None:
            return entry.opacity * (1.0 - fraction / fade_out)
        opacity = entry.opacity + (goal.opacity - entry.opacity) * fraction
        if entry.id in self.yields:
            opacity *= max(0.0, 1.0 - min(fraction, 1.0 - fraction) / _YIELD)
        return opacity


def _shared_out(shown: Entry, goal: Entry, way_from_end: Similarity, along: float) -> Entry:
    """An entry on its way, on which its group has carried it, towards what it becomes.

    What the group's motion does not account for (a letter that finds a better place at a larger scale, a tick that
    keeps its length) is shared out evenly along the way, so that nothing jumps at the end.
    """
    if type(goal) is not type(shown) or not isinstance(goal, Label | Circle | Lines):
        return shown
    match shown, moved_entry(goal, way_from_end):
        case Label(), Label() as meant:
            size = _mixed(shown.size, meant.size, along)
            return replace(shown, at=point_along((shown.at, meant.at), along), size=size)
        case Circle(), Circle() as meant:
            radius = _mixed(shown.radius, meant.radius, along)
            return replace(shown, centre=point_along((shown.centre, meant.centre), along), radius=radius)
        case Lines(), Lines() as meant if len(shown.segments) == len(meant.segments):
            pairs = zip(shown.segments, meant.segments, strict=True)
            segments = tuple((point_along((a, c), along), point_along((b, d), along)) for (a, b), (c, d) in pairs)
            return replace(shown, segments=segments)
    return shown


def _mixed(first: float, second: float, along: float) -> float:
    return first + (second - first) * along

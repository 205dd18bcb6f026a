"""Motions as tracks of poses and shapes, which a page shows and interpolates without working out anything.

A motion is looked at evenly, thirty times a second. Of each entry its *track* tells when it is seen, how opaque it
is, and what it looks like. An entry that does not change is one shape. One that only turns, shifts and grows is one
shape with a pose for each look; whether it does is checked on every look, never assumed. For what is left the paths
themselves are kept, as far as straight lines between them would not do. Times are counted in looks, from 0.

Poses hold to 1e-6 of a stage unit, lines keep their width, letters grow upright, and strokes that are traced are
counted.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, replace
from itertools import pairwise
from math import ceil, isclose

from ...drawing.svg import VIEW, Element, entry_elements
from ...figure.model import Entry, Label, Lines, drawing_moves, moved_entry
from ...figure.motion import Motion, Pose, eased
from ...geometry.rigid_motion import Point
from ...storyboard.model import Step
from .keys import Keys, kept_keys, path_numbers, same_build
from .pictures import Shelf, page_figure, short_path

__all__ = ["easing_data", "motion_data", "motions_data"]

_LOOKS_PER_S = 30.0
_LEAST_LOOKS = 12
_SAME = 1e-6  # of a stage unit
_OPACITY, _PLACE, _TURN_DEG, _SCALE = 0.01, 0.05, 0.05, 0.0005  # what straight lines between keys may be off by
_PATH = 0.15
_EASING_PARTS = 32  # straight lines between so many samples of the curve are off by less than 0.001

Track = dict[str, object] | list[float]


def easing_data() -> list[float]:
    """How far along its way a motion is after equal parts of its time, for a page that moves what no motion has."""
    return [round(eased(part / _EASING_PARTS), 5) for part in range(_EASING_PARTS + 1)]


def motions_data(step: Step, shelf: Shelf) -> list[dict[str, object]]:
    """The motions of a step in order; [] where nothing moves."""
    return [motion_data(beat, shelf) for beat in step.beats if isinstance(beat, Motion)]


def motion_data(motion: Motion, shelf: Shelf) -> dict[str, object]:
    """One motion.

    Returns : from, to, the figures; seconds; looks, the last of which is number `looks`; poses; tracks in the order in
              which they are drawn, of an entry that does not change as it stands in a figure
    """
    looks = max(_LEAST_LOOKS, ceil(motion.seconds * _LOOKS_PER_S))
    seen: list[dict[str, Entry]] = [
        {entry.id: entry for entry in page_figure(motion.figure_at(look / looks)).entries} for look in range(looks + 1)
    ]
    tracks = _Tracks(motion, shelf, seen)
    return {
        "from": shelf.figure(motion.start),
        "to": shelf.figure(motion.end),
        "seconds": motion.seconds,
        "looks": looks,
        "tracks": [tracks.of(entry_id) for entry_id in _order(seen[1:-1])],
        "poses": tracks.poses,
    }


def _order(seen: Sequence[Mapping[str, Entry]]) -> list[str]:
    """All entries in the order in which each look draws those that it has."""
    order: list[str] = []
    for look in seen:
        at = 0
        for entry_id in look:
            if entry_id in order:
                at = order.index(entry_id) + 1
            else:
                order.insert(at, entry_id)
                at += 1
    return order


class _Tracks:
    """The tracks of one motion, and the poses that they share."""

    def __init__(self, motion: Motion, shelf: Shelf, seen: Sequence[Mapping[str, Entry]]) -> None:
        self.poses: list[dict[str, object]] = []
        self._motion = motion
        self._shelf = shelf
        self._seen = seen
        self._looks = len(seen) - 1
        self._starts = {entry.id for entry in motion.start.entries}

    def of(self, entry_id: str) -> Track:
        """The track of one entry."""
        there = [look for look, entries in enumerate(self._seen) if entry_id in entries]
        first, last = there[0], there[-1]
        row = [self._seen[look][entry_id] for look in range(first, last + 1)]
        if (first, last) == (0, self._looks) and all(entry is row[0] or entry == row[0] for entry in row):
            return self._shelf.entry(row[0])
        track: dict[str, object] = {
            "group": self._shelf.groups[row[0].group],
            "first": first,
            "last": last,
            "opacity": self._opacity(row, first, last),
        }
        # What the last look shows is the end itself, which follows.
        return track | self._look_of(row if last < self._looks else row[:-1] or row, first)

    def _opacity(self, row: Sequence[Entry], first: int, last: int) -> list[list[float]]:
        """Keys of the opacity; what comes is not there a look before, what goes not a look later."""
        values = [entry.opacity for entry in row]
        if first > 0:
            first, values = first - 1, [0.0, *values]
        if last < self._looks:
            values = [*values, 0.0]
        return [[first + look, round(values[look], 3)] for look in kept_keys([[v] for v in values], [_OPACITY])]

    def _look_of(self, row: Sequence[Entry], first: int) -> dict[str, object]:
        row = [entry if entry.opacity == 1.0 else replace(entry, opacity=1.0) for entry in row]
        if all(entry is row[0] or entry == row[0] for entry in row):
            return {"shape": self._shelf.shape(row[0])}
        for found in (self._posed(row, first), self._of_label(row, first), self._traced(row, first)):
            if found is not None:
                return found
        drawn = [entry_elements(entry) for entry in row]
        changes = sum(one != other for one, other in pairwise(drawn))
        if changes > 1 and same_build(drawn):  # one that changes once changes at once
            return self._changing(drawn, first)
        return {"steps": _steps([self._shelf.shape_of(elements) for elements in drawn], first)}

    def _posed(self, row: Sequence[Entry], first: int) -> dict[str, object] | None:
        """One shape with poses, where every look of the entry is the first or last figure's one moved."""
        if isinstance(row[0], Label):
            return None
        from_start = row[0].id in self._starts
        model = row[0] if from_start else replace(self._seen[-1][row[0].id], opacity=1.0)
        poses: list[Pose] = []
        for look, entry in enumerate(row, start=first):
            pose = self._motion.pose_at(entry.group, look / self._looks, since=0.0 if from_start else 1.0)
            if pose is None or not _shows(model, pose, entry):
                return None
            poses.append(pose)
        about = poses[0].about
        keys = [_key(about, pose.similarity.apply_point(about), pose.turn_deg, pose.scale) for pose in poses]
        return {"shape": self._shelf.shape(model), "pose": self._pose_number(about, keys, first)}

    def _of_label(self, row: Sequence[Entry], first: int) -> dict[str, object] | None:
        """Upright words that shift and grow."""
        model = row[0]
        if not isinstance(model, Label):
            return None
        keys: list[list[float]] = []
        for entry in row:
            if not isinstance(entry, Label) or replace(entry, at=model.at, size=model.size) != model:
                return None
            keys.append(_key(model.at, entry.at, 0.0, entry.size / model.size))
        return {"shape": self._shelf.shape(model), "pose": self._pose_number(model.at, keys, first)}

    def _traced(self, row: Sequence[Entry], first: int) -> dict[str, object] | None:
        """Strokes that appear one after the other."""
        whole = row[-1]
        if not isinstance(whole, Lines):
            return None
        counts = []
        for entry in row:
            if not isinstance(entry, Lines) or entry != replace(whole, segments=whole.segments[: len(entry.segments)]):
                return None
            counts.append(len(entry.segments))
        return {"shape": self._shelf.shape(whole), "strokes": _steps(counts, first)}

    def _changing(self, drawn: Sequence[Sequence[Element]], first: int) -> dict[str, object]:
        """The paths themselves, between which a page may go straight."""
        paths = [[short_path(own["d"]) for _, own in elements] for elements in drawn]
        numbers = [[number for path in row for number in path_numbers(path)] for row in paths]
        keys = kept_keys(numbers, [_PATH] * len(numbers[0]))
        return {
            "shape": self._shelf.shape_of(drawn[0]),
            "paths": [[first + look, *paths[look]] for look in keys],
        }

    def _pose_number(self, about: Point, keys: Keys, first: int) -> int:
        kept = kept_keys(keys, [_PLACE, _PLACE, _TURN_DEG, _SCALE])
        x, y = VIEW.point(about)
        pose: dict[str, object] = {
            "about": [round(x, 2), round(y, 2)],
            "keys": [[first + look, *keys[look]] for look in kept],
        }
        if pose not in self.poses:
            self.poses.append(pose)
        return self.poses.index(pose)


def _key(about: Point, here: Point, turn_deg: float, scale: float) -> list[float]:
    """[right, down, clockwise degrees, scale] from the place and size that the shape is drawn with."""
    right, down = VIEW.length(here[0] - about[0]), -VIEW.length(here[1] - about[1])
    return [round(right, 2) + 0.0, round(down, 2) + 0.0, round(-turn_deg, 3) + 0.0, round(scale, 5)]


def _shows(model: Entry, pose: Pose, entry: Entry) -> bool:
    """Whether the drawing of one entry, carried so, is the drawing of the other."""
    way = pose.similarity
    turns, grows = way.turn_deg != 0.0, not isclose(way.scale, 1.0, abs_tol=1e-9)
    return drawing_moves(model, turns=turns, grows=grows) and _same(moved_entry(model, way), entry)


def _same(one: Entry, other: Entry) -> bool:
    """Whether two entries are the same to within what nobody can see."""
    if type(one) is not type(other):
        return False
    return all(_alike(getattr(one, field.name), getattr(other, field.name)) for field in fields(one))


def _alike(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= _SAME
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_alike, one, other))
    return one == other


def _steps(values: Sequence[int], first: int) -> list[list[int]]:
    """[look, value] wherever the value is another than before."""
    return [[first + look, value] for look, value in enumerate(values) if look == 0 or value != values[look - 1]]

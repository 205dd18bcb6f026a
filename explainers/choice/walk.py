"""Two outlines walked round the same way: what comes first, and what then.

A turned outline keeps the order of its corners and sides, a flipped one has it backwards. Both walks go clockwise,
from a place that there is only once, so that it is found again however the outline is turned.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Side
from ..words.messages import message, say
from ..words.names import the_option
from . import fingerprint
from .fact import Fact, Stated
from .sieves.corner_kinds import CornerKind, kinds_round
from .sieves.corners_anew import kinds_anew

__all__ = ["Feature", "Start", "WalkFact", "walk_fact"]

_LONGER = 1.3  # a side is seen to be longer than another: judgement, no source
_LONGEST = 1.15  # the longest side stands out
_MOST = 3  # features named on a walk


class Start(StrEnum):
    """Where a walk begins: what there is only one of."""

    INWARD = "inward"
    SHARP = "sharp"
    RIGHT = "right"
    WIDE = "wide"
    LONGEST = "longest"  # walked along first


class Feature(StrEnum):
    """What comes on a walk."""

    INWARD = "inward"
    SHARP = "sharp"
    RIGHT = "right"
    WIDE = "wide"
    LONGER = "longer"  # the longer of the two sides at the start
    SHORTER = "shorter"


@dataclass(frozen=True, slots=True)
class _Walk:
    """Corners in the order in which they come, the start first; the kinds of all."""

    points: tuple[Point, ...]
    kinds: tuple[CornerKind, ...]

    @property
    def lengths(self) -> tuple[float, ...]:
        """Of the side from each corner to the next."""
        return tuple(math.dist(*pair) for pair in zip(self.points, self.points[1:] + self.points[:1], strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkFact(Fact):
    """Clockwise from the start, these come on the outline, and those on the option: the same, or in another order."""

    label: str
    outline: Outline  # without needless corners
    option: Outline  # laid on the outline as well as it can be
    start: Start
    features: tuple[Feature, ...]  # on the outline
    option_features: tuple[Feature, ...]

    def holds(self) -> bool:
        """Walked anew, each has what is said, and from a place that there is once."""
        walks = [
            _walk(shape.simplified(self.tolerance), self.start, kinds_anew) for shape in (self.outline, self.option)
        ]
        if None in walks:
            return False
        found = [_features(walk, self.start, self._by_sides, len(self.features)) for walk in walks if walk is not None]
        return found == [self.features, self.option_features]

    @property
    def is_same(self) -> bool:
        """Whether both go on alike."""
        return self.features == self.option_features

    @property
    def _by_sides(self) -> bool:
        return bool(set(self.features) & {Feature.LONGER, Feature.SHORTER})

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """Where it starts, and what comes."""
        features = tuple(tuple(f.value for f in told) for told in (self.features, self.option_features))
        return ("walk", self.label, self.start.value, *features)

    def stated(self) -> Stated:
        """Both outlines."""
        return Stated(outlines=(self.outline, self.option), label=self.label, may_be_flip=True, is_right=self.is_same)

    def path_on(self, outline: Outline, *, whole: bool = False) -> tuple[Point, ...]:
        """The corners from the start to the last that is named, or to the last of all.

        outline : one of the two
        """
        walk = _walk(outline, self.start, kinds_round)
        assert walk is not None  # the fact was made from it
        if whole:
            return walk.points
        return walk.points[: self._named + 1] if not self._by_sides else walk.points[:2]

    def corners_on(self, outline: Outline) -> tuple[Point, ...]:
        """The corners that are named, after the start."""
        if self._by_sides:
            return ()
        points = self.path_on(outline)
        return points[1:]

    def sides_on(self, outline: Outline) -> tuple[Side, ...]:
        """The sides that are named: the longest where the walk starts with it, or the first."""
        points = self.path_on(outline)
        return ((points[0], points[1]),) if self._by_sides or self.start is Start.LONGEST else ()

    @property
    def _named(self) -> int:
        return len(self.features)

    def beginning(self) -> tuple[str, ...]:
        """Where to start, and which way to go."""
        return (say(_BOTH_FROM[self.start]),)

    def order(self) -> tuple[str, ...]:
        """What comes: on both, or on the one and on the other."""
        if self.is_same:
            return (say("On both: {order}.", order=_order(self.features)),)
        return (
            say("The outline: {order}.", order=_order(self.features)),
            say("{label}: {order}.", label=self.label, order=_order(self.option_features)),
        )

    def order_again(self) -> str:
        """What comes on both, where somebody has gone round another in that way."""
        return say("Go round {label}: {order}.", label=self.label, order=_order(self.features))

    def of_choice(self) -> tuple[str, ...]:
        """To a learner who has chosen the option: what comes on it, where the outline need not be seen."""
        return (
            say("Go round it clockwise."),
            say(_STARTS[self.start]),
            say("Option {label}: {order}.", label=self.label, order=_order(self.option_features)),
            say("It must be like this: {order}.", order=_order(self.features)),
        )

    def in_marking(self) -> str:
        """On sheets, beside the letter of an option: what comes on it, and what on the outline."""
        on_outline = say("On the outline, {order}.", order=_order(self.features))
        return " ".join((say(_ON_SHEETS[self.start], order=_order(self.option_features)), on_outline))

    def as_line(self) -> str:
        """As a plain line."""
        ways = [", ".join(feature.value for feature in told) for told in (self.features, self.option_features)]
        return (
            f"{the_option(self.label)}: clockwise from {self.start.value}, the outline {ways[0]}, the option {ways[1]}"
        )


_BOTH_FROM = {
    Start.INWARD: message("Go round both, clockwise, from the inward corner."),
    Start.SHARP: message("Go round both, clockwise, from the sharp corner."),
    Start.RIGHT: message("Go round both, clockwise, from the right angle."),
    Start.WIDE: message("Go round both, clockwise, from the wide corner."),
    Start.LONGEST: message("Go round both, clockwise, along the longest side first."),
}
_STARTS = {
    Start.INWARD: message("Start at the inward corner."),
    Start.SHARP: message("Start at the sharp corner."),
    Start.RIGHT: message("Start at the right angle."),
    Start.WIDE: message("Start at the wide corner."),
    Start.LONGEST: message("Start along the longest side."),
}
_ON_SHEETS = {
    Start.INWARD: message("Clockwise from the inward corner, {order}."),
    Start.SHARP: message("Clockwise from the sharp corner, {order}."),
    Start.RIGHT: message("Clockwise from the right angle, {order}."),
    Start.WIDE: message("Clockwise from the wide corner, {order}."),
    Start.LONGEST: message("Clockwise, along the longest side first, {order}."),
}
_COMES = {
    Feature.INWARD: message("an inward corner"),
    Feature.SHARP: message("a sharp corner"),
    Feature.RIGHT: message("a right angle"),
    Feature.WIDE: message("a wide corner"),
    Feature.LONGER: message("the longer side"),
    Feature.SHORTER: message("the shorter side"),
}
_COMES_THEN = {
    **_COMES,
    Feature.INWARD: message("an inward one"),
    Feature.SHARP: message("a sharp one"),
    Feature.WIDE: message("a wide one"),
}


def _order(features: Sequence[Feature]) -> str:
    """What comes after what, as a clause: "a right angle, then another, then a sharp one"."""
    told = [
        say("another") if before is feature else say((_COMES if before is None else _COMES_THEN)[feature])
        for before, feature in zip((None, *features), features, strict=False)
    ]
    if len(told) == 1:
        return say("{one} comes first", one=told[0])
    if len(told) == 2:
        return say("{one}, then {two}", one=told[0], two=told[1])
    return say("{one}, then {two}, then {three}", one=told[0], two=told[1], three=told[2])


def walk_fact(label: str, option: Outline, outline: Outline, tolerance: float, *, same: bool) -> WalkFact | None:
    """The shortest walk that tells the outline from itself flipped; None where no walk is clear.

    option : laid on the outline; the outline itself, or that flipped
    same   : whether it is the outline itself
    """
    for start in Start:
        walk, other = _walk(outline, start, kinds_round), _walk(option, start, kinds_round)
        if walk is None or other is None:
            continue
        for by_sides, count in _tellings(walk, start):
            both = [_features(each, start, by_sides, count) for each in (walk, other)]
            if (both[0] == both[1]) is not same:
                continue
            fact = WalkFact(
                tolerance=tolerance, label=label, outline=outline, option=option, start=start,
                features=both[0], option_features=both[1],
            )  # fmt: skip
            if fact.holds():
                return fact
    return None


def _tellings(walk: _Walk, start: Start) -> Iterator[tuple[bool, int]]:
    """(whether sides are named, how many features) by which the walk is told from itself flipped, best first."""
    flipped = _flipped(walk, start)
    count = next(
        (n for n in range(1, _MOST + 1) if _features(walk, start, False, n) != _features(flipped, start, False, n)),
        None,
    )
    if count is not None and count < len(walk.points) - 1:
        yield False, min(_MOST, max(2, count), len(walk.points) - 2)
    if start is not Start.LONGEST:
        first, last = walk.lengths[0], walk.lengths[-1]
        if max(first, last) >= _LONGER * min(first, last):
            yield True, 1


def _flipped(walk: _Walk, start: Start) -> _Walk:
    """The same walk the other way round: what it is on the flipped outline."""
    turn = 1 if start is Start.LONGEST else 0  # along the longest side: from its other end
    points, kinds = walk.points[::-1], walk.kinds[::-1]
    at = len(points) - 1 - turn
    return _Walk(points[at:] + points[:at], kinds[at:] + kinds[:at])


def _walk(outline: Outline, start: Start, kinds_of: Callable[[Outline], tuple[CornerKind, ...] | None]) -> _Walk | None:
    """Clockwise from the start; None where there is no such start, or more than one, or a corner is not clear."""
    kinds = kinds_of(outline)
    if kinds is None:
        return None
    walk = _Walk(outline.exterior[::-1], kinds[::-1])
    if start is Start.LONGEST:
        lengths = walk.lengths
        longest, *others = sorted(range(len(lengths)), key=lambda index: -lengths[index])
        if lengths[longest] < _LONGEST * lengths[others[0]]:
            return None
        at = longest
    else:
        kind = CornerKind(start.value)
        if walk.kinds.count(kind) != 1:
            return None
        at = walk.kinds.index(kind)
    return replace(walk, points=walk.points[at:] + walk.points[:at], kinds=walk.kinds[at:] + walk.kinds[:at])


def _features(walk: _Walk, start: Start, by_sides: bool, count: int) -> tuple[Feature, ...]:
    if by_sides:
        return (Feature.LONGER if walk.lengths[0] > walk.lengths[-1] else Feature.SHORTER,)
    return tuple(Feature(kind.value) for kind in walk.kinds[1 : count + 1])

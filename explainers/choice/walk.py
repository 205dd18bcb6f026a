"""Two outlines walked round the same way: what comes first, and what then.

A turned outline keeps the order of its corners and sides, a flipped one has it backwards. Both walks go clockwise,
from a place that there is only once, so that it is found again however the outline is turned: see ``walk_ways``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring, Side
from ..words.messages import message, say
from ..words.names import the_option
from . import fingerprint
from .fact import Fact, Stated
from .walk_places import ANEW, SEEN, Looks, Round
from .walk_ways import (
    ALONG_A_SIDE,
    GOALS,
    ORDINALS,
    Feature,
    Start,
    Telling,
    Way,
    features,
    tellings,
    way,
)

__all__ = ["Feature", "Round", "Start", "WalkFact", "walk_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkFact(Fact):
    """Clockwise from the start, these come on the outline, and those on the option: the same, or in another order."""

    label: str
    outline: Outline  # without needless corners
    option: Outline  # laid on the outline as well as it can be
    start: Start
    features: tuple[Feature, ...]  # on the outline
    option_features: tuple[Feature, ...]
    along: Round = Round.EDGE
    goal: Start | None = None  # to which corner it leads, where it is told how many corners on that comes

    def holds(self) -> bool:
        """Walked anew, each has what is said, and from a place that there is once."""
        shapes = self.outline.simplified(self.tolerance), self.option.simplified(self.tolerance)
        path = self.along, self.start, self.goal
        found = [_on(shape, path, self._telling, len(self.features), ANEW) for shape in shapes]
        return bool(self.features) and found == [self.features, self.option_features]

    @property
    def is_same(self) -> bool:
        """Whether both go on alike."""
        return self.features == self.option_features

    @property
    def _telling(self) -> Telling:
        return _TELLINGS.get(next(iter(self.features), Feature.INWARD), Telling.CORNERS)

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """Where it starts, and what comes."""
        told = tuple(tuple(f.value for f in each) for each in (self.features, self.option_features))
        along: tuple[str, ...] = () if self.along is Round.EDGE else (self.along.value,)
        along += () if self.goal is None else (self.goal.value,)
        return ("walk", self.label, self.start.value, *along, *told)

    def stated(self) -> Stated:
        """Both outlines."""
        return Stated(outlines=(self.outline, self.option), label=self.label, may_be_flip=True, is_right=self.is_same)

    def path_on(self, outline: Outline, *, whole: bool = False) -> tuple[Point, ...]:
        """The corners from the start to the last that is named, or to the last of all.

        outline : one of the two
        """
        found = self._way_on(outline)
        if whole:
            return found.points
        match self._telling:
            case Telling.CORNERS:
                return found.points[: len(self.features) + 1]
            case Telling.REACH:
                assert found.goal is not None
                return found.points[: found.points.index(found.goal) + 1]
            case Telling.NEXT_LENGTHS | Telling.NEXT_HOLE:
                return found.points[:3]
        return found.points[:2]

    def corners_on(self, outline: Outline) -> tuple[Point, ...]:
        """The corners that are named or counted, after the start."""
        return self.path_on(outline)[1:] if self._telling in (Telling.CORNERS, Telling.REACH) else ()

    def sides_on(self, outline: Outline) -> tuple[Side, ...]:
        """The sides that are named: the one that the walk starts with, or the first."""
        found = self._way_on(outline)
        if self._telling in (Telling.NEXT_LENGTHS, Telling.NEXT_HOLE):
            return (found.ends[0], found.beside[0])
        is_named = self._telling in (Telling.LENGTHS, Telling.HOLE) or self.start in ALONG_A_SIDE
        return (found.ends[0],) if is_named else ()

    def holes_on(self, outline: Outline) -> tuple[Ring, ...]:
        """The holes that are named and not walked round."""
        ends = [self.start] if self.goal is None else [self.start, self.goal]
        found = [way(outline, self.along, end, SEEN) for end in ends]
        holes = [each.hole for each in found if each is not None]
        if self._telling is Telling.NEXT_HOLE:
            holes.append(self._way_on(outline).only)
        return tuple(dict.fromkeys(hole for hole in holes if hole is not None))

    def _way_on(self, outline: Outline) -> Way:
        found = way(outline, self.along, self.start, SEEN, self.goal)
        assert found is not None  # the fact was made from it
        return found

    def beginning(self) -> tuple[str, ...]:
        """Where to start, and which way to go."""
        if self.along is Round.EDGE:
            return (say(_BOTH_FROM[self.start]),)
        return (say(_HOLES_FROM[self.start], hole=say(_THE_HOLE[self.along])),)

    def order(self) -> tuple[str, ...]:
        """What comes: on both, or on the one and on the other."""
        if self.is_same:
            return (say("On both: {order}.", order=self._order(self.features)),)
        return (
            say("The outline: {order}.", order=self._order(self.features)),
            say("{label}: {order}.", label=self.label, order=self._order(self.option_features)),
        )

    def order_again(self) -> str:
        """What comes on both, where somebody has gone round another in that way."""
        return say("Go round {label}: {order}.", label=self.label, order=self._order(self.features))

    def of_choice(self) -> tuple[str, ...]:
        """To a learner who has chosen the option: what comes on it, where the outline need not be seen."""
        return (
            say("Go round it clockwise.") if self.along is Round.EDGE else say(_ROUND_ITS_HOLE[self.along]),
            say(_STARTS[self.start]),
            say("Option {label}: {order}.", label=self.label, order=self._order(self.option_features)),
            say("It must be like this: {order}.", order=self._order(self.features)),
        )

    def in_marking(self) -> str:
        """On sheets, beside the letter of an option: what comes on it, and what on the outline."""
        order, there = self._order(self.option_features), say("The outline: {order}.", order=self._order(self.features))
        if self.along is Round.EDGE and self.start in _ON_SHEETS:
            return " ".join((say(_ON_SHEETS[self.start], order=order), there))
        way, start, _, _ = self.of_choice()
        return " ".join((way, start, say("It has: {order}.", order=order), there))

    def _order(self, told: Sequence[Feature]) -> str:
        if self.goal is None:
            return _order(told)
        (number,) = told
        return say(_REACHED[number], place=say(_GOALS[self.goal]))

    def as_line(self) -> str:
        """As a plain line."""
        ways = [", ".join(feature.value for feature in told) for told in (self.features, self.option_features)]
        place = self.start.value if self.along is Round.EDGE else f"{self.start.value} round the {self.along.value}"
        place += "" if self.goal is None else f" to {self.goal.value}"
        return f"{the_option(self.label)}: clockwise from {place}, the outline {ways[0]}, the option {ways[1]}"


_BOTH_FROM = {
    Start.INWARD: message("Go round both, clockwise, from the inward corner."),
    Start.SHARP: message("Go round both, clockwise, from the sharp corner."),
    Start.RIGHT: message("Go round both, clockwise, from the right angle."),
    Start.WIDE: message("Go round both, clockwise, from the wide corner."),
    Start.LONGEST: message("Go round both, clockwise, along the longest side first."),
    Start.AT_HOLE: message("Go round both, clockwise, from the corner nearest to the hole."),
    Start.AT_LARGEST: message("Go round both, clockwise, from the corner nearest to the big hole."),
    Start.AT_SMALLEST: message("Go round both, clockwise, from the corner nearest to the small hole."),
    Start.AT_TRIANGLE: message("Go round both, clockwise, from the corner nearest to the triangular hole."),
    Start.AT_ANY: message("Go round both, clockwise, from the corner nearest to a hole."),
    Start.BY_HOLE: message("Go round both, clockwise, along the side nearest to the hole first."),
    Start.BY_LARGEST: message("Go round both, clockwise, along the side nearest to the big hole first."),
    Start.BY_SMALLEST: message("Go round both, clockwise, along the side nearest to the small hole first."),
    Start.BY_TRIANGLE: message("Go round both, clockwise, along the side nearest to the triangular hole first."),
    Start.BY_ANY: message("Go round both, clockwise, along the side nearest to a hole first."),
    Start.LONG_BY_HOLE: message("Go round both, clockwise, along the long side nearer to the hole first."),
    Start.SHARPEST: message("Go round both, clockwise, from the sharpest corner."),
    Start.SHORTEST: message("Go round both, clockwise, along the shortest side first."),
}
_HOLES_FROM = {
    Start.SHARP: message("Go round {hole} in both, clockwise, from the sharp corner."),
    Start.RIGHT: message("Go round {hole} in both, clockwise, from the right angle."),
    Start.WIDE: message("Go round {hole} in both, clockwise, from the wide corner."),
    Start.LONGEST: message("Go round {hole} in both, clockwise, along its longest side first."),
    Start.SHARPEST: message("Go round {hole} in both, clockwise, from its sharpest corner."),
}
_THE_HOLE = {
    Round.HOLE: message("the hole"),
    Round.LARGEST: message("the big hole"),
    Round.SMALLEST: message("the small hole"),
    Round.TRIANGLE: message("the triangular hole"),
    Round.NEAREST: message("the hole nearest to a corner"),
    Round.SHARPEST: message("the hole with the sharpest corner"),
    Round.ANY: message("one of the holes"),
}
_ROUND_ITS_HOLE = {
    Round.HOLE: message("Go round its hole clockwise."),
    Round.LARGEST: message("Go round its big hole clockwise."),
    Round.SMALLEST: message("Go round its small hole clockwise."),
    Round.TRIANGLE: message("Go round its triangular hole clockwise."),
    Round.NEAREST: message("Look for its hole nearest to a corner. Go round that hole clockwise."),
    Round.SHARPEST: message("Look for its hole with the sharpest corner. Go round that hole clockwise."),
    Round.ANY: message("Go round one of its holes clockwise."),
}
_STARTS = {
    Start.INWARD: message("Start at the inward corner."),
    Start.SHARP: message("Start at the sharp corner."),
    Start.RIGHT: message("Start at the right angle."),
    Start.WIDE: message("Start at the wide corner."),
    Start.LONGEST: message("Start along the longest side."),
    Start.AT_HOLE: message("Start at the corner nearest to the hole."),
    Start.AT_LARGEST: message("Start at the corner nearest to the big hole."),
    Start.AT_SMALLEST: message("Start at the corner nearest to the small hole."),
    Start.AT_TRIANGLE: message("Start at the corner nearest to the triangular hole."),
    Start.AT_ANY: message("Start at the corner nearest to a hole."),
    Start.BY_HOLE: message("Start along the side nearest to the hole."),
    Start.BY_LARGEST: message("Start along the side nearest to the big hole."),
    Start.BY_SMALLEST: message("Start along the side nearest to the small hole."),
    Start.BY_TRIANGLE: message("Start along the side nearest to the triangular hole."),
    Start.BY_ANY: message("Start along the side nearest to a hole."),
    Start.LONG_BY_HOLE: message("Start along the long side nearer to the hole."),
    Start.SHARPEST: message("Start at the sharpest corner."),
    Start.SHORTEST: message("Start along the shortest side."),
}
_ON_SHEETS = {
    Start.INWARD: message("Clockwise from the inward corner: {order}."),
    Start.SHARP: message("Clockwise from the sharp corner: {order}."),
    Start.RIGHT: message("Clockwise from the right angle: {order}."),
    Start.WIDE: message("Clockwise from the wide corner: {order}."),
    Start.LONGEST: message("Clockwise, along the longest side first: {order}."),
}
_COMES = {
    Feature.INWARD: message("an inward corner"),
    Feature.SHARP: message("a sharp corner"),
    Feature.RIGHT: message("a right angle"),
    Feature.WIDE: message("a wide corner"),
    Feature.LONGER: message("the longer side"),
    Feature.SHORTER: message("the shorter side"),
    Feature.NEARER: message("the side nearer to that hole"),
    Feature.FARTHER: message("the side farther from that hole"),
    Feature.NEXT_LONGER: message("its longer neighbour"),
    Feature.NEXT_SHORTER: message("its shorter neighbour"),
    Feature.NEXT_NEARER: message("its neighbour nearer to the hole"),
    Feature.NEXT_FARTHER: message("its neighbour farther from the hole"),
}
_GOALS = {
    Start.INWARD: message("the inward corner"),
    Start.SHARP: message("the sharp corner"),
    Start.RIGHT: message("the right angle"),
    Start.WIDE: message("the wide corner"),
    Start.SHARPEST: message("the sharpest corner"),
    Start.AT_HOLE: message("the corner nearest to the hole"),
    Start.AT_LARGEST: message("the corner nearest to the big hole"),
    Start.AT_SMALLEST: message("the corner nearest to the small hole"),
    Start.AT_TRIANGLE: message("the corner nearest to the triangular hole"),
    Start.AT_ANY: message("the corner nearest to a hole"),
}
_REACHED = {
    Feature.FIRST: message("{place} is the first on the way"),
    Feature.SECOND: message("{place} is the second on the way"),
    Feature.THIRD: message("{place} is the third on the way"),
    Feature.FOURTH: message("{place} is the fourth on the way"),
    Feature.FIFTH: message("{place} is the fifth on the way"),
}
_TELLINGS = {
    **dict.fromkeys(ORDINALS, Telling.REACH),
    Feature.LONGER: Telling.LENGTHS,
    Feature.SHORTER: Telling.LENGTHS,
    Feature.NEARER: Telling.HOLE,
    Feature.FARTHER: Telling.HOLE,
    Feature.NEXT_LONGER: Telling.NEXT_LENGTHS,
    Feature.NEXT_SHORTER: Telling.NEXT_LENGTHS,
    Feature.NEXT_NEARER: Telling.NEXT_HOLE,
    Feature.NEXT_FARTHER: Telling.NEXT_HOLE,
}
_CORNERS = (Feature.INWARD, Feature.SHARP, Feature.WIDE)  # after one of these, "a wide one" is a corner too
_COMES_THEN = {
    **_COMES,
    Feature.INWARD: message("an inward one"),
    Feature.SHARP: message("a sharp one"),
    Feature.WIDE: message("a wide one"),
}


def _order(features: Sequence[Feature]) -> str:
    """What comes after what, as a clause: "a right angle, then another, then a sharp one"."""
    told = [
        say("another") if before is feature else say((_COMES_THEN if before in _CORNERS else _COMES)[feature])
        for before, feature in zip((None, *features), features, strict=False)
    ]
    if len(told) == 1:
        return say("{one} comes first", one=told[0])
    if len(told) == 2:
        return say("{one}, then {two}", one=told[0], two=told[1])
    return say("{one}, then {two}, then {three}", one=told[0], two=told[1], three=told[2])


def walk_fact(label: str, option: Outline, outline: Outline, tolerance: float, *, same: bool) -> WalkFact | None:
    """The best walk that tells the outline from itself flipped; None where no walk is clear.

    option : laid on the outline; the outline itself, or that flipped
    same   : whether it is the outline itself
    """
    for path in _IN_ORDER:
        along, start, goal = path
        there = way(outline, along, start, SEEN, goal)
        if there is None:
            continue
        for telling, count in tellings(there, start, SEEN):
            both = [_on(shape, path, telling, count, SEEN) for shape in (outline, option)]
            if both[0] is None or both[1] is None or (both[0] == both[1]) is not same:
                continue
            fact = WalkFact(
                tolerance=tolerance, label=label, outline=outline, option=option, along=along, start=start, goal=goal,
                features=both[0], option_features=both[1],
            )  # fmt: skip
            if fact.holds():
                return fact
    return None


_Path = tuple[Round, Start, Start | None]
# The outer edge alone first, then from where a hole is nearest to it; a hole is smaller, and harder to go round; to
# count corners on the way is hardest.
_EASY = tuple(start for start in Start if start not in (Start.SHORTEST, Start.SHARPEST, Start.AT_ANY, Start.BY_ANY))
_IN_ORDER: tuple[_Path, ...] = (
    *((Round.EDGE, start, None) for start in _EASY),
    *((along, start, None) for along in Round if along is not Round.EDGE for start in _HOLES_FROM),
    *((Round.EDGE, start, None) for start in Start if start not in _EASY),
    *((Round.EDGE, start, goal) for start in Start for goal in GOALS if goal is not start),
)


def _on(outline: Outline, path: _Path, telling: Telling, count: int, looks: Looks) -> tuple[Feature, ...] | None:
    """What comes on an outline; None where there is no such way, or that is not plain."""
    along, start, goal = path
    if along is Round.ANY:  # all must tell the same
        each = [Outline(outline.exterior, (hole,)) for hole in outline.holes]
        found = {_on(one, (Round.HOLE, start, goal), telling, count, looks) for one in each}
        return found.pop() if len(found) == 1 and len(each) > 1 else None
    there = way(outline, along, start, looks, goal)
    return None if there is None else features(there, telling, count, looks)

"""Two sides of an option that meet are in another ratio than the two at the same corner of the outline.

A ratio does not lean on the size at which an option is drawn: a side is held against the side beside it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ...geometry import overlay
from ...geometry.angles import bearing_deg, wrapped_deg
from ...geometry.locate import distance_to_boundary
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Side
from ...geometry.rings import sides
from ...geometry.side import is_one_side
from ...geometry.tolerance import PLAIN_DEG, RELATIVE, plain
from ...words.messages import say
from ...words.names import length_in_words, point_in_words, the_option
from .. import fingerprint
from .difference import Compared, DifferenceFact, Marks

__all__ = ["SideRatioFact", "ratios", "ratios_of_scaled"]

CLEAR_RATIO = 1.25  # one ratio is at least so many times the other: 3 to 2 beside 2 to 1 is 1.33, and is seen
NEARLY_RATIO = 1e-3  # a ratio this close to 1 is of two sides that are equally long
NEAR_CORNER = 0.25  # of the shortest side at it: two corners this near are taken for the same one
SCALED = 0.01  # an option made larger or smaller by this part is seen at another size than its own
# Ratios that are seen without measuring: equal, half as long again, double, and so on up to four times.
SEEN_RATIOS = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0)

# (less than 0: by how much the ratios differ, two sides of the option, two of the outline, both ratios)
OtherRatio = tuple[float, tuple[Side, Side], tuple[Side, Side], tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class SideRatioFact(DifferenceFact):
    """Two sides that meet in a corner are in another ratio than the two sides at the same corner of the outline."""

    pair: tuple[Side, Side]  # of the option, laid; the first is the longer, or they are equal
    ratio: float  # the first over the second, 1 or more
    other_pair: tuple[Side, Side]  # of the outline, in the same order
    other_ratio: float  # the first over the second; below 1 where the second is the longer

    def holds(self) -> bool:
        """All four are whole sides, two and two meet in one corner and run the same way, and the ratios are right.

        A learner sees the two ratios differ, and one of the sides ends at the place.
        """
        pairs = ((self.option, self.pair, self.ratio), (self.outline, self.other_pair, self.other_ratio))
        return (
            DifferenceFact.holds(self)
            and all(_has_ratio(shape, pair, ratio, self.tolerance) for shape, pair, ratio in pairs)
            and self.ratio >= 1.0 - NEARLY_RATIO
            and max(self.ratio, self.other_ratio) >= CLEAR_RATIO * min(self.ratio, self.other_ratio)
            and _is_one_corner(self.pair, self.other_pair, self.tolerance)
            and any(
                distance_to_boundary(end, self.place) <= 2 * self.tolerance
                for side in (*self.pair, *self.other_pair)
                for end in side
            )
        )

    @property
    def are_equal(self) -> tuple[bool, bool]:
        """Whether the two sides of the option are equally long, and those of the outline."""
        return abs(self.ratio - 1.0) <= NEARLY_RATIO, abs(self.other_ratio - 1.0) <= NEARLY_RATIO

    @property
    def corner(self) -> Point | None:
        """The corner of the option in which the two sides meet; None where they do not."""
        return _shared_corner(self.pair, self.tolerance)

    def figures(self) -> fingerprint.FingerprintParts:
        """Both ratios."""
        return ("ratio", fingerprint.length(self.ratio), fingerprint.length(self.other_ratio))

    def marks_over_outline(self) -> Marks:
        """Both pairs of sides, so that what is longer shows."""
        return Marks(sides=self.pair, outline_sides=self.other_pair)

    def marks_of_choice(self) -> Marks:
        """The two sides and their corner."""
        return Marks(spot=self.corner, sides=self.pair)

    def heading(self) -> str:
        """That sides differ."""
        return say("{labels}: other lengths", labels=self.label)

    def over_outline(self) -> tuple[str, ...]:
        """Both ratios."""
        is_equal, is_equal_there = self.are_equal
        if is_equal:
            here = say("Here two sides of option {label} that meet are equally long.", label=self.label)
            return (here, self._equal_only_here())
        ratio = length_in_words(self.ratio)
        here = say("Here a side of option {label} is {ratio} times as long as the next.", label=self.label, ratio=ratio)
        if is_equal_there or self.other_ratio > 1.0:
            return (here, self._not_so_there())
        longer = length_in_words(1.0 / self.other_ratio)
        return (here, say("In the outline, the next one is longer: {ratio} times as long as it.", ratio=longer))

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """What is in the ring, then both ratios."""
        is_equal, is_equal_there = self.are_equal
        if is_equal:
            here = say("In the ring, two equally long sides of option {label} meet.", label=self.label)
            return (here, self._equal_only_here())
        told = (
            say("In the ring, two sides of option {label} meet.", label=self.label),
            say("One of them is {ratio} times as long as the other.", ratio=length_in_words(self.ratio)),
        )
        if is_equal_there or self.other_ratio > 1.0:
            return (*told, self._not_so_there())
        longer = length_in_words(1.0 / self.other_ratio)
        if outline_given:
            return (*told, say("In the outline, the other one is longer: {ratio} times as long.", ratio=longer))
        return (*told, say("In the finished outline, the other one is longer: {ratio} times as long.", ratio=longer))

    def _equal_only_here(self) -> str:
        other = length_in_words(self.other_ratio)
        return say("In the outline, one of them is {ratio} times as long as the other.", ratio=other)

    def _not_so_there(self) -> str:
        if self.are_equal[1]:
            return say("In the outline, the two sides are equally long.")
        return say("In the outline, it is {ratio} times as long.", ratio=length_in_words(self.other_ratio))

    def in_marking(self) -> str:
        """Both ratios."""
        return say(
            "It has a side {ratio} times as long as the next, where in the outline it is {other} times as long.",
            ratio=length_in_words(self.ratio),
            other=length_in_words(self.other_ratio),
        )

    def practise(self) -> str:
        """Comparing sides that meet."""
        return say("Practise comparing a side with the one next to it.")

    def in_report(self) -> str:
        """Both ratios and the corner."""
        ratio, other = length_in_words(self.ratio), length_in_words(self.other_ratio)
        assert self.corner is not None  # the fact holds
        return f"sides of ratio {ratio} at {point_in_words(self.corner)}, where the outline has {other}"

    def as_line(self) -> str:
        """Both ratios."""
        ratio, other = length_in_words(self.ratio), length_in_words(self.other_ratio)
        return f"{the_option(self.label)}: two sides in the ratio {ratio}, not {other}"


def ratios_of_scaled(pair: Compared, place: Outline) -> Iterator[SideRatioFact]:
    """What ``ratios`` finds where the option is laid on at another size than its own.

    Its lengths say less then than their ratios.
    """
    if abs(pair.fit.motion.scale - 1.0) > SCALED:
        yield from ratios(pair, place)


def ratios(pair: Compared, place: Outline) -> Iterator[SideRatioFact]:
    """Two sides at one corner that stand in another ratio, by most first."""
    for _, own, other, (ratio, other_ratio) in pair.once(_other_ratios):
        yield SideRatioFact(
            **pair.at(place, overlay.pole_of_inaccessibility(place)),
            pair=own,
            ratio=ratio,
            other_pair=other,
            other_ratio=other_ratio,
        )


def _other_ratios(compared: Compared) -> list[OtherRatio]:
    """Two sides at one corner in another ratio than in the outline, those that differ most first."""
    theirs = [(other, math.dist(*other[0]), math.dist(*other[1])) for other in _pairs(compared.outline)]
    corners = np.array([other[1][0] for other, *_ in theirs])
    found = []
    for pair in _pairs(compared.fit.laid):
        lengths = math.dist(*pair[0]), math.dist(*pair[1])
        shortest = min(lengths)
        away = corners - pair[1][0]
        near = np.hypot(away[:, 0], away[:, 1]) <= NEAR_CORNER * shortest  # most are far apart
        for at in np.flatnonzero(near).tolist():
            other, *others = theirs[at]
            other_lengths = others[0], others[1]
            first, second = _longer_first(lengths, other_lengths)
            ratio, other_ratio = lengths[first] / lengths[second], other_lengths[first] / other_lengths[second]
            apart = max(ratio, other_ratio) / min(ratio, other_ratio)
            if apart < CLEAR_RATIO or not (_is_seen(ratio) and _is_seen(max(other_ratio, 1.0 / other_ratio))):
                continue
            if _is_one_corner(pair, other, compared.tolerance):
                found.append(
                    (-round(apart, 6), (pair[first], pair[second]), (other[first], other[second]), (ratio, other_ratio))
                )
    return sorted(found)


def _pairs(outline: Outline) -> Iterator[tuple[Side, Side]]:
    """Every two sides that follow each other."""
    for ring in outline.rings:
        walk = sides(ring)
        yield from zip(walk, walk[1:] + walk[:1], strict=True)


def _longer_first(lengths: tuple[float, float], other: tuple[float, float]) -> tuple[int, int]:
    """The order in which the first is the longer; of two that are equal, in which the first of the others is."""
    if abs(lengths[0] / lengths[1] - 1.0) <= NEARLY_RATIO:
        lengths = other
    return (0, 1) if lengths[0] >= lengths[1] else (1, 0)


def _is_seen(ratio: float) -> bool:
    return any(abs(ratio - seen) <= NEARLY_RATIO for seen in SEEN_RATIOS)


def _shared_corner(pair: tuple[Side, Side], tolerance: float) -> Point | None:
    """The corner in which two sides that follow each other meet; None where they do not."""
    first, second = pair
    if math.dist(first[1], second[0]) <= tolerance:
        return first[1]
    return first[0] if math.dist(second[1], first[0]) <= tolerance else None


def _is_one_corner(pair: tuple[Side, Side], other: tuple[Side, Side], tolerance: float) -> bool:
    """Whether two pairs of sides run the same ways about corners so near that a learner takes them for one."""
    corner, other_corner = _shared_corner(pair, tolerance), _shared_corner(other, tolerance)
    if corner is None or other_corner is None:
        return False
    # East then north turns left, north then east turns right: which of the two comes first must agree too.
    if (pair[0][1] == corner) is not (other[0][1] == other_corner):
        return False
    shortest = min(math.dist(*side) for side in (*pair, *other))
    return math.dist(corner, other_corner) <= NEAR_CORNER * shortest and all(
        abs(wrapped_deg(bearing_deg(*mine) - bearing_deg(*theirs))) <= PLAIN_DEG
        for mine, theirs in zip(pair, other, strict=True)
    )


def _has_ratio(shape: Outline, pair: tuple[Side, Side], ratio: float, tolerance: float) -> bool:
    own = [side for ring in shape.simplified(tolerance).rings for side in sides(ring)]
    lengths = [math.dist(*side) for side in pair]
    return (
        all(any(is_one_side(side, there, tolerance) for there in own) for side in pair)
        and min(lengths) > plain(tolerance)
        and abs(lengths[0] / lengths[1] - ratio) <= RELATIVE * ratio
    )

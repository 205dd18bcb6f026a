"""Sieves that hold sides of one outline against each other: no length in units, no outline against another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Side
from ...geometry.rings import sides
from ...words.messages import message, say
from ...words.names import list_in_words
from .corner_kinds import CornerKind, corners_seen
from .corners_anew import are_clear_anew, kinds_anew
from .sieve import SieveFact, SieveMarks, fitting, together

__all__ = ["LengthSieve", "Pair", "ratio_of"]

_SEEN = 1.3  # ratios that differ by this factor are seen to differ: judgement, no source
_EQUAL = 1.08  # sides of nearly one length are taken for equal
_LONGER = 1.3  # from here on a side is seen to be longer
_HARDLY = ("hardly", 1)  # neither equal nor seen to be longer: nothing is said of it
_ROUND = 0.06  # of the ratio: it is called twice, three times ... as long


class Pair(StrEnum):
    """Which two sides of an outline are held against each other, the longer first."""

    AT_INWARD = "at-inward"  # those at the only corner that points inwards
    AT_SHARP = "at-sharp"
    AT_RIGHT = "at-right"
    AT_WIDE = "at-wide"
    GAP_INWARD = "gap-inward"  # the longest of all, and the one between the only two corners that point inwards
    GAP_SHARP = "gap-sharp"
    LONGEST = "longest"  # the longest of all, and the next longest
    BOTH_ENDS = "both-ends"  # the longest of all, and the shortest


_CORNER = {
    Pair.AT_INWARD: CornerKind.INWARD,
    Pair.AT_SHARP: CornerKind.SHARP,
    Pair.AT_RIGHT: CornerKind.RIGHT,
    Pair.AT_WIDE: CornerKind.WIDE,
}
_GAP = {Pair.GAP_INWARD: CornerKind.INWARD, Pair.GAP_SHARP: CornerKind.SHARP}
_EFFORTS = {Pair.GAP_INWARD: 5.2, Pair.GAP_SHARP: 5.2, Pair.LONGEST: 5.4, Pair.BOTH_ENDS: 5.8}


def ratio_of(pair: Pair, outline: Outline) -> float | None:
    """How many times as long the longer of the two is; None where it is not clear which two are meant."""
    two = _two(pair, outline)
    return None if two is None else math.dist(*two[0]) / math.dist(*two[1])


def _two(pair: Pair, outline: Outline) -> tuple[Side, Side] | None:
    """The two sides, the longer first."""
    walk = sides(outline.exterior)
    if pair in _CORNER:
        corners = corners_seen(outline)
        at = [index for index, corner in enumerate(corners) if corner.kind is _CORNER[pair]]
        if len(at) != 1 or any(corner.looks is None for corner in corners):
            return None
        two = (walk[at[0] - 1], walk[at[0]])
        return two if math.dist(*two[0]) >= math.dist(*two[1]) else two[::-1]
    if not all(corner.is_clear for corner in corners_seen(outline)):
        return None
    by_length = sorted(walk, key=lambda side: -math.dist(*side))
    if pair in _GAP:
        gap = _gap([corner.looks for corner in corners_seen(outline)], _GAP[pair])
        return None if gap is None else (by_length[0], walk[gap])
    return (by_length[0], by_length[1]) if pair is Pair.LONGEST else (by_length[0], by_length[-1])


def _gap(looks: Sequence[CornerKind | None], kind: CornerKind) -> int | None:
    """The number of the side between the only two corners of a kind; None where they are not neighbours, or not two."""
    if None in looks or looks.count(kind) != 2:
        return None
    return next((i for i in range(len(looks)) if looks[i] is kind and looks[(i + 1) % len(looks)] is kind), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthSieve(SieveFact):
    """Of two sides of the outline the one is so many times as long as the other, and on the options other so many."""

    pair: Pair

    @property
    def stage(self) -> str:
        """Which sieve it is."""
        return "lengths"

    @property
    def compared(self) -> tuple[str, ...]:
        """Which sides."""
        return ("ratio", self.pair.value)

    @property
    def effort(self) -> float:
        """The most: nothing is counted."""
        return _EFFORTS.get(self.pair, 5.0)

    def anew(self, outline: Outline) -> float | None:
        """The ratio, from squared lengths."""
        ring = outline.exterior
        if not are_clear_anew(outline):
            return None
        after = ring[1:] + ring[:1]
        squared = [(x - u) ** 2 + (y - v) ** 2 for (x, y), (u, v) in zip(ring, after, strict=True)]
        if self.pair in _CORNER:
            kinds = kinds_anew(outline)
            if kinds is None or kinds.count(_CORNER[self.pair]) != 1:
                return None
            index = kinds.index(_CORNER[self.pair])
            two = squared[index - 1], squared[index]
        elif self.pair in _GAP:
            kinds = kinds_anew(outline)
            gap = None if kinds is None else _gap(kinds, _GAP[self.pair])
            if gap is None:
                return None
            two = max(squared), squared[gap]
        else:
            squared.sort()
            two = (squared[-1], squared[-2]) if self.pair is Pair.LONGEST else (squared[-1], squared[0])
        return math.sqrt(max(two) / min(two))

    def is_seen_to_differ(self, one: float, other: float) -> bool:
        """Whether the ratios are told in other words, and differ by much."""
        sizes = _size(one), _size(other)
        return max(one, other) >= _SEEN * min(one, other) and sizes[0] != sizes[1] and _HARDLY not in sizes

    def marks_on(self, outline: Outline) -> SieveMarks:
        """The two sides, and the corner between them if any is named."""
        two = _two(self.pair, outline)
        assert two is not None  # nobody is sifted by what is not clear
        shared = set(two[0]) & set(two[1]) if self.pair in _CORNER else set()
        return SieveMarks(corners=tuple(sorted(shared)), sides=two)

    def looks_for(self) -> str:
        """What is compared."""
        return say("Compare the sides")

    def heading(self) -> str:
        """Whose sides are not as they should be."""
        return fitting(say("{labels}: other lengths", labels=list_in_words(self.labels)), self.looks_for())

    def invitation(self, *, is_first: bool) -> tuple[str, ...]:
        """Which sides to compare."""
        return (say(_COMPARE[self.pair]),)

    def of_outline(self) -> str:
        """What they are on the outline."""
        return together([say("on the outline, {ratio}", ratio=_in_words(self.there))])

    def of_options(self) -> tuple[str, ...]:
        """What they are on the options."""
        by_size: dict[str, list[str]] = {}
        for option in self.options:
            by_size.setdefault(_in_words(option.figure), []).append(option.label)
        return (
            together(
                [
                    say("on {label}, {ratio}", label=labels[0], ratio=words)
                    if len(labels) == 1
                    else say("on {labels}, {ratio}", labels=list_in_words(labels), ratio=words)
                    for words, labels in by_size.items()
                ]
            ),
        )

    def of_choice(self, *, outline_given: bool) -> tuple[str, ...]:
        """Both."""
        there = _in_words(self.there)
        said = (
            say("on the outline, {ratio}", ratio=there)
            if outline_given
            else say("on the finished outline, {ratio}", ratio=there)
        )
        return (say(_COMPARE[self.pair]), *self.of_options(), together([said]))


_COMPARE = {
    Pair.AT_INWARD: message("Compare the two sides at the corner that points inwards."),
    Pair.AT_SHARP: message("Compare the two sides at the sharp corner."),
    Pair.AT_RIGHT: message("Compare the two sides at the right angle."),
    Pair.AT_WIDE: message("Compare the two sides at the wide corner."),
    Pair.GAP_INWARD: message("Compare the side between the two corners that point inwards with the longest side."),
    Pair.GAP_SHARP: message("Compare the side between the two sharp corners with the longest side."),
    Pair.LONGEST: message("Compare the longest side with the next longest."),
    Pair.BOTH_ENDS: message("Compare the longest side with the shortest."),
}


def _size(ratio: float) -> tuple[str, int]:
    """How a ratio is told."""
    if ratio <= _EQUAL:
        return ("equal", 1)
    for times in (2, 3, 4, 5, 6):
        if abs(ratio - times) <= _ROUND * times:
            return ("times", times)
    if ratio < _LONGER:
        return _HARDLY
    whole = math.floor(ratio)
    return ("more", whole) if whole >= 2 else ("longer", 1)


def _in_words(ratio: float) -> str:
    """A clause about two sides: "one is twice as long as the other"."""
    kind, times = _size(ratio)
    if kind == "equal":
        return say("both are equally long")
    if kind == "times" and times == 2:
        return say("one is twice as long as the other")
    if kind == "times":
        return say("one is {count} times as long as the other", count=times)
    if kind == "more" and times == 2:
        return say("one is more than twice as long as the other")
    if kind == "more":
        return say("one is more than {count} times as long as the other", count=times)
    return say("one is longer than the other, but not twice as long")

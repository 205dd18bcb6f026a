"""Sieves that go round: which corners are neighbours, and how many lie between two."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Side
from ...words.messages import message, say, say_count
from ...words.names import list_in_words
from .corner_kinds import CornerKind, corners_seen
from .corners_anew import kinds_anew
from .sieve import SieveFact, SieveMarks, fitting, together

__all__ = ["BetweenSieve", "NeighbourSieve", "between", "neighbours"]

Kinds = tuple[CornerKind, ...]


def between(kinds: Kinds, kind: CornerKind) -> int | None:
    """How many corners lie between the only two of a kind, the shorter way round; None where there are not two."""
    at = [index for index, each in enumerate(kinds) if each is kind]
    if len(at) != 2:
        return None
    way = at[1] - at[0]
    return min(way, len(kinds) - way) - 1


def neighbours(kinds: Kinds) -> Counter[frozenset[CornerKind]]:
    """How many sides run between a corner of one kind and a corner of another, or of the same."""
    return Counter(frozenset(pair) for pair in zip(kinds, kinds[1:] + kinds[:1], strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenSieve(SieveFact):
    """Each has two corners of one kind, and between them lie so many others."""

    kind: CornerKind

    @property
    def stage(self) -> str:
        """Which sieve it is."""
        return "neighbours"

    @property
    def compared(self) -> tuple[str, ...]:
        """Between which corners is counted."""
        return ("between", self.kind.value)

    @property
    def effort(self) -> float:
        """More than to count."""
        return 4.0

    def anew(self, outline: Outline) -> float | None:
        """Counted by walking from the one corner to the other, both ways."""
        kinds = kinds_anew(outline)
        if kinds is None or kinds.count(self.kind) != 2:
            return None
        start = kinds.index(self.kind)
        forward = kinds[start + 1 :] + kinds[:start]
        way = forward.index(self.kind)
        return float(min(way, len(forward) - 1 - way))

    def is_seen_to_differ(self, one: float, other: float) -> bool:
        """Whether the numbers differ, and are small enough to be counted on the way."""
        return one != other and min(one, other) <= _COUNTED_ON_THE_WAY

    def marks_on(self, outline: Outline) -> SieveMarks:
        """The two corners, and the way between them."""
        corners = corners_seen(outline)
        first, second = (index for index, corner in enumerate(corners) if corner.kind is self.kind)
        if second - first > len(corners) - (second - first):
            first, second = second, first + len(corners)
        ring = outline.exterior
        way = tuple((ring[i % len(ring)], ring[(i + 1) % len(ring)]) for i in range(first, second))
        return SieveMarks(corners=(ring[first % len(ring)], ring[second % len(ring)]), sides=way)

    def looks_for(self) -> str:
        """What is looked at."""
        return say("Which corners are neighbours?")

    def heading(self) -> str:
        """Who has other neighbours."""
        return fitting(say("{labels}: other neighbours", labels=list_in_words(self.labels)), self.looks_for())

    def invitation(self, *, is_first: bool) -> tuple[str, ...]:
        """Which corners to look at."""
        return (say(_LOOK_AT_TWO[self.kind]),)

    def of_outline(self) -> str:
        """How many lie between them on the outline."""
        count = round(self.there)
        if not count:
            return say("On the outline, they are next to each other.")
        return say_count(
            "On the outline, {count} corner lies between them.",
            "On the outline, {count} corners lie between them.",
            count,
        )

    def of_options(self) -> tuple[str, ...]:
        """How many lie between them on the options."""
        by_count: dict[int, list[str]] = {}
        for option in self.options:
            by_count.setdefault(round(option.figure), []).append(option.label)
        return (together([_lies(labels, count) for count, labels in by_count.items()]),)

    def of_choice(self, *, outline_given: bool) -> tuple[str, ...]:
        """Both numbers."""
        (option,) = self.options
        found = together([_lies([option.label], round(option.figure))])
        count = round(self.there)
        if outline_given:
            return (say(_LOOK_AT_TWO[self.kind]), found, self.of_outline())
        if not count:
            there = say("On the finished outline, they are next to each other.")
        else:
            there = say_count(
                "On the finished outline, {count} corner lies between them.",
                "On the finished outline, {count} corners lie between them.",
                count,
            )
        return (say(_LOOK_AT_TWO[self.kind]), found, there)


@dataclass(frozen=True, slots=True, kw_only=True)
class NeighbourSieve(SieveFact):
    """On the outline a corner of one kind stands next to one of another kind, and on the options none does; or the
    other way round. The figures are how many sides run from the one kind to the other."""

    kinds: tuple[CornerKind, CornerKind]  # may be the same kind twice

    @property
    def stage(self) -> str:
        """Which sieve it is."""
        return "neighbours"

    @property
    def compared(self) -> tuple[str, ...]:
        """Which corners may be neighbours."""
        return ("neighbours", *(kind.value for kind in self.kinds))

    @property
    def effort(self) -> float:
        """More than to count."""
        return 4.4

    def anew(self, outline: Outline) -> float | None:
        """Counted side by side, both ways."""
        kinds = kinds_anew(outline)
        if kinds is None:
            return None
        one, other = self.kinds
        turned = kinds[1:] + kinds[:1]
        pairs = list(zip(kinds, turned, strict=True))
        found = pairs.count((one, other)) + (pairs.count((other, one)) if one is not other else 0)
        return float(found)

    def is_seen_to_differ(self, one: float, other: float) -> bool:
        """Whether there are some on the one, and none on the other."""
        return (one == 0.0) is not (other == 0.0)

    def marks_on(self, outline: Outline) -> SieveMarks:
        """The sides that run between them, with both ends; where there is none, the corners of both kinds."""
        corners = corners_seen(outline)
        sides: list[Side] = [
            (corner.at, after.at)
            for corner, after in zip(corners, corners[1:] + corners[:1], strict=True)
            if {corner.kind, after.kind} == set(self.kinds)
        ]
        if sides:
            return SieveMarks(corners=tuple(dict.fromkeys(end for side in sides for end in side)), sides=tuple(sides))
        return SieveMarks(corners=tuple(corner.at for corner in corners if corner.kind in self.kinds))

    def looks_for(self) -> str:
        """What is looked at."""
        return say("Which corners are neighbours?")

    def heading(self) -> str:
        """Who has other neighbours."""
        return fitting(say("{labels}: other neighbours", labels=list_in_words(self.labels)), self.looks_for())

    def invitation(self, *, is_first: bool) -> tuple[str, ...]:
        """To look at neighbours."""
        return (say("Now see which corners are neighbours."),)

    def of_outline(self) -> str:
        """Whether there are such neighbours on the outline."""
        return say(_SOME[self.kinds] if self.there else _NONE[self.kinds])

    def of_options(self) -> tuple[str, ...]:
        """Whether there are such neighbours on the options."""
        labels = [option.label for option in self.options]
        if len(labels) == 1:
            return (
                say("On {label} there are none.", label=labels[0])
                if self.there
                else say("On {label} there are.", label=labels[0]),
            )
        named = list_in_words(labels)
        return (
            say("On {labels} there are none.", labels=named)
            if self.there
            else say("On {labels} there are.", labels=named),
        )

    def in_marking(self) -> str:
        """What stands beside what on the outline."""
        return " ".join((self.of_outline_in_full(), say("Here it is not so.")))

    def of_choice(self, *, outline_given: bool) -> tuple[str, ...]:
        """Both."""
        if outline_given:
            return (self.of_outline(), *self.of_options())
        return (say(_SOME_FINISHED[self.kinds] if self.there else _NONE_FINISHED[self.kinds]), *self.of_options())


_COUNTED_ON_THE_WAY = 3

_R, _S, _W, _I = CornerKind.RIGHT, CornerKind.SHARP, CornerKind.WIDE, CornerKind.INWARD

PAIRS: tuple[tuple[CornerKind, CornerKind], ...] = (
    (_I, _I), (_I, _S), (_I, _R), (_I, _W), (_S, _S), (_S, _R), (_S, _W), (_W, _W), (_W, _R), (_R, _R),
)  # fmt: skip

_LOOK_AT_TWO = {
    _I: message("Find the two corners that point inwards."),
    _S: message("Find the two sharp corners."),
    _W: message("Find the two wide corners."),
    _R: message("Find the two right angles."),
}
_SOME = {
    (_I, _I): message("On the outline, two corners that point inwards are neighbours."),
    (_I, _S): message("On the outline, a corner that points inwards has a sharp one beside it."),
    (_I, _R): message("On the outline, a corner that points inwards has a right angle beside it."),
    (_I, _W): message("On the outline, a corner that points inwards has a wide one beside it."),
    (_S, _S): message("On the outline, two sharp corners are neighbours."),
    (_S, _R): message("On the outline, a sharp corner has a right angle beside it."),
    (_S, _W): message("On the outline, a sharp corner has a wide one beside it."),
    (_W, _W): message("On the outline, two wide corners are neighbours."),
    (_W, _R): message("On the outline, a wide corner has a right angle beside it."),
    (_R, _R): message("On the outline, two right angles are neighbours."),
}
_NONE = {
    (_I, _I): message("On the outline, no two corners that point inwards are neighbours."),
    (_I, _S): message("On the outline, no corner that points inwards has a sharp one beside it."),
    (_I, _R): message("On the outline, no corner that points inwards has a right angle beside it."),
    (_I, _W): message("On the outline, no corner that points inwards has a wide one beside it."),
    (_S, _S): message("On the outline, no two sharp corners are neighbours."),
    (_S, _R): message("On the outline, no sharp corner has a right angle beside it."),
    (_S, _W): message("On the outline, no sharp corner has a wide one beside it."),
    (_W, _W): message("On the outline, no two wide corners are neighbours."),
    (_W, _R): message("On the outline, no wide corner has a right angle beside it."),
    (_R, _R): message("On the outline, no two right angles are neighbours."),
}
_SOME_FINISHED = {
    (_I, _I): message("On the finished outline, two corners that point inwards are neighbours."),
    (_I, _S): message("On the finished outline, a corner that points inwards has a sharp one beside it."),
    (_I, _R): message("On the finished outline, a corner that points inwards has a right angle beside it."),
    (_I, _W): message("On the finished outline, a corner that points inwards has a wide one beside it."),
    (_S, _S): message("On the finished outline, two sharp corners are neighbours."),
    (_S, _R): message("On the finished outline, a sharp corner has a right angle beside it."),
    (_S, _W): message("On the finished outline, a sharp corner has a wide one beside it."),
    (_W, _W): message("On the finished outline, two wide corners are neighbours."),
    (_W, _R): message("On the finished outline, a wide corner has a right angle beside it."),
    (_R, _R): message("On the finished outline, two right angles are neighbours."),
}
_NONE_FINISHED = {
    (_I, _I): message("On the finished outline, no two corners that point inwards are neighbours."),
    (_I, _S): message("On the finished outline, no corner that points inwards has a sharp one beside it."),
    (_I, _R): message("On the finished outline, no corner that points inwards has a right angle beside it."),
    (_I, _W): message("On the finished outline, no corner that points inwards has a wide one beside it."),
    (_S, _S): message("On the finished outline, no two sharp corners are neighbours."),
    (_S, _R): message("On the finished outline, no sharp corner has a right angle beside it."),
    (_S, _W): message("On the finished outline, no sharp corner has a wide one beside it."),
    (_W, _W): message("On the finished outline, no two wide corners are neighbours."),
    (_W, _R): message("On the finished outline, no wide corner has a right angle beside it."),
    (_R, _R): message("On the finished outline, no two right angles are neighbours."),
}


def _lies(labels: list[str], count: int) -> str:
    """A clause: how many corners lie between the two on one option, or on several."""
    named = list_in_words(labels)
    if len(labels) == 1:
        if not count:
            return say("on {label} they are next to each other", label=named)
        return say_count(
            "on {label} {count} corner lies between",
            "on {label} {count} corners lie between",
            count,
            label=named,
        )
    if not count:
        return say("on {labels} they are next to each other", labels=named)
    return say_count(
        "on {labels} {count} corner lies between",
        "on {labels} {count} corners lie between",
        count,
        labels=named,
    )

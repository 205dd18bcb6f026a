"""A side of an option lies along a side of the outline, but is longer or shorter."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ...geometry import overlay
from ...geometry.locate import span_on
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Side
from ...geometry.rings import sides
from ...geometry.tolerance import computed, plain
from ...words.messages import message, say
from ...words.names import lengths_in_words, point_in_words, the_option, with_unit
from .. import fingerprint
from .difference import Compared, DifferenceFact, Marks, is_at

__all__ = ["SideLengthFact", "clear_lengths", "lengths"]

CLEAR_LENGTH = 0.2  # of the longer side: what differs by less is seen after the part that is too much or too little

_TIMES = (2, 3, 4)  # how many times as long is seen without measuring: judgement, no source
_NEARLY = 0.03
_PARTS = {
    2: message("It is half as long."),
    3: message("It is a third as long."),
    4: message("It is a quarter as long."),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SideLengthFact(DifferenceFact):
    """A side of the option lies along a side of the outline, but is longer or shorter."""

    side: Side  # of the option, laid
    length: float
    other_side: Side  # of the outline
    other_length: float

    def holds(self) -> bool:
        """Both sides are there, lie along each other the same way round, and their lengths plainly differ."""
        middles = _unmatched_middles(self.side, self.other_side, self.tolerance)
        return (
            DifferenceFact.holds(self)
            and _is_whole_side(self.side, self.length, self.option, self.tolerance)
            and _is_whole_side(self.other_side, self.other_length, self.outline, self.tolerance)
            and abs(self.length - self.other_length) > plain(self.tolerance)
            and any(is_at(middle, self.place, self.tolerance) for middle in middles)
        )

    def figures(self) -> fingerprint.FingerprintParts:
        """Both lengths."""
        return ("side", fingerprint.length(self.length), fingerprint.length(self.other_length))

    def marks_over_outline(self) -> Marks:
        """Both sides, so that what is longer shows."""
        return Marks(sides=(self.side,), outline_sides=(self.other_side,))

    def marks_of_choice(self) -> Marks:
        """The side, and its end that lies where the two lengths part."""
        return Marks(spot=min(self.side, key=lambda end: math.dist(end, self.ring_centre)), sides=(self.side,))

    def heading(self) -> str:
        """Which way the side differs."""
        if self.length > self.other_length:
            return say("{label}: a side too long", label=self.label)
        return say("{label}: a side too short", label=self.label)

    def over_outline(self) -> tuple[str, ...]:
        """Which of the two is longer, then by how much where that is seen."""
        if self.length > self.other_length:
            here = say("Here a side of option {label} is longer than the outline's side.", label=self.label)
        else:
            here = say("Here a side of option {label} is shorter than the outline's side.", label=self.label)
        return (here, *self._times())

    def _times(self) -> tuple[str, ...]:
        """How many times as long it is, where that can be seen without measuring."""
        ratio = self.length / self.other_length
        for times in _TIMES:
            if abs(ratio - times) <= _NEARLY * times:
                return (
                    say("It is twice as long.") if times == 2 else say("It is {count} times as long.", count=times),
                )
            if abs(1.0 / ratio - times) <= _NEARLY * times:
                return (say(_PARTS[times]),)
        return ()

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """Which side goes wrong. No length is told: nothing in the picture has it written beside it."""
        if self.length > self.other_length:
            return (say("The side of option {label} with the broken line is too long.", label=self.label),)
        return (say("The side of option {label} with the broken line is too short.", label=self.label),)

    @property
    def _in_words(self) -> tuple[str, str]:
        return lengths_in_words(self.length, self.other_length)

    def in_marking(self) -> str:
        """Both lengths."""
        length, other = self._in_words
        return say("It has a side of {length} where the outline has one of {other}.", length=length, other=other)

    def on_answers(self) -> str:
        """Which way it is off; nobody there has a ruler of the units."""
        return (
            say("One of its sides is too long.")
            if self.length > self.other_length
            else say("One of its sides is too short.")
        )

    def practise(self) -> str:
        """Comparing sides."""
        return say("Practise comparing the lengths of sides, one after the other.")

    def in_report(self) -> str:
        """Both lengths and the side's ends."""
        length, other = self._in_words
        start, end = map(point_in_words, self.side)
        return f"a side of {length} from {start} to {end}, where the outline has {other}"

    def as_line(self) -> str:
        """Both lengths."""
        length, other = self._in_words
        return f"{the_option(self.label)}: a side of {with_unit(length, 'unit')}, not {other}"


def clear_lengths(pair: Compared, place: Outline) -> Iterator[SideLengthFact]:
    """A side that is longer or shorter by so much that it is seen at once."""
    for fact in lengths(pair, place):
        if abs(fact.length - fact.other_length) >= CLEAR_LENGTH * max(fact.length, fact.other_length):
            yield fact


def lengths(pair: Compared, place: Outline) -> Iterator[SideLengthFact]:
    """A side that lies along one of the outline but is longer or shorter, by most first."""
    found = []
    for gap, side, other, both, middles in pair.once(_other_lengths):
        middle = next((middle for middle in middles if pair.near(middle, place)), None)
        if middle is not None:
            found.append((-round(gap, 6), side, other, both, middle))
    for _, side, other, (length, other_length), middle in sorted(found):
        yield SideLengthFact(
            **pair.at(place, overlay.inside_near(place, middle)),
            side=side,
            length=length,
            other_side=other,
            other_length=other_length,
        )


def _other_lengths(pair: Compared) -> list[tuple[float, Side, Side, tuple[float, float], tuple[Point, ...]]]:
    """(by how much, side, the outline's that it lies along, lengths of both, where one reaches past the other)."""
    ours, theirs = ([side for ring in shape.rings for side in sides(ring)] for shape in (pair.fit.laid, pair.outline))
    our_lengths, their_lengths = ([math.dist(*side) for side in row] for row in (ours, theirs))
    starts = np.array([start for start, _ in theirs])
    found = []
    for side, length in zip(ours, our_lengths, strict=True):
        (ax, ay), (bx, by) = side
        # Most sides lie far from the line through this one.
        across = np.abs((bx - ax) * (starts[:, 1] - ay) - (by - ay) * (starts[:, 0] - ax))
        for at in np.flatnonzero(across <= 4 * pair.tolerance * length).tolist():
            gap = abs(length - their_lengths[at])
            if gap > plain(pair.tolerance) and (middles := _unmatched_middles(side, theirs[at], pair.tolerance)):
                found.append((gap, side, theirs[at], (length, their_lengths[at]), middles))
    return found


def _is_whole_side(side: Side, length: float, shape: Outline, tolerance: float) -> bool:
    """Whether this is a whole side of the shape, walked as its ring runs, and that long."""
    span = span_on(shape.simplified(tolerance).rings, side, tolerance)
    return (
        span is not None
        and span.forward
        and max(map(math.dist, span.whole, side)) <= tolerance
        and abs(math.dist(*side) - length) <= computed(tolerance)
    )


def _unmatched_middles(side: Side, other_side: Side, tolerance: float) -> tuple[Point, ...]:
    """Middles of the bits by which the longer of two sides reaches past the shorter; () unless along each other.

    Along each other: on one line to within the tolerance, the same way round, one over the other for a plain length.
    """
    longer, shorter = (side, other_side) if math.dist(*side) >= math.dist(*other_side) else (other_side, side)
    (ax, ay), (bx, by) = longer
    length = math.dist(*longer)
    ux, uy = (bx - ax) / length, (by - ay) / length
    alongs = [((x - ax) * ux + (y - ay) * uy) for x, y in shorter]
    if any(abs((y - ay) * ux - (x - ax) * uy) > 2 * tolerance for x, y in shorter):
        return ()
    if alongs[1] <= alongs[0] or min(length, alongs[1]) - max(0.0, alongs[0]) <= plain(tolerance):
        return ()
    bits = [bit for bit in ((0.0, alongs[0]), (alongs[1], length)) if bit[1] - bit[0] > plain(tolerance)]
    return tuple((ax + ux * (low + high) / 2, ay + uy * (low + high) / 2) for low, high in bits)

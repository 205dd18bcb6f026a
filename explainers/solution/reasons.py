"""Why an option is ruled out: facts about places where it differs, the most visible first.

How well a fact is seen is how large its place is: the places where option and outline differ are gone through from the
largest to the smallest. At one place, a fact that names a hole, a part that has moved, a corner or a side comes before
the bare part that is too much or too little, unless the difference that it names is slight. Ratios of lengths come
after lengths, unless the option is laid on at another size than it has. Every candidate is built from the fit, then
asked whether it holds; what does not is dropped.
"""

from __future__ import annotations

import math
from bisect import bisect
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property

import numpy as np

from ..geometry import overlay
from ..geometry.locate import distance_to_boundary
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Side
from ..geometry.tolerance import plain
from .facts import (
    CornerAngleFact,
    CornerCountFact,
    DifferenceFact,
    ExtraPartFact,
    Fact,
    MirrorFact,
    MissingPartFact,
    SideLengthFact,
)
from .hole_reasons import hole_counts, is_clear
from .model import Fit
from .part_reasons import OtherRatio, other_ratios, parts_elsewhere, side_ratios
from .proof import angles_deg, unmatched_middles

__all__ = ["reasons"]

CLEAR_DEG = 15.0  # an angle that stands out this much from every other is seen at a glance
CLEAR_LENGTH = 0.2  # of the longer side: what differs by less is seen after the part that is too much or too little
SCALED = 0.01  # an option made larger or smaller by this part is seen at another size than its own
MOST = 3  # reasons kept
MOST_AT_ONE_PLACE = 2
PLACES = 4  # the largest are looked at


def reasons(
    *, label: str, option: Outline, outline: Outline, fit: Fit, mirrored: bool, tolerance: float
) -> tuple[Fact, ...]:
    """The facts that rule an option out, most visible first; for a mirrored one, that it is mirrored leads in.

    One of each kind at most; a part that is too much or too little is always among them, where one holds.
    option : in its own coordinates
    """
    places = sorted((*fit.extra, *fit.missing), key=lambda place: -place.area)[:PLACES]
    search = _Search(label, fit, outline, tolerance)
    if mirrored:
        lead = MirrorFact(tolerance=tolerance, label=label, option=option, outline=outline)
        part = _first(search.parts, places)
        return (*((lead,) if lead.holds() else ()), *(() if part is None else (part,)))
    hole = _first(search.holes, [place for place in places if is_clear(place, tolerance)])
    found: list[DifferenceFact] = [] if hole is None else [hole]
    for place in places:
        most = MOST_AT_ONE_PLACE - sum(fact.place is place for fact in found)
        found.extend(_at(place, search, {type(fact) for fact in found}, min(most, MOST - len(found))))
        if len(found) >= MOST:
            break
    if not any(isinstance(fact, PART) for fact in found):
        part = _first(search.parts, places)
        if part is not None:
            found = [*found[: MOST - 1], part]
    return tuple(found)


def _at(place: Outline, search: _Search, had: set[type], wanted: int) -> list[DifferenceFact]:
    """The facts of one place, clearest first, without the kinds that are had already."""
    found: list[DifferenceFact] = []
    for kind in (
        search.holes,
        search.elsewhere,
        search.angles,
        *((search.ratios,) if search.is_scaled else ()),
        search.clear_lengths,
        search.counts,
        search.ratios,
        search.parts,
        search.reflex_angles,
        search.lengths,
    ):
        if len(found) == wanted:
            break
        taken = had | {type(fact) for fact in found}
        fact = next((fact for fact in kind(place) if _is_new(fact, taken) and fact.holds()), None)
        if fact is not None:
            found.append(fact)
    return found


PART = (ExtraPartFact, MissingPartFact)


def _is_new(fact: DifferenceFact, taken: set[type]) -> bool:
    if isinstance(fact, PART):
        return not taken.intersection(PART)
    return type(fact) not in taken


def _first(kind: Callable[[Outline], Iterator[DifferenceFact]], places: Sequence[Outline]) -> DifferenceFact | None:
    return next((fact for place in places for fact in kind(place) if fact.holds()), None)


class _Search:
    """The candidates of each kind at one place; what does not depend on the place is found once for all of them."""

    def __init__(self, label: str, fit: Fit, outline: Outline, tolerance: float) -> None:
        self.label, self.fit, self.outline, self.tolerance = label, fit, outline, tolerance

    def parts(self, place: Outline) -> Iterator[DifferenceFact]:
        """Material too much, or too little."""
        kind = ExtraPartFact if place in self.fit.extra else MissingPartFact
        yield kind(
            tolerance=self.tolerance,
            label=self.label,
            option=self.fit.laid,
            outline=self.outline,
            place=place,
            ring_centre=overlay.pole(place),
            area=place.area,
        )

    def holes(self, place: Outline) -> Iterator[DifferenceFact]:
        """A hole that only one of the two has, at the place or closed by it."""
        return hole_counts(self.label, self.fit, self.outline, place, self.tolerance)

    @property
    def is_scaled(self) -> bool:
        """Whether the option is laid on at another size than its own: its lengths say less then than their ratios."""
        return abs(self.fit.motion.scale - 1.0) > SCALED

    def elsewhere(self, place: Outline) -> Iterator[DifferenceFact]:
        """The place as a part that the outline has on another side."""
        return parts_elsewhere(self.label, self.fit, self.outline, place, self.tolerance)

    def ratios(self, place: Outline) -> Iterator[DifferenceFact]:
        """Two sides at one corner that stand in another ratio, by most first."""
        return side_ratios(self.label, self.fit, self.outline, place, self.tolerance, self._other_ratios)

    @cached_property
    def _other_ratios(self) -> list[OtherRatio]:
        return other_ratios(self.fit, self.outline, self.tolerance)

    def angles(self, place: Outline) -> Iterator[DifferenceFact]:
        """A corner of an angle that the outline has nowhere, the oddest first."""
        return self._odd_angles(place, reflex=False)

    def reflex_angles(self, place: Outline) -> Iterator[DifferenceFact]:
        """The same for corners that point into the shape, whose angles are harder to see."""
        return self._odd_angles(place, reflex=True)

    def _odd_angles(self, place: Outline, *, reflex: bool) -> Iterator[DifferenceFact]:
        odd = [
            (-round(gap, 3), corner, angle)
            for gap, corner, angle in self._clear_angles
            if (angle > 180.0) is reflex and self._near(corner, place)
        ]
        for _, corner, angle in sorted(odd):
            yield CornerAngleFact(
                tolerance=self.tolerance,
                label=self.label,
                option=self.fit.laid,
                outline=self.outline,
                place=place,
                ring_centre=overlay.inside_near(place, corner),
                corner=corner,
                angle_deg=angle,
            )

    @cached_property
    def _clear_angles(self) -> list[tuple[float, Point, float]]:
        """(how far from any of the outline's, corner, angle) of each that stands out."""
        theirs = sorted(angle for _, angle in angles_deg(self.outline))
        found = []
        for corner, angle in angles_deg(self.fit.laid):
            at = bisect(theirs, angle)
            gap = min(abs(angle - other) for other in theirs[max(0, at - 1) : at + 1])
            if gap >= CLEAR_DEG:
                found.append((gap, corner, angle))
        return found

    def clear_lengths(self, place: Outline) -> Iterator[DifferenceFact]:
        """A side that is longer or shorter by so much that it is seen at once."""
        for fact in self.lengths(place):
            if abs(fact.length - fact.other_length) >= CLEAR_LENGTH * max(fact.length, fact.other_length):
                yield fact

    def lengths(self, place: Outline) -> Iterator[SideLengthFact]:
        """A side that lies along one of the outline but is longer or shorter, by most first."""
        pairs = []
        for gap, side, other, lengths, middles in self._other_lengths:
            middle = next((middle for middle in middles if self._near(middle, place)), None)
            if middle is not None:
                pairs.append((-round(gap, 6), side, other, lengths, middle))
        for _, side, other, lengths, middle in sorted(pairs):
            yield SideLengthFact(
                tolerance=self.tolerance,
                label=self.label,
                option=self.fit.laid,
                outline=self.outline,
                place=place,
                ring_centre=overlay.inside_near(place, middle),
                side=side,
                length=lengths[0],
                other_side=other,
                other_length=lengths[1],
            )

    @cached_property
    def _other_lengths(self) -> list[tuple[float, Side, Side, tuple[float, float], tuple[Point, ...]]]:
        """(by how much, side, the outline's that it lies along, lengths of both, where one reaches past the other)."""
        ours, theirs = self.fit.laid.sides, self.outline.sides
        our_lengths, their_lengths = ([math.dist(*side) for side in row] for row in (ours, theirs))
        starts = np.array([start for start, _ in theirs])
        found = []
        for side, length in zip(ours, our_lengths, strict=True):
            (ax, ay), (bx, by) = side
            # Most sides lie far from the line through this one.
            across = np.abs((bx - ax) * (starts[:, 1] - ay) - (by - ay) * (starts[:, 0] - ax))
            for at in np.flatnonzero(across <= 4 * self.tolerance * length).tolist():
                gap = abs(length - their_lengths[at])
                if gap > plain(self.tolerance) and (middles := unmatched_middles(side, theirs[at], self.tolerance)):
                    found.append((gap, side, theirs[at], (length, their_lengths[at]), middles))
        return found

    def counts(self, place: Outline) -> Iterator[DifferenceFact]:
        """More corners, or fewer, with a corner at the place that the other lacks."""
        counts = self.fit.laid.corner_count, self.outline.corner_count
        if counts[0] == counts[1]:
            return
        on_option = counts[0] > counts[1]
        lonely = [(-round(gap, 6), corner) for gap, corner in self._lonely_corners if self._near(corner, place)]
        for _, corner in sorted(lonely):
            yield CornerCountFact(
                tolerance=self.tolerance,
                label=self.label,
                option=self.fit.laid,
                outline=self.outline,
                place=place,
                ring_centre=overlay.inside_near(place, corner),
                option_corners=counts[0],
                outline_corners=counts[1],
                corner=corner,
                on_option=on_option,
            )

    @cached_property
    def _lonely_corners(self) -> list[tuple[float, Point]]:
        """(how far from any corner of the other, corner) of the one that has more corners."""
        shapes = sorted((self.fit.laid, self.outline), key=lambda shape: shape.corner_count)
        fewer, more = ([corner for ring in shape.rings for corner in ring] for shape in shapes)
        gaps = ((min(math.dist(corner, there) for there in fewer), corner) for corner in more)
        return [(gap, corner) for gap, corner in gaps if gap > plain(self.tolerance)]

    def _near(self, point: Point, place: Outline) -> bool:
        return distance_to_boundary(point, place) <= 2 * self.tolerance

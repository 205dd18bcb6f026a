"""An option has more holes than the outline, or fewer.

A hole may be there in the one and filled in the other; or both are empty there, and only the one closes it off from
the outside, or parts it in two.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations
from typing import Any

import shapely

from ...geometry import overlay
from ...geometry.locate import contains, distance_to_boundary
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Ring
from ...geometry.tolerance import plain
from ...words.messages import say, say_count
from ...words.names import number_of, point_in_words, the_option
from ..fingerprint import FingerprintParts
from .difference import Compared, DifferenceFact, filled_here

__all__ = ["HoleFact", "HolePlace", "clear_holes", "holes"]

Geometry = Any  # shapely carries no types


class HolePlace(StrEnum):
    """What the one that has more holes has at the place, and the other lacks."""

    HOLE = "hole"  # a hole of its own; the other is filled there
    WALL = "wall"  # material that closes a hole off from outside; the other is open there
    BAR = "bar"  # material between two holes, which are one without it


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleFact(DifferenceFact):
    """The option has more holes than the outline, or fewer."""

    option_holes: int
    outline_holes: int
    at: HolePlace = HolePlace.HOLE

    def holds(self) -> bool:
        """The counts are right and differ, and the place is what makes a hole of the one that has more.

        Hole: the centre is in one of its holes. Wall: without the place one of its holes is open to the outside. Bar:
        without the place none is, but it has fewer.
        """
        counts = self.option_holes, self.outline_holes
        if (len(self.option.holes), len(self.outline.holes)) != counts or counts[0] == counts[1]:
            return False
        if not DifferenceFact.holds(self):
            return False
        owner = self.option if counts[0] > counts[1] else self.outline
        if self.at is HolePlace.HOLE:
            return any(contains(Outline(hole), self.ring_centre) for hole in owner.holes)
        if not contains(owner, self.ring_centre):
            return False
        # Cut as a piece is cut, with corners welded: a plain difference may leave hairlines that still close a hole.
        if self.place.holes:
            left = overlay.regions(owner, self.place, self.tolerance)
        else:
            left = overlay.cut_out(owner, self.place.exterior, self.tolerance).parts
        closed = [
            hole
            for hole in owner.holes
            if any(contains(Outline(part.exterior), overlay.pole_of_inaccessibility(Outline(hole))) for part in left)
        ]
        if self.at is HolePlace.WALL:
            return len(closed) < len(owner.holes)
        return len(closed) == len(owner.holes) > sum(len(part.holes) for part in left)

    def figures(self) -> FingerprintParts:
        """How many, and what makes the hole where it is none of its own."""
        at = () if self.at is HolePlace.HOLE else (self.at.value,)
        return ("holes", self.option_holes, self.outline_holes, *at)

    # Which of the two is filled at the ring is read from the outlines: the counts alone do not say.

    def heading(self) -> str:
        """Which way the counts differ."""
        if self.option_holes > self.outline_holes:
            return say("{labels}: too many holes", labels=self.label)
        return say("{labels}: too few holes", labels=self.label)

    def over_outline(self) -> tuple[str, ...]:
        """Both counts, then the place."""
        return (self._counted(), self.where_over_outline())

    def where_over_outline(self) -> str:
        """The place."""
        if self.at is not HolePlace.WALL:
            return filled_here(self.label, filled=self.is_filled)
        if self.is_filled:
            return say("Here option {label} is closed, but the outline is open.", label=self.label)
        return say("Here the outline is closed, but option {label} is open.", label=self.label)

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """Both counts, then what is in the ring."""
        is_wall = self.at is HolePlace.WALL
        return (self._counted(), _in_the_ring(is_wall, filled=self.is_filled, outline_given=outline_given))

    def _counted(self) -> str:
        if not self.option_holes:
            others = self.outline_holes
            return say("Option {label} has no hole, but the outline has {others}.", label=self.label, others=others)
        if not self.outline_holes:
            return say_count(
                "Option {label} has {count} hole, but the outline has none.",
                "Option {label} has {count} holes, but the outline has none.",
                self.option_holes,
                label=self.label,
            )
        return say_count(
            "Option {label} has {count} hole, but the outline has {others}.",
            "Option {label} has {count} holes, but the outline has {others}.",
            self.option_holes,
            label=self.label,
            others=self.outline_holes,
        )

    def in_marking(self) -> str:
        """Both counts."""
        if self.option_holes == 0:
            return say("It has no hole, where the outline has {others}.", others=self.outline_holes)
        return say_count(
            "It has {count} hole, where the outline has {others}.",
            "It has {count} holes, where the outline has {others}.",
            self.option_holes,
            others=self.outline_holes,
        )

    def practise(self) -> str:
        """Looking for holes."""
        return say("Practise looking for holes first.")

    def in_report(self) -> str:
        """Both counts, then the place."""
        own = number_of(self.option_holes, "hole") if self.option_holes else "no hole"
        counted = f"{own}, where the outline has {self.outline_holes or 'none'}"
        spot = point_in_words(self.ring_centre)
        if self.at is HolePlace.HOLE:
            return f"{counted}, around {spot}"
        owner = "it" if self.is_filled else "the outline"
        closed = f"{owner} closes one" if self.at is HolePlace.WALL else f"{owner} parts two"
        return f"{counted}: {closed} at {spot}"

    def as_line(self) -> str:
        """Both counts."""
        return f"{the_option(self.label)}: {number_of(self.option_holes, 'hole')}, not {self.outline_holes or 'none'}"


def clear_holes(pair: Compared, place: Outline) -> Iterator[HoleFact]:
    """What ``holes`` finds where the place is wide enough for a hole, or an opening, to be seen at a glance."""
    if overlay.thickness(overlay.polygon(place)) >= plain(pair.tolerance):
        yield from holes(pair, place)


def holes(pair: Compared, place: Outline) -> Iterator[HoleFact]:
    """That one of the two has more holes, with the place as what makes one of them; none where it makes none."""
    fit, outline, tolerance = pair.fit, pair.outline, pair.tolerance
    counts = len(fit.laid.holes), len(outline.holes)
    if counts[0] == counts[1]:
        return
    owner, other = (fit.laid, outline) if counts[0] > counts[1] else (outline, fit.laid)
    places = fit.extra if owner is fit.laid else fit.missing
    closing = _closing(owner, place, tolerance) if place in places else ()
    for at, spot in (*_in_holes(owner, other, place, tolerance), *closing):
        yield HoleFact(**pair.at(place, spot), option_holes=counts[0], outline_holes=counts[1], at=at)


def _in_holes(owner: Outline, other: Outline, place: Outline, tolerance: float) -> Iterator[tuple[HolePlace, Point]]:
    """Spots of the place that are in a hole of the one, where the other is filled."""
    for hole in owner.holes:
        shape = Outline.of(hole)
        if any(overlay.shared_thickness(shape, Outline.of(twin)) > tolerance for twin in other.holes):
            continue
        for spot in (overlay.pole_of_inaccessibility(place), overlay.pole_of_inaccessibility(shape)):
            inside = contains(place, spot) and contains(shape, spot)
            if inside and all(distance_to_boundary(spot, of) > tolerance for of in (place, shape)):
                yield HolePlace.HOLE, spot


def _closing(owner: Outline, place: Outline, tolerance: float) -> Iterator[tuple[HolePlace, Point]]:
    """Spots of the place where it lies between a hole and the outside, then where between two holes."""
    outside = _touched(place, owner.exterior, tolerance)
    touched = [line for line in (_touched(place, hole, tolerance) for hole in owner.holes) if line is not None]
    if outside is not None:
        for hole in touched:
            yield HolePlace.WALL, _between(place, hole, outside)
    for hole, other in combinations(touched, 2):
        yield HolePlace.BAR, _between(place, hole, other)


def _touched(place: Outline, ring: Ring, tolerance: float) -> Geometry | None:
    """The stretch of a ring along which the place lies; None where it is too short to be seen as an opening."""
    near = shapely.buffer(overlay.polygon(place), 2 * tolerance)
    line = shapely.intersection(shapely.linearrings((*ring, ring[0])), near)
    return line if line.length >= plain(tolerance) else None


def _between(place: Outline, one: Geometry, other: Geometry) -> Point:
    """A point well inside the place, about midway between two stretches of its boundary."""
    x, y = shapely.get_coordinates(shapely.shortest_line(one, other)).mean(axis=0)
    return overlay.inside_near(place, (float(x), float(y)))


def _in_the_ring(is_wall: bool, *, filled: bool, outline_given: bool) -> str:
    match is_wall, filled, outline_given:
        case True, True, True:
            return say("In the ring, the option is closed, but the outline is open.")
        case True, False, True:
            return say("In the ring, the option is open, but the outline is closed.")
        case False, True, True:
            return say("In the ring, the option has cloth, but the outline has none.")
        case False, False, True:
            return say("In the ring, the outline has cloth, but the option has none.")
        case True, True, False:
            return say("In the ring, the option is closed, but the finished outline is open.")
        case True, False, False:
            return say("In the ring, the option is open, but the finished outline is closed.")
        case False, True, False:
            return say("In the ring, the option has cloth, but the finished outline has none.")
        case _:
            return say("In the ring, the finished outline has cloth, but the option has none.")

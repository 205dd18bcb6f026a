"""Sieves that count: corners, holes, corners that point inwards, corners of one kind."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Ring
from ...words.messages import message, once, say, say_count
from ...words.names import list_in_words
from .corner_kinds import CLEAR_DEG, LEAST_SIDE, RIGHT_DEG, Corner, CornerKind, corners_seen, kinds_known
from .sieve import SieveFact, SieveMarks, fitting, together

__all__ = ["CountRange", "CountSieve", "Counted", "are_clear_anew", "count_of", "kinds_anew"]

_LEAST_HOLE = 0.03  # of the larger extent, across: a smaller hole may be overlooked


class Counted(StrEnum):
    """What is counted."""

    CORNERS = "corners"  # along the outer edge
    HOLES = "holes"
    INWARD = "inward"
    RIGHT = "right"
    SHARP = "sharp"
    WIDE = "wide"


_STAGES = {Counted.RIGHT: "angles", Counted.SHARP: "angles", Counted.WIDE: "angles"}
_KINDS = {
    Counted.INWARD: CornerKind.INWARD,
    Counted.RIGHT: CornerKind.RIGHT,
    Counted.SHARP: CornerKind.SHARP,
    Counted.WIDE: CornerKind.WIDE,
}
# How hard each is to see, beside the others: judgement, no source.
_EFFORTS: Mapping[Counted, float] = {
    Counted.HOLES: 1.0,
    Counted.CORNERS: 2.0,
    Counted.INWARD: 2.2,
    Counted.RIGHT: 3.0,
    Counted.SHARP: 3.0,
    Counted.WIDE: 4.2,
}


@dataclass(frozen=True, slots=True)
class CountRange:
    """How many there are, and the fewest and the most that a child may count."""

    least: int
    exact: int
    most: int

    def is_apart(self, other: CountRange) -> bool:
        """Whether nobody can count as many here as there."""
        return self.most < other.least or self.least > other.most


def count_of(counted: Counted, outline: Outline) -> CountRange:
    """How many are counted."""
    if counted is Counted.HOLES:
        least = _LEAST_HOLE * outline.larger_extent
        plain = sum(_width(hole) >= least for hole in outline.holes)
        return CountRange(plain, len(outline.holes), len(outline.holes))
    return _range_of(counted, corners_seen(outline))


def _range_of(counted: Counted, corners: Sequence[Corner]) -> CountRange:
    """How many of these corners are counted, however they were looked at."""
    if counted is Counted.CORNERS:
        return CountRange(sum(corner.is_clear for corner in corners), len(corners), len(corners))
    kind = _KINDS[counted]
    plain = sum(corner.looks is kind for corner in corners)
    exact = sum(corner.kind is kind for corner in corners)
    return CountRange(plain, exact, plain + sum(corner.may_look(kind) for corner in corners))


@dataclass(frozen=True, slots=True, kw_only=True)
class CountSieve(SieveFact):
    """The outline has so many of something, and each of the options another number."""

    counted: Counted
    on_outer_edge: bool = False  # whether one of the outlines has a hole, whose corners are not meant

    @property
    def stage(self) -> str:
        """Which sieve it is."""
        return _STAGES.get(self.counted, self.counted.value)

    @property
    def compared(self) -> tuple[str, ...]:
        """What is counted."""
        return ("count", self.counted.value)

    @property
    def effort(self) -> float:
        """By what is counted."""
        return _EFFORTS[self.counted]

    def anew(self, outline: Outline) -> float | None:
        """How many, by the directions of sides that follow each other."""
        return float(_counted_anew(self.counted, outline).exact)

    def is_seen_to_differ(self, one: float, other: float) -> bool:
        """Whether the numbers are different."""
        return one != other

    def holds(self) -> bool:
        """Counted anew they are as many as is said, and however corners that are hardly seen are taken, others."""
        there = _counted_anew(self.counted, self.outline.simplified(self.tolerance))
        return SieveFact.holds(self) and all(
            there.is_apart(_counted_anew(self.counted, option.outline.simplified(self.tolerance)))
            for option in self.options
        )

    @property
    def _count(self) -> int:
        return round(self.there)

    def marks_on(self, outline: Outline) -> SieveMarks:
        """Each that is counted."""
        if self.counted is Counted.HOLES:
            return SieveMarks(rings=outline.holes)
        kind = _KINDS.get(self.counted)
        return SieveMarks(corners=tuple(c.at for c in corners_seen(outline) if kind is None or c.kind is kind))

    def looks_for(self) -> str:
        """What is counted."""
        return say(_HEADINGS[self.counted])

    def heading(self) -> str:
        """Who has not as many as there should be; of none or one, that it is too many or too few."""
        labels, figures = list_in_words(self.labels), [option.figure for option in self.options]
        if self._count > 1:
            return fitting(say(_NOT_SO_MANY[self.counted], labels=labels, count=self._count), self.looks_for())
        if all(figure > self.there for figure in figures):
            return fitting(say(_TOO_MANY[self.counted], labels=labels), self.looks_for())
        if self.counted is Counted.HOLES and not any(figures):
            return fitting(say("{labels}: no hole", labels=labels), self.looks_for())
        return self.looks_for()

    def invitation(self, *, is_first: bool) -> tuple[str, ...]:
        """What to count, and for the first why."""
        if not is_first:
            return (say(_NEXT[self.counted]), *self._explained())
        return (say(_FIRST[self.counted]), once(say(_WHY_FIRST[self.counted])), *self._explained())

    def _explained(self) -> tuple[str, ...]:
        if self.on_outer_edge and self.counted is Counted.CORNERS:
            return (say("Count round the outside, not in the hole."),)
        if self.counted in _MEANINGS:
            return (once(say(_MEANINGS[self.counted])),)
        return ()

    def of_outline(self) -> str:
        """How many the outline has; what is counted has been said."""
        return say("The outline has {count}.", count=self._count) if self._count else say("The outline has none.")

    def of_outline_in_full(self) -> str:
        """How many the outline has of what."""
        match self.counted:
            case Counted.HOLES:
                if not self._count:
                    return say("The outline has no hole.")
                return say_count("The outline has {count} hole.", "The outline has {count} holes.", self._count)
            case Counted.CORNERS:
                return say_count("The outline has {count} corner.", "The outline has {count} corners.", self._count)
            case Counted.INWARD:
                if not self._count:
                    return say("The outline has no corner that points inwards.")
                return say_count(
                    "The outline has {count} corner that points inwards.",
                    "The outline has {count} corners that point inwards.",
                    self._count,
                )
            case Counted.RIGHT:
                if not self._count:
                    return say("The outline has no right angle.")
                return say_count(
                    "The outline has {count} right angle.", "The outline has {count} right angles.", self._count
                )
            case Counted.SHARP:
                if not self._count:
                    return say("The outline has no sharp corner.")
                return say_count(
                    "The outline has {count} sharp corner.", "The outline has {count} sharp corners.", self._count
                )
            case Counted.WIDE:
                if not self._count:
                    return say("The outline has no wide corner.")
                return say_count(
                    "The outline has {count} wide corner.", "The outline has {count} wide corners.", self._count
                )

    def of_options(self) -> tuple[str, ...]:
        """How many each has; those with as many together."""
        by_count: dict[int, list[str]] = {}
        for option in self.options:
            by_count.setdefault(round(option.figure), []).append(option.label)
        return (together([_has(labels, count) for count, labels in by_count.items()]),)

    def in_marking(self) -> str:
        """Both numbers."""
        (option,) = self.options
        return say(_ON_SHEETS[self.counted], count=round(option.figure), there=self._count)

    def of_choice(self, *, outline_given: bool) -> tuple[str, ...]:
        """How many the option has, and how many the outline."""
        (option,) = self.options
        has = _has_of(self.counted, option.label, round(option.figure))
        if outline_given:
            there = self.of_outline()
        elif self._count:
            there = say("The finished outline has {count}.", count=self._count)
        else:
            there = say("The finished outline has none.")
        return (has, there)


_ON_SHEETS = {
    Counted.CORNERS: message("Corners: {count}, not {there}."),
    Counted.HOLES: message("Holes: {count}, not {there}."),
    Counted.INWARD: message("Corners that point inwards: {count}, not {there}."),
    Counted.RIGHT: message("Right angles: {count}, not {there}."),
    Counted.SHARP: message("Sharp corners: {count}, not {there}."),
    Counted.WIDE: message("Wide corners: {count}, not {there}."),
}


def _has(labels: list[str], count: int) -> str:
    """A clause: how many one option has, or several."""
    named = list_in_words(labels)
    if len(labels) == 1:
        return say("{label} has {count}", label=named, count=count) if count else say("{label} has none", label=named)
    if not count:
        return say("{labels} have none", labels=named)
    return say("{labels} have {count}", labels=named, count=count)


def _has_of(counted: Counted, label: str, count: int) -> str:
    match counted:
        case Counted.HOLES:
            if not count:
                return say("Option {label} has no hole.", label=label)
            return say_count(
                "Option {label} has {count} hole.", "Option {label} has {count} holes.", count, label=label
            )
        case Counted.CORNERS:
            return say_count(
                "Option {label} has {count} corner.", "Option {label} has {count} corners.", count, label=label
            )
        case Counted.INWARD:
            if not count:
                return say("Option {label} has no corner that points inwards.", label=label)
            return say_count(
                "Option {label} has {count} corner that points inwards.",
                "Option {label} has {count} corners that point inwards.",
                count,
                label=label,
            )
        case Counted.RIGHT:
            if not count:
                return say("Option {label} has no right angle.", label=label)
            return say_count(
                "Option {label} has {count} right angle.",
                "Option {label} has {count} right angles.",
                count,
                label=label,
            )
        case Counted.SHARP:
            if not count:
                return say("Option {label} has no sharp corner.", label=label)
            return say_count(
                "Option {label} has {count} sharp corner.",
                "Option {label} has {count} sharp corners.",
                count,
                label=label,
            )
        case Counted.WIDE:
            if not count:
                return say("Option {label} has no wide corner.", label=label)
            return say_count(
                "Option {label} has {count} wide corner.",
                "Option {label} has {count} wide corners.",
                count,
                label=label,
            )


_HEADINGS = {
    Counted.CORNERS: message("Count the corners"),
    Counted.HOLES: message("Count the holes"),
    Counted.INWARD: message("Corners that point inwards"),
    Counted.RIGHT: message("Count the right angles"),
    Counted.SHARP: message("Count the sharp corners"),
    Counted.WIDE: message("Count the wide corners"),
}
_NOT_SO_MANY = {
    Counted.CORNERS: message("{labels}: not {count} corners"),
    Counted.HOLES: message("{labels}: not {count} holes"),
    Counted.INWARD: message("{labels}: not {count} inward corners"),
    Counted.RIGHT: message("{labels}: not {count} right angles"),
    Counted.SHARP: message("{labels}: not {count} sharp corners"),
    Counted.WIDE: message("{labels}: not {count} wide corners"),
}
_TOO_MANY = {
    Counted.CORNERS: message("{labels}: too many corners"),
    Counted.HOLES: message("{labels}: too many holes"),
    Counted.INWARD: message("{labels}: too many inward corners"),
    Counted.RIGHT: message("{labels}: too many right angles"),
    Counted.SHARP: message("{labels}: too many sharp corners"),
    Counted.WIDE: message("{labels}: too many wide corners"),
}
_FIRST = {
    Counted.CORNERS: message("Count the corners first."),
    Counted.HOLES: message("Look for holes first."),
    Counted.INWARD: message("First look for corners that point inwards."),
    Counted.RIGHT: message("First count the right angles."),
    Counted.SHARP: message("First count the sharp corners."),
    Counted.WIDE: message("First count the wide corners."),
}
_WHY_FIRST = {
    Counted.CORNERS: message("That is quickest."),
    Counted.HOLES: message("You see them at once."),
    Counted.INWARD: message("They are soon found."),
    Counted.RIGHT: message("They are easy to see."),
    Counted.SHARP: message("They are easy to see."),
    Counted.WIDE: message("Here they tell most."),
}
_NEXT = {
    Counted.CORNERS: message("Now count the corners."),
    Counted.HOLES: message("Now look for holes."),
    Counted.INWARD: message("Now look for corners that point inwards."),
    Counted.RIGHT: message("Now count the right angles."),
    Counted.SHARP: message("Now count the sharp corners."),
    Counted.WIDE: message("Now count the wide corners."),
}
_MEANINGS = {
    Counted.RIGHT: message("They are like the corners of a page."),
    Counted.SHARP: message("They are sharper than the corner of a page."),
    Counted.WIDE: message("They are wider than the corner of a page."),
}


def _counted_anew(counted: Counted, outline: Outline) -> CountRange:
    """As ``count_of``, by cross and dot products of sides that follow each other, not by angles."""
    if counted is Counted.HOLES:
        return count_of(counted, outline)
    return _range_of(counted, _all_looks(outline))


def kinds_anew(outline: Outline) -> tuple[CornerKind, ...] | None:
    """The kinds of the corners of the outer edge in order, by cross and dot products; None where one is not clear.

    outline : without needless corners
    """
    return kinds_known(_all_looks(outline))


def are_clear_anew(outline: Outline) -> bool:
    """Whether every corner of the outer edge is seen at a glance to be one, by cross and dot products.

    outline : without needless corners
    """
    return all(look.is_clear for look in _all_looks(outline))


def _all_looks(outline: Outline) -> list[Corner]:
    ring, least = outline.exterior, LEAST_SIDE * outline.larger_extent
    walk = zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True)
    return [_look_of(before, corner, after, least) for before, corner, after in walk]


def _look_of(before: Point, corner: Point, after: Point, least: float) -> Corner:
    (ux, uy), (vx, vy) = (corner[0] - before[0], corner[1] - before[1]), (after[0] - corner[0], after[1] - corner[1])
    lengths = math.hypot(ux, uy), math.hypot(vx, vy)
    sine, cosine = (ux * vy - uy * vx) / math.prod(lengths), (ux * vx + uy * vy) / math.prod(lengths)
    clear = math.sin(math.radians(CLEAR_DEG))
    if sine < 0.0:
        kind = CornerKind.INWARD
    elif abs(cosine) <= math.sin(math.radians(RIGHT_DEG)):
        kind = CornerKind.RIGHT
    else:
        kind = CornerKind.SHARP if cosine < 0.0 else CornerKind.WIDE
    is_clear = min(lengths) >= least and not (cosine > 0.0 and abs(sine) < clear)
    is_known = kind in (CornerKind.INWARD, CornerKind.RIGHT) or abs(cosine) >= clear
    return Corner(corner, kind, is_clear, is_known)


def _width(ring: Ring) -> float:
    """The smaller of width and height."""
    xs, ys = zip(*ring, strict=True)
    return float(min(max(xs) - min(xs), max(ys) - min(ys)))

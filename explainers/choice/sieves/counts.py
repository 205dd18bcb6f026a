"""Sieves that count: corners, holes, corners that point inwards, corners of one kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Ring
from ...words.messages import message, once, say, say_count
from ...words.names import list_in_words
from .corner_kinds import Corner, CornerKind, corners_seen
from .corners_anew import corners_anew
from .sieve import SieveFact, SieveMarks, fitting, together

__all__ = ["CountRange", "CountSieve", "Counted", "count_of"]

_LEAST_HOLE = 0.03  # of the larger extent, across: a smaller hole may be overlooked


class Counted(StrEnum):
    """What is counted."""

    CORNERS = "corners"  # along the outer edge
    HOLES = "holes"
    INWARD = "inward"
    NOTCHES = "notches"  # pointing inwards, and square
    RIGHT = "right"
    SHARP = "sharp"
    WIDE = "wide"


_STAGES = dict.fromkeys((Counted.NOTCHES, Counted.RIGHT, Counted.SHARP, Counted.WIDE), "angles")
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
    Counted.NOTCHES: 3.6,
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
    if counted is Counted.NOTCHES:
        plain = sum(corner.looks_notch is True for corner in corners)
        exact = sum(corner.is_notch for corner in corners)
        return CountRange(plain, exact, plain + sum(corner.looks_notch is None for corner in corners))
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
        if self.counted is Counted.NOTCHES:
            return SieveMarks(corners=tuple(c.at for c in corners_seen(outline) if c.is_notch))
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
        first = say(_FIRST[self.counted])
        return (once(say(_FIRST_AND_WHY[self.counted]), "why first", later=first), *self._explained())

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
            case Counted.NOTCHES:
                if not self._count:
                    return say("The outline has no square notch.")
                return say_count(
                    "The outline has {count} square notch.", "The outline has {count} square notches.", self._count
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
    Counted.NOTCHES: message("Square notches: {count}, not {there}."),
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
        case Counted.NOTCHES:
            if not count:
                return say("Option {label} has no square notch.", label=label)
            return say_count(
                "Option {label} has {count} square notch.",
                "Option {label} has {count} square notches.",
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
    Counted.NOTCHES: message("Count the square notches"),
    Counted.RIGHT: message("Count the right angles"),
    Counted.SHARP: message("Count the sharp corners"),
    Counted.WIDE: message("Count the wide corners"),
}
_NOT_SO_MANY = {
    Counted.CORNERS: message("{labels}: not {count} corners"),
    Counted.HOLES: message("{labels}: not {count} holes"),
    Counted.INWARD: message("{labels}: not {count} inward corners"),
    Counted.NOTCHES: message("{labels}: not {count} square notches"),
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
    Counted.CORNERS: message("Count the corners."),
    Counted.HOLES: message("Look for holes."),
    Counted.INWARD: message("Look for corners that point inwards."),
    Counted.NOTCHES: message("Count the square notches."),
    Counted.RIGHT: message("Count the right angles."),
    Counted.SHARP: message("Count the sharp corners."),
    Counted.WIDE: message("Count the wide corners."),
}
_FIRST_AND_WHY = {
    Counted.CORNERS: message("Count the corners first: that is quickest."),
    Counted.HOLES: message("Look for holes first: you see them at once."),
    Counted.INWARD: message("First look for corners that point inwards: they are soon found."),
    Counted.NOTCHES: message("Count the square notches first: they are easy to see."),
    Counted.RIGHT: message("Count the right angles first: they are easy to see."),
    Counted.SHARP: message("Count the sharp corners first: they are easy to see."),
    Counted.WIDE: message("Count the wide corners first: here they tell most."),
}
_NEXT = {
    Counted.CORNERS: message("Now count the corners."),
    Counted.HOLES: message("Now look for holes."),
    Counted.INWARD: message("Now count the inward corners."),
    Counted.NOTCHES: message("Now count the square notches."),
    Counted.RIGHT: message("Now count the right angles."),
    Counted.SHARP: message("Now count the sharp corners."),
    Counted.WIDE: message("Now count the wide corners."),
}
_MEANINGS = {
    Counted.NOTCHES: message("The corner of a page fits into each of them."),
    Counted.RIGHT: message("They are like the corners of a page."),
    Counted.SHARP: message("They are sharper than the corner of a page."),
    Counted.WIDE: message("They are wider than the corner of a page."),
}


def _counted_anew(counted: Counted, outline: Outline) -> CountRange:
    """As ``count_of``, by cross and dot products of sides that follow each other, not by angles."""
    if counted is Counted.HOLES:
        return count_of(counted, outline)
    return _range_of(counted, corners_anew(outline))


def _width(ring: Ring) -> float:
    """The smaller of width and height."""
    xs, ys = zip(*ring, strict=True)
    return float(min(max(xs) - min(xs), max(ys) - min(ys)))

"""What every kind of difference has: its voices, its marks in a picture, and where it is looked for."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any, TypeVar

from ...geometry import overlay
from ...geometry.locate import contains, distance_to_boundary
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Side
from ...words.messages import say
from .. import fingerprint
from ..fact import Fact, Stated
from ..fit import Fit

__all__ = ["VOICES", "Compared", "DifferenceFact", "Finder", "Marks", "ReasonFact", "filled_here", "is_at"]

# What every reason can say, each for another listener.
VOICES = ("over_outline", "of_choice", "in_marking", "practise", "in_report", "as_line")

Found = TypeVar("Found")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonFact(Fact, ABC):
    """Why an option is not the outline; a kind that lacks one of its voices cannot be made."""

    label: str
    option: Outline
    outline: Outline

    def stated(self) -> Stated:
        """Whose option it is, and both outlines."""
        return Stated(outlines=(self.option, self.outline), label=self.label)

    @abstractmethod
    def over_outline(self) -> tuple[str, ...]:
        """To a learner who sees the option laid on the outline, with a ring at the place."""

    @abstractmethod
    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """To a learner who has chosen the option: it stands where the question shows it, not on the outline.

        outline_given : as `Question.outline_given`; else no outline is seen yet
        """

    @abstractmethod
    def in_marking(self) -> str:
        """To a teacher, on the marking sheet: a sentence that names no place, for the sheet has no ring to show it."""

    def on_answers(self) -> str:
        """On the answer sheet: the same, to a learner."""
        return self.in_marking()

    @abstractmethod
    def practise(self) -> str:
        """What a learner who chose the option may practise."""

    @abstractmethod
    def in_report(self) -> str:
        """To a teacher at the command line, with coordinates and without a full stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """What a picture marks of a difference besides its place, in the base's coordinates."""

    spot: Point | None = None  # the ring stands round it; None: round the place
    corner: Point | None = None  # wears a dot
    sides: tuple[Side, ...] = ()  # of the option, as broken lines
    outline_sides: tuple[Side, ...] = ()  # of the outline, drawn beneath those of the option
    home: Outline | None = None  # where a part should be


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceFact(ReasonFact):
    """A place where an option differs from the outline; ``option`` is laid on it as well as it can be."""

    place: Outline  # the differing region in which the reason is ringed
    ring_centre: Point  # inside the place

    def holds(self) -> bool:
        """The option and the outline differ all over the place, and the ring's centre is inside it."""
        if not contains(self.place, self.ring_centre) or self.is_filled == contains(self.outline, self.ring_centre):
            return False
        owner, other = (self.option, self.outline) if self.is_filled else (self.outline, self.option)
        thickness = overlay.shared_thickness(self.place, other)
        return not overlay.regions(self.place, owner, self.tolerance) and thickness <= self.tolerance

    @property
    def is_filled(self) -> bool:
        """Whether the option has material in the middle of the ring."""
        return contains(self.option, self.ring_centre)

    @property
    def is_seen_alone(self) -> bool:
        """Whether the option alone shows what the fact speaks of."""
        return True

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """The figures, whose option it is, and the place."""
        return (*self.figures(), self.label, fingerprint.shape(self.place, origin))

    @abstractmethod
    def figures(self) -> fingerprint.FingerprintParts:
        """A word for the kind, and the figures that it states, in grains."""

    @abstractmethod
    def heading(self) -> str:
        """Over the picture, once it has been told."""

    def where_over_outline(self) -> str:
        """The one sentence of ``over_outline`` that speaks of the place: the ring comes with it."""
        return self.over_outline()[0]

    def marks_over_outline(self) -> Marks:
        """What is marked where the option lies on the outline."""
        return Marks()

    def marks_of_choice(self) -> Marks:
        """What is marked on the option alone, where the question shows it."""
        return Marks()


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """An option laid on the outline: where differences are looked for."""

    label: str
    fit: Fit
    outline: Outline
    tolerance: float
    _known: dict[Callable[[Compared], Any], Any] = field(default_factory=dict, repr=False, compare=False)

    def at(self, place: Outline, ring_centre: Point) -> dict[str, Any]:
        """The fields that every difference has."""
        return {
            "tolerance": self.tolerance, "label": self.label, "option": self.fit.laid, "outline": self.outline,
            "place": place, "ring_centre": ring_centre,
        }  # fmt: skip

    def once(self, find: Callable[[Compared], Found]) -> Found:
        """What does not depend on the place is found once for all places."""
        if find not in self._known:
            self._known[find] = find(self)
        known: Found = self._known[find]
        return known

    def near(self, point: Point, place: Outline) -> bool:
        """Whether a point is on the boundary of a place."""
        return is_at(point, place, self.tolerance)


# The candidates of a kind at one place, the clearest first; each has still to be asked whether it holds.
Finder = Callable[[Compared, Outline], Iterator[DifferenceFact]]


def is_at(point: Point, place: Outline, tolerance: float) -> bool:
    """Whether a point is on the boundary of a place."""
    return distance_to_boundary(point, place) <= 2 * tolerance


def filled_here(label: str, *, filled: bool) -> str:
    """The bare difference at the ring: the option has cloth there and the outline none, or the other way round."""
    if filled:
        return say("Here option {label} has cloth where the outline has none.", label=label)
    return say("Here the outline has cloth where option {label} has none.", label=label)

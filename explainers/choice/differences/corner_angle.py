"""An option has a corner of an angle that the outline has nowhere."""

from __future__ import annotations

import math
from bisect import bisect
from collections.abc import Iterator
from dataclasses import dataclass

from ...geometry import overlay
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point
from ...geometry.rings import interior_angles_deg
from ...geometry.tolerance import PLAIN_DEG, TURN_DEG
from ...words.messages import say
from ...words.names import degrees_in_words, point_in_words, the_option
from .. import fingerprint
from ..fact import Stated
from .difference import Compared, DifferenceFact, Marks, is_at

__all__ = ["CornerAngleFact", "odd_angles", "odd_reflex_angles"]

CLEAR_DEG = 15.0  # an angle that stands out this much from every other is seen at a glance


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerAngleFact(DifferenceFact):
    """The option has a corner of an angle that the outline has nowhere."""

    corner: Point
    angle_deg: float  # inside the material, 0 to 360

    def holds(self) -> bool:
        """The option has that corner with that angle at the place, and no corner of the outline comes near it."""
        own = _angles_deg(self.option.simplified(self.tolerance))
        there = [angle for point, angle in own if math.dist(point, self.corner) <= self.tolerance]
        theirs = _angles_deg(self.outline.simplified(self.tolerance))
        return (
            bool(there)
            and abs(there[0] - self.angle_deg) <= TURN_DEG
            and all(abs(angle - self.angle_deg) > PLAIN_DEG for _, angle in theirs)
            and is_at(self.corner, self.place, self.tolerance)
            and DifferenceFact.holds(self)
        )

    def figures(self) -> fingerprint.FingerprintParts:
        """The angle."""
        return ("angle", fingerprint.angle(self.angle_deg))

    def stated(self) -> Stated:
        """The angle."""
        return Stated(corner_deg=self.angle_deg, outlines=(self.option, self.outline), label=self.label)

    def marks_over_outline(self) -> Marks:
        """The corner."""
        return Marks(spot=self.corner, corner=self.corner)

    def marks_of_choice(self) -> Marks:
        """The corner."""
        return self.marks_over_outline()

    @property
    def is_reflex(self) -> bool:
        """Whether the corner points into the shape."""
        return self.angle_deg > 180.0

    def heading(self) -> str:
        """That such a corner should not be there."""
        return say("{label}: a wrong corner", label=self.label)

    def over_outline(self) -> tuple[str, ...]:
        """The corner, then that the outline has none."""
        degrees, none = degrees_in_words(self.angle_deg), say("The outline has no such corner.")
        if self.is_reflex:
            here = say("Here option {label} has a corner that points into the shape.", label=self.label)
            return (here, say("Measured inside, it is {degrees}.", degrees=degrees), none)
        return (say("Here option {label} has a corner of {degrees}.", label=self.label, degrees=degrees), none)

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """What is in the ring, then that the outline has none."""
        degrees, none = degrees_in_words(self.angle_deg), say("The outline has no such corner.")
        if self.is_reflex:
            here = say("In the ring, option {label} has a corner that points into the shape.", label=self.label)
            return (here, say("Measured inside, it is {degrees}.", degrees=degrees), none)
        return (say("In the ring, option {label} has a corner of {degrees}.", label=self.label, degrees=degrees), none)

    def in_marking(self) -> str:
        """The angle."""
        angle = degrees_in_words(self.angle_deg)
        return say("It has a corner of {angle}, where the outline has none.", angle=angle)

    def practise(self) -> str:
        """Comparing corners."""
        return say("Practise comparing corners: square, sharper or blunter.")

    def in_report(self) -> str:
        """The angle and the corner."""
        angle, corner = degrees_in_words(self.angle_deg), point_in_words(self.corner)
        return f"a corner of {angle} at {corner}, where the outline has none"

    def as_line(self) -> str:
        """The angle."""
        return f"{the_option(self.label)}: a corner of {degrees_in_words(self.angle_deg)}, the outline has none"


def odd_angles(pair: Compared, place: Outline) -> Iterator[CornerAngleFact]:
    """A corner of an angle that the outline has nowhere, the oddest first."""
    return _odd_angles(pair, place, reflex=False)


def odd_reflex_angles(pair: Compared, place: Outline) -> Iterator[CornerAngleFact]:
    """What ``odd_angles`` finds, of corners that point into the shape, whose angles are harder to see."""
    return _odd_angles(pair, place, reflex=True)


def _odd_angles(pair: Compared, place: Outline, *, reflex: bool) -> Iterator[CornerAngleFact]:
    odd = [
        (-round(gap, 3), corner, angle)
        for gap, corner, angle in pair.once(_clear_angles)
        if (angle > 180.0) is reflex and pair.near(corner, place)
    ]
    for _, corner, angle in sorted(odd):
        yield CornerAngleFact(**pair.at(place, overlay.inside_near(place, corner)), corner=corner, angle_deg=angle)


def _clear_angles(pair: Compared) -> list[tuple[float, Point, float]]:
    """(how far from any of the outline's, corner, angle) of each that stands out."""
    theirs = sorted(angle for _, angle in _angles_deg(pair.outline))
    found = []
    for corner, angle in _angles_deg(pair.fit.laid):
        at = bisect(theirs, angle)
        gap = min(abs(angle - other) for other in theirs[max(0, at - 1) : at + 1])
        if gap >= CLEAR_DEG:
            found.append((gap, corner, angle))
    return found


def _angles_deg(outline: Outline) -> tuple[tuple[Point, float], ...]:
    """Each corner with the angle of material at it."""
    return tuple(pair for ring in outline.rings for pair in zip(ring, interior_angles_deg(ring), strict=True))

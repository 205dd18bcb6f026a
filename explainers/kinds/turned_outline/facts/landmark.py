"""A corner by which the outline is known again, however it is turned: where going round it may begin."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from ....choice import fingerprint
from ....choice.fact import Fact, Stated, verified
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side
from ....geometry.rings import interior_angles_deg, sides
from ....geometry.tolerance import PLAIN_DEG
from ....words.messages import say
from ....words.names import degrees_in_words

__all__ = ["Landmark", "LandmarkFact", "landmark_fact"]

# Judgement, no source: what is seen to be different without measuring.
_SHARPER_DEG = 15.0
_LONGER = 1.1


class Landmark(StrEnum):
    """What a corner is known by, among those of its ring."""

    INWARD = "inward"  # no other corner points inwards
    SHARPEST = "sharpest"  # every other one is blunter by much
    LONGEST = "longest"  # the longest side begins there, anticlockwise; every other one is shorter by much
    ANY = "any"  # nothing: where no corner stands out


@dataclass(frozen=True, slots=True, kw_only=True)
class LandmarkFact(Fact):
    """One corner of the outline, what it is known by, and how the side after it compares with the side before it."""

    outline: Outline  # without needless corners
    ring: Ring  # anticlockwise: its exterior, or the one hole that it has, where no corner of the exterior stands out
    kind: Landmark
    corner: Point
    angle_deg: float  # inside the ring
    ahead: Side  # from the corner on, anticlockwise
    behind: Side  # up to the corner

    def holds(self) -> bool:
        """The corner is one of that ring, its angle and sides are these, and it is known by that."""
        ring = self.ring
        if self.corner not in ring or not (ring == self.outline.exterior or (ring[::-1],) == self.outline.holes):
            return False
        index = ring.index(self.corner)
        ahead, behind = (ring[index], ring[(index + 1) % len(ring)]), (ring[index - 1], ring[index])
        angle = _angle_deg(*behind, ahead[1])
        if (ahead, behind) != (self.ahead, self.behind) or abs(angle - self.angle_deg) > 1e-6:
            return False
        others = [_angle_deg(ring[i - 1], ring[i], ring[(i + 1) % len(ring)]) for i in range(len(ring)) if i != index]
        match self.kind:
            case Landmark.INWARD:
                return angle > 180.0 and all(other < 180.0 for other in others)
            case Landmark.SHARPEST:
                return all(other >= angle + _SHARPER_DEG for other in others)
            case Landmark.LONGEST:
                rest = [math.dist(ring[i], ring[(i + 1) % len(ring)]) for i in range(len(ring)) if i != index]
                return all(math.dist(*ahead) >= _LONGER * length for length in rest)
            case Landmark.ANY:
                return True

    @property
    def is_of_hole(self) -> bool:
        """Whether the corner is one of the hole."""
        return self.ring != self.outline.exterior

    @property
    def longer_ahead(self) -> bool | None:
        """Whether the side after the corner is the longer of the two; None where neither is plainly longer."""
        ahead, behind = math.dist(*self.ahead), math.dist(*self.behind)
        if max(ahead, behind) < _LONGER * min(ahead, behind):
            return None
        return ahead > behind

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """What it is known by, its angle, where it and its sides are."""
        angle = fingerprint.angle(self.angle_deg)
        places = [fingerprint.points((point,), origin) for point in (self.behind[0], self.corner, self.ahead[1])]
        return ("landmark", self.kind.value, angle, tuple(places))

    def stated(self) -> Stated:
        """The angle, and the outline."""
        return Stated(corner_deg=self.angle_deg, outlines=(self.outline,), may_be_flip=True)

    def of_corner(self) -> tuple[str, ...]:
        """What the corner is known by, over the outline with a ring round the corner.

        Raises : FactError where the fact does not hold
        """
        match self.kind:
            case Landmark.INWARD:
                words = say("The corner in the ring is the only one that points inwards.")
            case Landmark.SHARPEST:
                degrees = degrees_in_words(self.angle_deg)
                words = say("The corner in the ring is the sharpest: it has {degrees}.", degrees=degrees)
            case Landmark.LONGEST:
                words = say("Going anticlockwise, the longest side begins at the corner in the ring.")
            case Landmark.ANY:
                words = say("Here, any corner will do: take the one in the ring.")
        if self.is_of_hole:
            find = say("Find a corner of the hole that you will know again.")
        else:
            find = say("Find a corner that you will know again.")
        return verified(self, (find, words))

    def of_round(self) -> tuple[str, ...]:
        """How it goes on from there, over an arrow along the side ahead.

        Raises : FactError where the fact does not hold
        """
        words = [say("From the ring, go round anticlockwise, as the arrow does.")]
        if self.longer_ahead is None:
            words.append(say("Look at each side and each corner as it comes."))
            words.append(say("A turn keeps their order, but a flip turns it round."))
        else:
            words.append(
                say("The side with the arrow is longer than the broken one.")
                if self.longer_ahead
                else say("The side with the arrow is shorter than the broken one.")
            )
            words.append(say("A turn keeps that, but a flip swaps the two."))
        return verified(self, words)

    def alt(self, *, going_round: bool = False) -> str:
        """What stands out in the picture."""
        match self.kind:
            case Landmark.INWARD:
                words = say("A ring stands round the one corner that points inwards.")
            case Landmark.SHARPEST:
                words = say("A ring stands round the sharpest corner.")
            case Landmark.LONGEST:
                words = say("A ring stands round the corner where the longest side begins, going anticlockwise.")
            case Landmark.ANY:
                words = say("A ring stands round a corner.")
        told = [words]
        if self.is_of_hole:
            told.append(say("It is a corner of the hole."))
        if going_round:
            told.append(say("From there an arrow runs anticlockwise along a side, and the side behind it is broken."))
        return " ".join(told)

    def as_line(self) -> str:
        """As a plain line."""
        return f"a corner of the outline, {degrees_in_words(self.angle_deg)} inside, known as: {self.kind.value}"


def landmark_fact(outline: Outline, tolerance: float) -> LandmarkFact:
    """The corner that is known best: of the exterior, else of the one hole, else any corner of the exterior.

    Of several, the first whose two sides are plainly of different length.

    outline : without needless corners
    """
    exterior = outline.exterior
    rings = (exterior, outline.holes[0][::-1]) if len(outline.holes) == 1 else (exterior,)
    for ring in rings:
        if known := list(_known(outline, ring, tolerance)):
            return _best(known)
    return _best([_fact(outline, exterior, Landmark.ANY, index, tolerance) for index in range(len(exterior))])


def _best(found: list[LandmarkFact]) -> LandmarkFact:
    return next((fact for fact in found if fact.longer_ahead is not None), found[0])


def _known(outline: Outline, ring: Ring, tolerance: float) -> Iterator[LandmarkFact]:
    """The corners of a ring that stand out."""
    angles = interior_angles_deg(ring)
    lengths = [math.dist(*side) for side in sides(ring)]
    inward = [index for index, angle in enumerate(angles) if angle > 180.0]
    if len(inward) == 1 and angles[inward[0]] > 180.0 + PLAIN_DEG:
        yield _fact(outline, ring, Landmark.INWARD, inward[0], tolerance)
    sharpest, blunter = sorted(range(len(ring)), key=angles.__getitem__)[:2]
    if angles[blunter] >= angles[sharpest] + _SHARPER_DEG:
        yield _fact(outline, ring, Landmark.SHARPEST, sharpest, tolerance)
    longest, shorter = sorted(range(len(ring)), key=lambda index: -lengths[index])[:2]
    if lengths[longest] >= _LONGER * lengths[shorter]:
        yield _fact(outline, ring, Landmark.LONGEST, longest, tolerance)


def _fact(outline: Outline, ring: Ring, kind: Landmark, index: int, tolerance: float) -> LandmarkFact:
    behind, ahead = (ring[index - 1], ring[index]), (ring[index], ring[(index + 1) % len(ring)])
    return LandmarkFact(
        tolerance=tolerance,
        outline=outline,
        ring=ring,
        kind=kind,
        corner=ring[index],
        angle_deg=_angle_deg(*behind, ahead[1]),
        ahead=ahead,
        behind=behind,
    )


def _angle_deg(before: Point, corner: Point, after: Point) -> float:
    """The angle from the side ahead round to the side behind, inside a ring that runs anticlockwise; in (0, 360)."""
    ahead = math.atan2(after[1] - corner[1], after[0] - corner[0])
    back = math.atan2(before[1] - corner[1], before[0] - corner[0])
    return math.degrees(back - ahead) % 360.0

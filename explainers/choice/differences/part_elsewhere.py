"""An option has a part of the outline, or a gap of it, on another side.

A part is held against the same part, so that nothing leans on the size at which an option is drawn.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ...geometry import overlay
from ...geometry.congruence import motions_onto
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Side
from ...geometry.rings import sides
from ...geometry.side import is_one_side
from ...geometry.tolerance import plain
from ...words.messages import say
from ...words.names import point_in_words, the_option
from ..fingerprint import FingerprintParts
from .difference import Compared, DifferenceFact, Marks

__all__ = ["PartElsewhereFact", "parts_elsewhere"]

ALL_THAT_DIFFERS = 0.8  # of the differing area: where more differs besides, a learner does not see one part moved
CLEAR_WIDTH = 2.0  # times what is plainly seen: a part thinner than this is a strip along a side


@dataclass(frozen=True, slots=True, kw_only=True)
class PartElsewhereFact(DifferenceFact):
    """The option has a part of the outline, or a gap of it, on another side; ``place`` is where the option has it.

    What both are without that part is their *body*: the part taken off, or the gap filled.
    """

    filled: bool  # whether the part is material; else it is a gap
    home: Outline  # where the outline has it
    side: Side  # of both bodies, walked with the body on the left: the option has the part here
    home_side: Side  # the same for the outline
    adjacent: bool  # whether the two sides meet in a corner

    def holds(self) -> bool:
        """Both have the part where they are said to, and not where the other has it; it is the same by turning alone.

        Each touches its body along one side only, and both bodies have both sides, whole.
        """
        return (
            DifferenceFact.holds(self)
            and self.is_filled is self.filled
            and _is_only_in(self.home, self.outline, self.option, self.filled, self.tolerance)
            and _is_as_large(self.place, self.home, self.tolerance)
            and self._sits_on(self.option, self.place, self.side)
            and self._sits_on(self.outline, self.home, self.home_side)
            and not is_one_side(self.side, self.home_side, self.tolerance)
            and _are_next_to_each_other(self.side, self.home_side, self.tolerance) is self.adjacent
        )

    def _sits_on(self, shape: Outline, part: Outline, side: Side) -> bool:
        body = _without_part(shape, part, filled=self.filled, tolerance=self.tolerance)
        if body is None:
            return False
        found = _contact_side(part, body, filled=self.filled, tolerance=self.tolerance)
        whole = [own for ring in body.rings for own in sides(ring)]
        return (
            found is not None
            and is_one_side(found, side, self.tolerance)
            and all(
                any(is_one_side(own, wanted, self.tolerance) for own in whole) for wanted in (self.side, self.home_side)
            )
        )

    def figures(self) -> FingerprintParts:
        """Part or gap, and how far from home."""
        return ("elsewhere", self.filled, self.adjacent)

    def marks_over_outline(self) -> Marks:
        """Where the part should be, and the side on which it is."""
        return Marks(sides=(self.side,), home=self.home)

    def heading(self) -> str:
        """What is in another place."""
        if self.filled:
            return say("{label}: a part in the wrong place", label=self.label)
        return say("{label}: a gap in the wrong place", label=self.label)

    def over_outline(self) -> tuple[str, ...]:
        """What is here, then where the outline has it."""
        if self.filled:
            here = say("Here option {label} has a part where the outline has none.", label=self.label)
        else:
            here = say("Here option {label} has a gap where the outline has none.", label=self.label)
        return (here, self._at_home())

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """What is in the ring, then where the outline has it."""
        if self.filled:
            here = say("In the ring, option {label} has a part in the wrong place.", label=self.label)
        else:
            here = say("In the ring, option {label} has a gap in the wrong place.", label=self.label)
        return (here, self._at_home())

    def _at_home(self) -> str:
        if self.filled:
            if self.adjacent:
                return say("In the outline, that part is on the side next to this one.")
            return say("In the outline, that part is on another side.")
        if self.adjacent:
            return say("In the outline, that gap is on the side next to this one.")
        return say("In the outline, that gap is on another side.")

    def in_marking(self) -> str:
        """Part or gap."""
        if self.filled:
            return say("It has a part that the outline has on another side.")
        return say("It has a gap that the outline has on another side.")

    def practise(self) -> str:
        """Finding parts."""
        return say("Practise following the outline side by side, and finding where each part sits.")

    def in_report(self) -> str:
        """What is where, and where the outline has it."""
        return f"a {self._thing} around {point_in_words(self.ring_centre)}, which the outline has {self._where}"

    def as_line(self) -> str:
        """What it is."""
        return f"{the_option(self.label)}: a {self._thing} {self._where}"

    @property
    def _thing(self) -> str:
        return "part" if self.filled else "gap"

    @property
    def _where(self) -> str:
        return "on the next side" if self.adjacent else "on another side"


def parts_elsewhere(pair: Compared, place: Outline) -> Iterator[PartElsewhereFact]:
    """The place as a part of the same size and shape as another differing one, on another side."""
    fit, outline, tolerance = pair.fit, pair.outline, pair.tolerance
    if fit.difference <= 0.0 or overlay.thickness(overlay.polygon(place)) < CLEAR_WIDTH * plain(tolerance):
        return
    too_much = place in fit.extra
    for twin in fit.missing if too_much else fit.extra:
        if place.area + twin.area < ALL_THAT_DIFFERS * fit.difference or not _is_as_large(place, twin, tolerance):
            continue
        extra, missing = (place, twin) if too_much else (twin, place)
        for filled, here, home in ((True, extra, missing), (False, missing, extra)):
            bodies = [
                _without_part(shape, part, filled=filled, tolerance=tolerance)
                for shape, part in ((fit.laid, here), (outline, home))
            ]
            if bodies[0] is None or bodies[1] is None:
                continue
            side = _contact_side(here, bodies[0], filled=filled, tolerance=tolerance)
            home_side = _contact_side(home, bodies[1], filled=filled, tolerance=tolerance)
            if side is None or home_side is None:
                continue
            yield PartElsewhereFact(
                **pair.at(here, overlay.pole_of_inaccessibility(here)),
                filled=filled,
                home=home,
                side=side,
                home_side=home_side,
                adjacent=_are_next_to_each_other(side, home_side, tolerance),
            )


def _without_part(shape: Outline, part: Outline, *, filled: bool, tolerance: float) -> Outline | None:
    """A shape without one of its parts, or with one of its gaps filled; None where that is no single outline."""
    if filled:
        bodies = overlay.regions(shape, part, tolerance)
    else:
        bodies = () if part.holes else overlay.joined(shape, part.exterior, tolerance).parts
    return bodies[0] if len(bodies) == 1 else None


def _contact_side(part: Outline, body: Outline, *, filled: bool, tolerance: float) -> Side | None:
    """The one side of the body along which the part touches it, or opens to the outside; None for none or several.

    A part that is material runs against the body's side, a gap along with it.
    """
    own = [side[::-1] if filled else side for ring in part.rings for side in sides(ring)]
    touched = [
        side
        for ring in body.rings
        for side in sides(ring)
        if any(_run_along(mine, side, tolerance) > 2 * tolerance for mine in own)
    ]
    return touched[0] if len(touched) == 1 else None


def _are_next_to_each_other(side: Side, other: Side, tolerance: float) -> bool:
    """Whether one side starts where the other ends."""
    return min(math.dist(side[1], other[0]), math.dist(other[1], side[0])) <= 2 * tolerance


def _is_only_in(part: Outline, owner: Outline, other: Outline, filled: bool, tolerance: float) -> bool:
    """Whether the one shape has the part, as material or as a gap, all over, and the other nowhere."""
    inside, outside = (owner, other) if filled else (other, owner)
    return not overlay.regions(part, inside, tolerance) and overlay.shared_thickness(part, outside) <= tolerance


def _is_as_large(part: Outline, other: Outline, tolerance: float) -> bool:
    """Whether a turn and a shift lay one part on the other, without any scaling that can be seen."""
    scale = math.sqrt(other.area / part.area)
    return abs(scale - 1.0) * part.larger_extent <= 2 * tolerance and bool(motions_onto(part, other, 2 * tolerance))


def _run_along(mine: Side, side: Side, tolerance: float) -> float:
    """How long a stretch the two have in common, running the same way on one line; 0 for none."""
    (ax, ay), (bx, by) = side
    length = math.dist(*side)
    ux, uy = (bx - ax) / length, (by - ay) / length
    if any(abs((y - ay) * ux - (x - ax) * uy) > 2 * tolerance for x, y in mine):
        return 0.0
    start, end = (((x - ax) * ux + (y - ay) * uy) for x, y in mine)
    return max(0.0, min(length, end) - max(0.0, start))

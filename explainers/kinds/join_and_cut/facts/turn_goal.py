"""Why a piece turns as it does: how its marked side lies, how it must lie, and on which side of it the piece must end.

Sides are told as they are seen: the piece as the sheet shows it, its partner as the work table does. A direction is
named only where it is plainly so; any other is compared with the partner's.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from ....choice import fingerprint
from ....choice.fact import Fact, Stated
from ....geometry.angles import bearing_deg, wrapped_deg
from ....geometry.locate import contains, span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, RigidMotion, Ring, Side, Similarity
from ....geometry.rings import point_in_polygon, signed_area, without_needless_corners
from ....geometry.side import left_normal, midpoint
from ....geometry.tolerance import MEANT_DEG, PLAIN_DEG
from ....words.names import is_half_turn, is_no_turn, the_piece
from ..model import Does
from ..solving.solution import JoinAndCutSolution
from ..words import turning as words
from ..words.turning import Hand, Place, Slope

__all__ = ["TurnGoalFact", "turn_goal_fact"]

_OFF = 3.0  # tolerances from a side: how far off it is asked what lies there
_STEPS: dict[Hand, Point] = {
    Hand.LEFT: (-1.0, 0.0),
    Hand.RIGHT: (1.0, 0.0),
    Hand.ABOVE: (0.0, 1.0),
    Hand.BELOW: (0.0, -1.0),
}


class _Way(StrEnum):
    """What the turn has to do."""

    NONE = "none"
    HALF = "half"
    PART = "part"


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnGoalFact(Fact):
    """How the marked side of a piece lies and must lie, and on which side of it the piece lies and must lie."""

    name: str
    does: Does
    turn_deg: float  # in (-180, 180]
    shown_ring: Ring  # the piece as the sheet shows it, turned about the origin of its own coordinates; anticlockwise
    shown_side: Side  # its marked side there, walked with the piece on the left
    partner: Side  # the side that it must meet, walked with the partner's material on the left; base's coordinates
    before: Outline  # the outline that it meets
    slope: Slope  # of the marked side as it is shown
    hand: Hand  # on which side of it the piece lies
    goal_slope: Slope  # of the partner
    goal_hand: Hand  # on which side of the partner the piece must lie
    place: Place  # what is there

    def holds(self) -> bool:
        """Both sides slant as is said, and a step off each the piece, the cloth or nothing is found as is said.

        The turn takes the one direction to the other.
        """
        own = span_on((self.shown_ring,), self.shown_side, self.tolerance)
        other = span_on(self.before.rings, self.partner, self.tolerance)
        if own is None or other is None or not own.forward or not other.forward or signed_area(self.shown_ring) <= 0.0:
            return False
        if self.slope is not _slope_of(self.shown_side) or self.goal_slope is not _slope_of(self.partner):
            return False
        return self._turns() and self._lies() and self._belongs(other.whole)

    def _turns(self) -> bool:
        """Whether the turn takes the marked side to the direction of its goal."""
        turned = RigidMotion(turn_deg=self.turn_deg).apply(self.shown_side)
        goal = self.partner[::-1] if self.does is Does.JOIN else self.partner
        ways = [(end[0] - start[0], end[1] - start[1]) for start, end in (turned, goal)]
        return -180.0 < self.turn_deg <= 180.0 and math.dist(*ways) <= 3.0 * self.tolerance

    def _lies(self) -> bool:
        """Whether the piece lies on the named side of its mark, and not on the other."""
        here, there = self._beside(self.shown_side, self.hand)
        return point_in_polygon(here, (self.shown_ring,)) and not point_in_polygon(there, (self.shown_ring,))

    def _belongs(self, whole: Side) -> bool:
        """Whether the named place is on the named side of the partner, and the other sort on its other side."""
        here, there = self._beside(self.partner, self.goal_hand)
        on_hole = any(whole[0] in hole and whole[1] in hole for hole in self.before.holes)
        place = Place.INSIDE if self.does is Does.CUT else Place.HOLE if on_hole else Place.OUTSIDE
        is_cloth = contains(self.before, here)
        return (
            self.place is place
            and is_cloth is (place is Place.INSIDE)
            and contains(self.before, there) is (place is not Place.INSIDE)
        )

    def _beside(self, side: Side, hand: Hand) -> tuple[Point, Point]:
        """A point on the named side of the middle of a side, and one on the other side."""
        (x, y), (dx, dy), off = midpoint(side), _STEPS[hand], _OFF * self.tolerance
        return (x + off * dx, y + off * dy), (x - off * dx, y - off * dy)

    @property
    def _way(self) -> _Way:
        if is_no_turn(self.turn_deg):
            return _Way.NONE
        return _Way.HALF if is_half_turn(self.turn_deg) else _Way.PART

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """How both sides lie, and where the piece must."""
        shown = fingerprint.points(self.shown_side, fingerprint.lower_left(self.shown_ring))
        told = (self.slope.value, self.hand.value, self.goal_slope.value, self.goal_hand.value, self.place.value)
        return ("turn goal", self.name, shown, fingerprint.points(self.partner, origin), *told)

    def stated(self) -> Stated:
        """The piece; how far it turns is another fact's."""
        return Stated(pieces=(self.name,), is_moved=True, corner_count=len(self.shown_ring))

    def reason(self) -> tuple[str, ...]:
        """What is seen before the piece turns: how both sides lie, and where the piece belongs."""
        belongs = words.belongs(the_piece(self.name), self.place, self.goal_hand)
        if self._way is _Way.PART:
            return (words.sides_differ(self.slope, self.goal_slope), belongs)
        if self._way is _Way.HALF:
            return (self._alike(), belongs, words.lies_wrongly(self.hand))
        return (self._alike(), belongs)

    def _alike(self) -> str:
        return words.sides_alike(self.slope if self.slope is self.goal_slope else Slope.UNNAMED)

    def on_sheet(self) -> str:
        """In one sentence, after how far the piece turns: when to stop, or why it needs no turn, or half a one."""
        match self._way:
            case _Way.NONE:
                return self._alike()
            case _Way.HALF:
                return words.then_lies(self.goal_hand)
        return words.stop_when(self.goal_slope)

    def doing(self) -> tuple[str, ...]:
        """What is done, and when to stop."""
        match self._way:
            case _Way.NONE:
                return words.no_turn(self.hand)
            case _Way.HALF:
                return words.half_turn(the_piece(self.name))
        until, size = words.turn_until(self.turn_deg, self.goal_slope), words.size_of_turn(self.turn_deg)
        # The marked side comes to lie like its partner twice in a whole turn, and the nearer of the two may be wrong.
        if not 90.0 + PLAIN_DEG < abs(self.turn_deg) < 180.0 - PLAIN_DEG:
            return (until, size)
        return (until, words.other_way(self.goal_hand.opposite, is_anticlockwise=self.turn_deg < 0.0), size)

    def narration(self) -> tuple[str, ...]:
        """Why the piece turns, how, and how far that is."""
        return (*self.reason(), *self.doing())

    def as_line(self) -> str:
        """As a plain line."""
        lies = f"its marked side {self.slope.plain}, the piece {self.hand.plain} it"
        return f"{the_piece(self.name)}: {lies}; its partner {self.goal_slope.plain}, to lie {self.goal_hand.plain} it"


def turn_goal_fact(solution: JoinAndCutSolution, index: int) -> TurnGoalFact:
    """Why the piece of this number turns as it does."""
    placement = solution.placements[index]
    piece, tolerance = placement.piece, solution.tolerance
    turned = Similarity(turn_deg=wrapped_deg(piece.turned))
    corners = piece.corners if signed_area(piece.corners) > 0 else piece.corners[::-1]
    ring = without_needless_corners(turned.apply(corners), tolerance)  # a mark may run on over a needless corner
    side = turned.apply_side(piece.side)
    found = span_on((ring,), side, tolerance)
    side = side if found is None or found.forward else side[::-1]
    joins = placement.piece.does is Does.JOIN
    goal = placement.partner[::-1] if joins else placement.partner
    whole = span_on(placement.before.rings, placement.partner, tolerance)
    on_hole = whole is not None and any(set(whole.whole) <= set(hole) for hole in placement.before.holes)
    return TurnGoalFact(
        tolerance=tolerance,
        name=piece.name,
        does=piece.does,
        turn_deg=placement.turn_deg,
        shown_ring=ring,
        shown_side=side,
        partner=placement.partner,
        before=placement.before,
        slope=_slope_of(side),
        hand=_hand_of(side),
        goal_slope=_slope_of(placement.partner),
        goal_hand=_hand_of(goal),
        place=(Place.HOLE if on_hole else Place.OUTSIDE) if joins else Place.INSIDE,
    )


def _slope_of(side: Side) -> Slope:
    """How a side lies; walked either way."""
    deg = bearing_deg(*side) % 180.0
    for named_deg, slope in ((0.0, Slope.FLAT), (45.0, Slope.RISING), (90.0, Slope.UPRIGHT), (135.0, Slope.FALLING)):
        if _apart_deg(deg, named_deg) <= MEANT_DEG:
            return slope
    return Slope.SLANTED if min(_apart_deg(deg, 0.0), _apart_deg(deg, 90.0)) >= PLAIN_DEG else Slope.UNNAMED


def _apart_deg(deg: float, other_deg: float) -> float:
    """The angle between two lines, in [0, 90]."""
    apart = abs(deg - other_deg) % 180.0
    return min(apart, 180.0 - apart)


def _hand_of(side: Side) -> Hand:
    """On which side of a side the left of its walk is: beside a steep one, above or below any other."""
    x, y = left_normal(side)
    steep = _apart_deg(bearing_deg(*side) % 180.0, 90.0) < 45.0 - MEANT_DEG
    if steep:
        return Hand.RIGHT if x > 0.0 else Hand.LEFT
    return Hand.ABOVE if y > 0.0 else Hand.BELOW

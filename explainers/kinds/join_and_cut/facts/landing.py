"""The fact that a piece laid by hand lies where a known slip leads, or where it must.

Whoever lays a piece by hand never lays it exactly. A landing therefore stands for every pose near it: the piece turned
by at most ``near_deg`` about its middle from there, and its middle at most ``near`` away. What is claimed of a landing
is true of all these poses, and ``holds`` proves it so.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from ....choice.fact import Fact
from ....geometry.angles import wrapped_deg
from ....geometry.locate import contains, distance_to_boundary, nearest_corner, span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, RigidMotion, Ring, Side
from ....geometry.rings import sides
from ....geometry.tolerance import MEANT_DEG
from ....words.mark_names import the_mark, the_marks, the_other_mark
from ....words.messages import message, say
from ....words.names import sentence_case, the_piece
from ..model import Does, Piece
from ..solving.placement import Placement
from ..words.own_verbs import say_action

__all__ = ["LandingFact", "LandingKind", "farthest_moved"]

_HAND_TYPED = 2.0  # tolerances: marks and sides may each be typed so far off


class LandingKind(StrEnum):
    """How a piece comes to lie wrongly by turning and sliding alone, the plainest first."""

    SAME_PLACE = "same-place"  # it covers the very place, but other sides of it meet
    NOT_TURNED = "not-turned"
    TURNED_BACK = "turned-back"
    WRONG_SIDE = "wrong-side"  # the marks lie together end for end: a join over its partner, a cut beside it
    OTHER_MARK = "other-mark"  # at the mark of a later piece
    NEXT_SIDE = "next-side"
    SIDE_BEFORE = "side-before"
    SLID = "slid"  # at the marked side, off the mark
    OTHER_SIDE = "other-side"  # another side of the piece, equally long, meets the mark


@dataclass(frozen=True, slots=True, kw_only=True)
class LandingFact(Fact):
    """A piece lies where one slip leads, all pieces before it lying as they must.

    All places stand in the base's coordinates.
    """

    kind: LandingKind
    placement: Placement  # where the piece truly lies
    motion: RigidMotion  # from the piece's own coordinates to where it lies now
    middle: Point  # of the piece where it truly lies: what it turns about
    near_deg: float
    near: float
    other: Placement | None = None  # OTHER_MARK: the piece whose mark it is
    astray: Point | None = None  # a point that the piece covers and a rightly laid one never would: see `is_astray`

    @property
    def piece(self) -> Piece:
        """The piece in its own coordinates."""
        return self.placement.piece

    @property
    def turn_deg(self) -> float:
        """From the piece as the sheet shows it to how it lies now."""
        return wrapped_deg(self.motion.turn_deg - self.piece.turned)

    @property
    def at(self) -> Point:
        """Where its middle lies now."""
        return self.motion.apply_point(self.placement.motion.inverse().apply_point(self.middle))

    @property
    def ring(self) -> Ring:
        """The piece where it lies now, anticlockwise."""
        own = Outline.of(self.piece.corners).simplified(self.tolerance).exterior
        return self.motion.apply(own)

    def holds(self) -> bool:
        """It lies as its kind says, plainly away from where it must, and covers the point that it is said to cover."""
        if not self._is_apart() or (self.astray is not None and not self.is_astray(self.astray)):
            return False
        match self.kind:
            case LandingKind.SAME_PLACE:
                return self._covers_the_same()
            case LandingKind.NOT_TURNED:
                return abs(self.turn_deg) <= MEANT_DEG and self._turn_is_off() and self._middles_meet()
            case LandingKind.TURNED_BACK:
                back = abs(wrapped_deg(self.turn_deg + self.placement.turn_deg)) <= MEANT_DEG
                # However it lies near there, it has been turned the other way by less than half a turn.
                plainly = self.near_deg < abs(self.turn_deg) < 180.0 - self.near_deg
                return back and plainly and self._turn_is_off() and self._middles_meet()
            case LandingKind.WRONG_SIDE:
                return self._mark_lies_at(self._goal(self.placement.partner)[::-1])
            case LandingKind.OTHER_MARK:
                return self._is_at_another_mark()
            case LandingKind.NEXT_SIDE:
                return self._is_at_the_side(1)
            case LandingKind.SIDE_BEFORE:
                return self._is_at_the_side(-1)
            case LandingKind.SLID:
                return self._is_at_the_side(0)
            case LandingKind.OTHER_SIDE:
                return self._another_side_meets()
        return False

    def is_astray(self, point: Point) -> bool:
        """Whether the piece covers a point, wherever near its pose it lies, that a rightly laid one never does.

        That is a point of the outline for a piece to join, and one outside it for a piece to cut away.
        """
        before = self.placement.before
        if contains(before, point) is (self.piece.does is Does.CUT):
            return False
        if distance_to_boundary(point, before) <= self.tolerance:
            return False
        ring = Outline(self.ring)
        clear = farthest_moved(math.dist(point, self.at), near=self.near, near_deg=self.near_deg)
        return contains(ring, point) and distance_to_boundary(point, ring) > clear

    def _goal(self, side: Side) -> Side:
        """A side of the outline as a mark that meets it runs."""
        return side[::-1] if self.piece.does is Does.JOIN else side

    def _is_apart(self) -> bool:
        return self._turn_is_off() or math.dist(self.at, self.middle) > 2.0 * self.near

    def _turn_is_off(self) -> bool:
        return abs(wrapped_deg(self.turn_deg - self.placement.turn_deg)) > 2.0 * self.near_deg

    def _mark(self) -> Side:
        """The piece's mark where it lies now, as the piece's ring runs."""
        found = span_on((self.ring,), self.motion.apply(self.piece.side), self.tolerance)  # type: ignore[arg-type]
        if found is None:
            raise ValueError(f"the mark of {self.piece.name} is not on it")
        return found.part

    def _middles_meet(self) -> bool:
        return math.dist(_middle(self._mark()), _middle(self.placement.partner)) <= _HAND_TYPED * self.tolerance

    def _mark_lies_at(self, goal: Side) -> bool:
        return all(math.dist(*ends) <= _HAND_TYPED * self.tolerance for ends in zip(self._mark(), goal, strict=True))

    def _covers_the_same(self) -> bool:
        moved, placed = self.ring, self.placement.motion.apply(self._own())
        reach = _HAND_TYPED * self.tolerance
        covers = all(nearest_corner(corner, placed)[0] <= reach for corner in moved)
        return covers and self._turn_is_off()

    def _own(self) -> Ring:
        return Outline.of(self.piece.corners).simplified(self.tolerance).exterior

    def _is_at_another_mark(self) -> bool:
        if self.other is None or self.other.piece.mark == self.piece.mark:
            return False
        goal, mark = self._goal(self.other.partner), self._mark()
        return math.dist(_middle(goal), _middle(mark)) <= _HAND_TYPED * self.tolerance and _run_alike(goal, mark)

    def _is_at_the_side(self, step: int) -> bool:
        """Whether its mark lies along the side so many after the one that it must meet, going anticlockwise."""
        before = self.placement.before
        partner = span_on(before.rings, self.placement.partner, self.tolerance)
        mark = self._mark()
        if partner is None:
            return False
        for ring in before.rings:
            walked = sides(ring)
            if partner.whole in walked:
                side = walked[(walked.index(partner.whole) + step) % len(walked)]
                # Not held to end on it: a mark that fills its side and has slid sticks out at one end.
                there = _nearest_on_line(mark, side) <= _HAND_TYPED * self.tolerance
                return there and _run_alike(self._goal(side), mark) and _overlap(mark, side) > 0.0
        return False

    def _another_side_meets(self) -> bool:
        goal = self._goal(self.placement.partner)
        reach = _HAND_TYPED * self.tolerance
        marked = span_on((self.ring,), self._mark(), self.tolerance)
        return any(
            marked is not None
            and side != marked.whole
            and max(math.dist(side[0], goal[0]), math.dist(side[1], goal[1])) <= reach
            for side in sides(self.ring)
        )

    def when_laid(self, *, is_first: bool) -> tuple[str, ...]:
        """To a learner who has laid the piece here: what is wrong, and what to try.

        True however near to here the piece lies, so none says that marks touch or that a turn is exact.
        is_first : whether nothing has been done to the base yet; it is called a shape else
        """
        piece, mark = the_piece(self.piece.name), self.piece.mark
        marks, other_mark = the_marks(mark), the_other_mark(mark)
        words: tuple[str, ...]
        match self.kind:
            case LandingKind.SAME_PLACE:
                words = (
                    say("Like this, {piece} would fit too, but {marks} do not meet.", piece=piece, marks=marks),
                    say("Turn it until they do."),
                )
            case LandingKind.NOT_TURNED:
                words = (
                    sentence_case(say("{piece} is hardly turned.", piece=piece)),
                    *self._astray(is_first=is_first),
                    say("It must turn before the marks can meet."),
                )
            case LandingKind.TURNED_BACK:
                words = (
                    sentence_case(say("{piece} is turned the wrong way.", piece=piece)),
                    *self._astray(is_first=is_first),
                    say("Put it back and turn it the other way."),
                )
            case LandingKind.WRONG_SIDE:
                words = (
                    sentence_case(
                        say(
                            "{marks} are close together, but {piece} lies on the wrong side of them.",
                            piece=piece,
                            marks=marks,
                        )
                    ),
                    *self._astray(is_first=is_first),
                    _should_lie(self.piece.does),
                )
            case LandingKind.OTHER_MARK if self.other is not None:
                words = (
                    sentence_case(say("{piece} is at {mark}.", piece=piece, mark=the_mark(self.other.piece.mark))),
                    say("It has {mark}: look for {other_mark}.", mark=the_mark(mark), other_mark=other_mark),
                )
            case LandingKind.NEXT_SIDE:
                if is_first:
                    where = say("{piece} is at the next side of the base.", piece=piece)
                else:
                    where = say("{piece} is at the next side of the shape.", piece=piece)
                words = (sentence_case(where), sentence_case(say("{other_mark} is not there.", other_mark=other_mark)))
            case LandingKind.SIDE_BEFORE:
                words = (
                    sentence_case(say("{piece} is at the side before the marked one.", piece=piece)),
                    sentence_case(say("{other_mark} is not there.", other_mark=other_mark)),
                )
            case LandingKind.SLID:
                words = (
                    sentence_case(say("{piece} is at the marked side, but off its mark.", piece=piece)),
                    say("Slide it along that side until {marks} meet.", marks=marks),
                )
            case LandingKind.OTHER_SIDE:
                words = (
                    say("Another side of {piece} is at {other_mark}.", piece=piece, other_mark=other_mark),
                    say("Its marked side must meet that mark."),
                )
            case _:
                raise TypeError(f"no words are known for a landing called {self.kind!r}")
        return words

    def _astray(self, *, is_first: bool) -> tuple[str, ...]:
        """What the piece covers that it must not; nothing where that does not hold of every pose near by."""
        if self.astray is None:
            return ()
        if self.piece.does is Does.JOIN:
            if is_first:
                return (say("It lies over a part of the base."),)
            return (say("It lies over a part of the shape."),)
        if is_first:
            return (say("A part of it lies outside the base."),)
        return (say("A part of it lies outside the shape."),)


def _should_lie(does: Does) -> str:
    if does is Does.CUT:
        return say_action(message("A piece to cut away lies on top of the shape."))
    return say_action(message("A piece to join lies beside the shape."))


def farthest_moved(distance: float, *, near: float, near_deg: float) -> float:
    """How far a point at this distance from a piece's middle may lie from where it lies in a pose near by."""
    return near + 2.0 * math.sin(math.radians(near_deg / 2.0)) * (distance + near)


def _middle(side: Side) -> Point:
    return (side[0][0] + side[1][0]) / 2, (side[0][1] + side[1][1]) / 2


def _along(side: Side, other: Side) -> tuple[float, float]:
    """(cosine, sine) of the angle from one side to another."""
    ax, ay = side[1][0] - side[0][0], side[1][1] - side[0][1]
    bx, by = other[1][0] - other[0][0], other[1][1] - other[0][1]
    size = math.hypot(ax, ay) * math.hypot(bx, by)
    return (ax * bx + ay * by) / size, (ax * by - ay * bx) / size


def _run_alike(side: Side, other: Side) -> bool:
    cos, sin = _along(side, other)
    return cos > 0.0 and abs(sin) <= math.sin(math.radians(10.0 * MEANT_DEG))


def _nearest_on_line(mark: Side, side: Side) -> float:
    """How far the middle of a mark is from the straight line through a side."""
    (ax, ay), (bx, by) = side
    x, y = _middle(mark)
    return abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / math.dist(*side)


def _overlap(mark: Side, side: Side) -> float:
    """How much of a side a mark that runs along it covers; less than nothing where it lies beyond an end."""
    (ax, ay), (bx, by) = side
    length = math.dist(*side)
    places = sorted(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length for x, y in mark)
    return min(places[1], length) - max(places[0], 0.0)

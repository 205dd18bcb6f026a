"""Where a piece may come to lie by a known slip, when it is turned and slid by hand.

The slips are those of ``slips``, as far as turning and sliding the one piece alone leads there: turning over, another
size or leaving the piece out cannot come of moving it. Besides these, two things happen only to hands: another side of
the piece, equally long, is brought to the mark, and a piece that looks the same in several positions fits in a wrong
one. Whether a slip gives a legal outline does not matter here: a hand can lay a piece anywhere.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import shapely

from ....choice.slip import CannotBeMade, SlipCase
from ....geometry.angles import bearing_deg, wrapped_deg
from ....geometry.congruence import motions_onto
from ....geometry.locate import SideSpan, span_on
from ....geometry.outline import Outline
from ....geometry.overlay import polygon
from ....geometry.rigid_motion import Point, RigidMotion, Side
from ....geometry.rings import sides
from ....geometry.side import midpoint
from ....geometry.tolerance import authoring_tolerance
from ..facts.landing import LandingFact, LandingKind
from ..model import BASE, Does, Item, Piece
from ..slips.model import SolvedItem
from ..slips.registry import taken, untouched
from .placement import Placement

__all__ = ["landings"]

_SLIPS = {
    LandingKind.NOT_TURNED: "not-turned",
    LandingKind.TURNED_BACK: "turned-back",
    LandingKind.WRONG_SIDE: "other-way-round",
    LandingKind.NEXT_SIDE: "next-side",
    LandingKind.SIDE_BEFORE: "side-before",
    LandingKind.SLID: "slid",
}
_DEPTHS = tuple(share / 12.0 for share in range(11, 0, -1))  # of the deepest point: where a piece is looked into


def landings(
    item: Item, placements: tuple[Placement, ...], index: int, *, middle: Point, near_deg: float, near: float
) -> tuple[LandingFact, ...]:
    """The wrong poses of the piece of this number, the plainest slip first; no two are near each other.

    placements : all of the item's
    middle     : of the piece where it truly lies, base's coordinates
    near_deg, near : what counts as lying there; near in item units
    """
    found: list[LandingFact] = []
    for kind in LandingKind:
        for motion, other in _motions(kind, item, placements, index):
            fact = LandingFact(
                tolerance=authoring_tolerance(item.extent),
                kind=kind,
                placement=placements[index],
                motion=motion,
                middle=middle,
                near_deg=near_deg,
                near=near,
                other=other,
            )
            if fact.holds() and not any(_is_near(fact, earlier) for earlier in found):
                found.append(replace(fact, astray=_astray(fact)))
    return tuple(found)


def _is_near(fact: LandingFact, other: LandingFact) -> bool:
    turned = abs(wrapped_deg(fact.turn_deg - other.turn_deg))
    return turned <= fact.near_deg and math.dist(fact.at, other.at) <= fact.near


def _motions(
    kind: LandingKind, item: Item, placements: tuple[Placement, ...], index: int
) -> Iterator[tuple[RigidMotion, Placement | None]]:
    """The ways to lay the piece so, with the piece whose mark is taken for its own."""
    placement = placements[index]
    tolerance = authoring_tolerance(item.extent)
    own = _own(placement.piece, placement.piece.side, tolerance)
    if own is None:
        return
    if kind is LandingKind.SAME_PLACE:
        for motion in _same_place(placement, tolerance):
            yield motion, None
    elif kind is LandingKind.OTHER_SIDE:
        for motion in _by_another_side(placement, own, tolerance):
            yield motion, None
    elif kind is LandingKind.OTHER_MARK:
        for later in _later_marks(placements, index):
            span = span_on(placement.before.rings, later.partner, tolerance)
            if span is not None:
                yield _laid(own, _goal(span, placement.piece.does)), later
    else:
        solved_item = SolvedItem(
            item=item, placements=placements, outline=placements[-1].after, piece=placement.piece.name
        )
        for motion in _by_slip(_SLIPS[kind], solved_item, placements[:index], tolerance):
            yield motion, None


def _by_slip(
    slip: str, solved_item: SolvedItem, earlier: tuple[Placement, ...], tolerance: float
) -> Iterator[RigidMotion]:
    """How the piece lies in each way in which the slip happens to it."""
    try:
        works = taken(untouched(solved_item), SlipCase(slip=slip, subject=solved_item.piece), solved_item)
    except CannotBeMade:
        return
    for work in works:
        piece = work.piece(solved_item.piece)
        own = _own(piece, piece.side, tolerance)
        partner = span_on(solved_item.placement.before.rings, _meets(piece, earlier), tolerance)
        if own is not None and partner is not None:
            yield _laid(own, _goal(partner, piece.does), turn_deg=dict(work.slip_turns).get(piece.name), piece=piece)


def _meets(piece: Piece, earlier: tuple[Placement, ...]) -> Side:
    """What a piece meets, in the base's coordinates."""
    if piece.of == BASE:
        return piece.meets
    host = next(placement for placement in earlier if placement.piece.name == piece.of)
    a, b = host.motion.apply(piece.meets)
    return a, b


def _later_marks(placements: tuple[Placement, ...], index: int) -> Iterator[Placement]:
    """Later pieces whose partner's mark is seen already."""
    there = {BASE, *(placement.piece.name for placement in placements[:index])}
    for later in placements[index + 1 :]:
        if later.piece.of in there:
            yield later


def _same_place(placement: Placement, tolerance: float) -> Iterator[RigidMotion]:
    """The other positions in which the piece covers the place where it lies."""
    shape = Outline.of(placement.piece.corners).simplified(tolerance)
    for again in motions_onto(shape, shape, tolerance):
        first = RigidMotion(turn_deg=again.turn_deg, shift=again.shift)
        moved = placement.motion.after(first)
        yield RigidMotion(turn_deg=moved.turn_deg, shift=moved.shift)


def _by_another_side(placement: Placement, own: SideSpan, tolerance: float) -> Iterator[RigidMotion]:
    """Every other side of the piece that is as long as the mark, laid at its partner."""
    partner = span_on(placement.before.rings, placement.partner, tolerance)
    ring = Outline.of(placement.piece.corners).simplified(tolerance).exterior
    for side in sides(ring) if partner is not None else ():
        if side != own.whole and abs(math.dist(*side) - math.dist(*own.part)) <= tolerance:
            span = span_on((ring,), side, tolerance)
            if span is not None and partner is not None:
                yield _laid(span, _goal(partner, placement.piece.does))


def _own(piece: Piece, side: Side, tolerance: float) -> SideSpan | None:
    return span_on((Outline.of(piece.corners).simplified(tolerance).exterior,), side, tolerance)


def _goal(span: SideSpan, does: Does) -> SideSpan:
    """A span of the outline as a mark that meets it runs: joined, the two walks run against each other."""
    if does is Does.CUT:
        return span
    return SideSpan(whole=span.whole[::-1], part=span.part[::-1], forward=not span.forward)


def _laid(own: SideSpan, goal: SideSpan, *, turn_deg: float | None = None, piece: Piece | None = None) -> RigidMotion:
    """The mark laid along a goal, middle on middle; or turned by so much from how the sheet shows it, along or not."""
    if turn_deg is not None and piece is not None:
        turned = wrapped_deg(piece.turned + turn_deg)
    else:
        turned = wrapped_deg(bearing_deg(*goal.whole) - bearing_deg(*own.whole))
    x, y = RigidMotion(turn_deg=turned).apply_point(midpoint(own.part))
    there = midpoint(goal.part)
    return RigidMotion(turn_deg=turned, shift=(there[0] - x, there[1] - y))


def _astray(fact: LandingFact) -> Point | None:
    """A point that proves, of every pose near by, that the piece lies over its partner, or a cut outside it."""
    shape, before = polygon(Outline(fact.ring)), polygon(fact.placement.before)
    deepest = float(shapely.maximum_inscribed_circle(shape, tolerance=1e-2 * math.sqrt(shape.area)).length)
    wrong = before if fact.piece.does is Does.JOIN else shape.difference(before)
    for depth in _DEPTHS:  # the deeper in the piece, the farther it may be moved
        inside = shapely.intersection(shapely.buffer(shape, -depth * deepest), wrong)
        if inside.is_empty:
            continue
        point = shapely.point_on_surface(inside)
        if fact.is_astray((point.x, point.y)):
            return point.x, point.y
    return None

"""For each kind of fact: it holds where it was found, and not when the place or the figure it speaks of is moved."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from typing import Any

import pytest
from small_items import SQUARE, flag, item
from strategies import random_case

from explainers.choice.differences import KINDS
from explainers.choice.differences.corner_angle import CornerAngleFact
from explainers.choice.differences.corner_count import CornerCountFact
from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.differences.extra_part import ExtraPartFact
from explainers.choice.differences.hole import HoleFact, HolePlace
from explainers.choice.differences.mirror import MirrorFact
from explainers.choice.differences.missing_part import MissingPartFact
from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_length import SideLengthFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.fact import Fact
from explainers.choice.finished import OutlineFact, outline_fact
from explainers.choice.model import Solution
from explainers.choice.question import Option
from explainers.choice.same import SameFact
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point, RigidMotion, Ring, Similarity
from explainers.kinds.join_and_cut.facts.change import ChangeFact, change_fact
from explainers.kinds.join_and_cut.facts.meet import MeetFact, meet_fact
from explainers.kinds.join_and_cut.facts.piece import PieceFact, piece_fact
from explainers.kinds.join_and_cut.facts.strategy import PieceStrategyFact, piece_candidates
from explainers.kinds.join_and_cut.facts.turn import TurnFact, turn_fact
from explainers.kinds.join_and_cut.model import Does
from explainers.kinds.join_and_cut.solving.solver import solve

ALL_KINDS = {*KINDS, SameFact, OutlineFact, PieceFact, TurnFact, MeetFact, ChangeFact, PieceStrategyFact}
AWAY = 0.37  # item units, in a direction that lies along no side of the lattice


def shifted(points: Ring) -> Any:
    return tuple((x + AWAY, y + 0.61 * AWAY) for x, y in points)


def away(point: Point) -> Point:
    return shifted((point,))[0]


def aside(side: tuple[Point, Point]) -> tuple[Point, Point]:
    """A side moved at right angles to itself, for pieces in coordinates of their own may lie any way."""
    (ax, ay), (bx, by) = side
    return (ax - 0.1 * (by - ay), ay + 0.1 * (bx - ax)), (bx - 0.1 * (by - ay), by + 0.1 * (bx - ax))


def moved(outline: Outline) -> Outline:
    return Outline(shifted(outline.exterior), tuple(shifted(hole) for hole in outline.holes))


def facts_of(solution: Solution) -> Iterator[Fact]:
    for index in range(len(solution.placements)):
        yield from (maker(solution, index) for maker in (piece_fact, turn_fact, meet_fact, change_fact))
    yield outline_fact(solution.outline, solution.tolerance)
    yield from (candidate.fact for candidate in piece_candidates(solution))
    for verdict in solution.verdicts:
        yield from verdict.reasons


def falsified(fact: Fact) -> Iterator[tuple[str, Fact]]:
    """Every way to move what the fact speaks of, each of which makes it false."""
    match fact:
        case PieceFact():
            piece = fact.piece
            yield "side", replace(fact, piece=replace(piece, side=aside(piece.side)))
            yield "meets", replace(fact, piece=replace(piece, meets=(piece.meets[0], away(piece.meets[1]))))
        case TurnFact():
            yield "turn", replace(fact, turn_deg=fact.turn_deg - 1.0 if fact.turn_deg > 0 else fact.turn_deg + 1.0)
            yield "other way", replace(fact, shown_ring=fact.shown_ring[::-1], placed_ring=fact.placed_ring[::-1])
            yield "corner", replace(fact, placed_ring=(away(fact.placed_ring[0]), *fact.placed_ring[1:]))
        case MeetFact():
            yield "side", replace(fact, side=shifted(fact.side))
            yield "partner", replace(fact, partner=shifted(fact.partner))
            yield "ring", replace(fact, ring=shifted(fact.ring))
            yield "does", replace(fact, does=Does.CUT if fact.does is Does.JOIN else Does.JOIN)
        case ChangeFact():
            yield "ring", replace(fact, ring=shifted(fact.ring))
            yield "after", replace(fact, after=fact.before)
            yield "area", replace(fact, area_after=fact.area_after + 0.1)
            yield "piece area", replace(fact, piece_area=fact.piece_area + 0.1)
        case OutlineFact():
            yield "corners", replace(fact, corners=fact.corners + 1)
            yield "holes", replace(fact, holes=fact.holes + 1)
            yield "area", replace(fact, area=fact.area + 0.1)
        case SameFact():
            motion = fact.motion
            yield (
                "motion",
                replace(
                    fact, motion=Similarity(turn_deg=motion.turn_deg, shift=away(motion.shift), scale=motion.scale)
                ),
            )
            yield "turn", replace(fact, turn_deg=fact.turn_deg - 1.0 if fact.turn_deg > 0 else fact.turn_deg + 1.0)
            yield "shown", replace(fact, shown_turn_deg=fact.shown_turn_deg + 1.0)
            yield "option", replace(fact, option=moved(fact.option))
        case MirrorFact():
            yield "option", replace(fact, option=fact.option.mirrored())
            yield "outline", replace(fact, outline=fact.outline.mirrored())
        case DifferenceFact():
            yield from falsified_difference(fact)
        case PieceStrategyFact():
            yield "evidence", replace(fact, evidence=())
            for _, other in falsified(fact.evidence[-1]):
                yield "what shows it", replace(fact, evidence=(*fact.evidence[:-1], other))


def falsified_difference(fact: DifferenceFact) -> Iterator[tuple[str, Fact]]:
    left = min(x for x, _ in (*fact.option.exterior, *fact.outline.exterior))
    yield "ring", replace(fact, ring_centre=(left - 1.0, fact.ring_centre[1]))
    yield "place", replace(fact, place=moved(fact.place))
    yield "option", replace(fact, option=fact.outline)
    match fact:
        case CornerCountFact():
            yield "count", replace(fact, option_corners=fact.option_corners + 1)
            yield "other count", replace(fact, outline_corners=fact.outline_corners + 1)
            yield "corner", replace(fact, corner=away(fact.corner))
            yield "whose", replace(fact, on_option=not fact.on_option)
        case CornerAngleFact():
            yield "corner", replace(fact, corner=away(fact.corner))
            yield "angle", replace(fact, angle_deg=fact.angle_deg + 1.0)
        case SideLengthFact():
            yield "side", replace(fact, side=shifted(fact.side))
            yield "other side", replace(fact, other_side=shifted(fact.other_side))
            yield "length", replace(fact, length=fact.length + 0.1)
            yield "other length", replace(fact, other_length=fact.other_length + 0.1)
            yield "other way", replace(fact, side=fact.side[::-1])
        case PartElsewhereFact():
            yield "home", replace(fact, home=moved(fact.home))
            yield "here and home", replace(fact, place=fact.home, home=fact.place)
            yield "side", replace(fact, side=shifted(fact.side))
            yield "home side", replace(fact, home_side=shifted(fact.home_side))
            yield "one side", replace(fact, home_side=fact.side)
            yield "other sides", replace(fact, side=fact.home_side, home_side=fact.side)
            yield "next to each other", replace(fact, adjacent=not fact.adjacent)
            yield "filled", replace(fact, filled=not fact.filled)
        case SideRatioFact():
            yield "ratio", replace(fact, ratio=fact.ratio + 0.1)
            yield "other ratio", replace(fact, other_ratio=fact.other_ratio + 0.1)
            yield "a side", replace(fact, pair=(shifted(fact.pair[0]), fact.pair[1]))
            yield "another side", replace(fact, other_pair=(fact.other_pair[0], shifted(fact.other_pair[1])))
            yield "in each other's place", replace(fact, pair=fact.pair[::-1], ratio=1.0 / fact.ratio)
            yield "other way", replace(fact, pair=(fact.pair[0][::-1], fact.pair[1][::-1]))
        case HoleFact():
            yield "count", replace(fact, option_holes=fact.option_holes + 1)
            yield "other count", replace(fact, outline_holes=fact.outline_holes + 1)
            yield from ((f"at a {at}", replace(fact, at=at)) for at in HolePlace if at is not fact.at)
        case ExtraPartFact() | MissingPartFact():
            yield "area", replace(fact, area=fact.area + 0.1)


def with_a_hole() -> Solution:
    """A frame as the result, and among the options a square without its hole."""
    hole = ((1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0))
    full = ((0.0, 0.0), (6.0, 0.0), (4.0, 2.0), (4.0, 4.0), (0.0, 4.0))
    options = (Option(), Option(corners=full), Option(corners=((0.0, 0.0), (3.0, 0.0), (0.0, 3.0))))
    return solve(item(flag(), base=SQUARE, holes=(hole,), options=options))


def test_each_kind_of_fact_holds_and_stops_holding_when_moved(cases: Callable[[int, int], int]) -> None:
    seen: Counter[type[Fact]] = Counter()
    solutions = [solve(random_case(seed).item) for seed in range(cases(40, 400))]
    for solution in (with_a_hole(), *solutions):
        for fact in facts_of(solution):
            seen[type(fact)] += 1
            assert fact.holds(), (solution.item.name, fact)
            for what, false in falsified(fact):
                assert not false.holds(), (solution.item.name, what, fact)
    assert set(seen) == ALL_KINDS


def test_extra_and_missing_are_not_to_be_confused() -> None:
    for seed in range(20):
        for verdict in solve(random_case(seed).item).verdicts:
            for fact in verdict.reasons:
                if isinstance(fact, ExtraPartFact):
                    shared = {field.name: getattr(fact, field.name) for field in fields(fact)}
                    assert not MissingPartFact(**shared).holds()


def test_every_reason_is_ringed_where_exactly_one_of_the_two_has_material() -> None:
    """Asked of shapely, which the facts do not ask."""
    import shapely

    for seed in range(40):
        for verdict in solve(random_case(seed).item).verdicts:
            for fact in verdict.reasons:
                if isinstance(fact, DifferenceFact):
                    spot = shapely.Point(fact.ring_centre)
                    sides = [
                        shapely.Polygon(shape.exterior, shape.holes).contains(spot)
                        for shape in (fact.option, fact.outline)
                    ]
                    assert sum(sides) == 1


def test_a_fact_of_no_kind_claims_nothing() -> None:
    with pytest.raises(NotImplementedError):
        Fact(tolerance=0.1).holds()


def test_turning_the_plane_changes_no_fact() -> None:
    """What is true of a place is true of it in every position: nothing may lean on the axes."""
    motion = RigidMotion(turn_deg=33.0, shift=(7.0, -2.0))
    for seed in range(10):
        solution = solve(random_case(seed).item)
        for index in range(len(solution.placements)):
            fact = meet_fact(solution, index)
            turned = replace(
                fact,
                side=motion.apply(fact.side),
                partner=motion.apply(fact.partner),
                ring=motion.apply(fact.ring),
                before=fact.before.moved(motion),
            )
            assert turned.holds()

"""The places that the facts of a step speak of, found from the facts and the question by the tests' own reckoning.

Kinds of corners come from ``oracles.counted``, so that what a sieve marks is held against what it says, not against
what it says that it marks. Places stand in the base's coordinates, each with the thing on which it is to be seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from oracles import counted

from explainers.choice.differences.corner_angle import CornerAngleFact
from explainers.choice.differences.corner_count import CornerCountFact
from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.differences.part_elsewhere import PartElsewhereFact
from explainers.choice.differences.side_length import SideLengthFact
from explainers.choice.differences.side_ratio import SideRatioFact
from explainers.choice.fact import Fact
from explainers.choice.finished import OutlineFact
from explainers.choice.model import Solution
from explainers.choice.same import SameFact
from explainers.choice.sieves.counts import Counted, CountSieve
from explainers.choice.sieves.lengths import LengthSieve
from explainers.choice.sieves.neighbours import BetweenSieve, NeighbourSieve
from explainers.choice.sieves.sieve import SieveFact
from explainers.choice.strategies import Strategy
from explainers.choice.strategy import StrategyFact
from explainers.choice.walk import WalkFact
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point, Ring, Side
from explainers.kinds.join_and_cut.facts.change import ChangeFact
from explainers.kinds.join_and_cut.facts.meet import MeetFact
from explainers.kinds.join_and_cut.facts.piece import PieceFact
from explainers.kinds.join_and_cut.facts.strategy import PieceStrategy
from explainers.kinds.join_and_cut.facts.tally import TallyFact
from explainers.kinds.join_and_cut.facts.turn import TurnFact
from explainers.kinds.join_and_cut.facts.turn_goal import TurnGoalFact
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution
from explainers.kinds.turned_outline.facts.landmark import LandmarkFact
from explainers.kinds.turned_outline.facts.strategy import OutlineStrategyFact
from explainers.storyboard.model import Step

__all__ = ["BASE", "OUTLINE", "Told", "of_choice", "option", "piece", "told_by"]

OUTLINE, BASE = "outline", "base"  # where a place is to be seen; the base means all that lies on the work table


def option(label: str) -> str:
    """Where a place on an option is to be seen."""
    return f"option {label}"


def piece(number: int) -> str:
    """Where a place on a piece is to be seen, counted from 1."""
    return f"piece {number}"


@dataclass
class Told:
    """What one fact speaks of, each with where it is to be seen."""

    points: list[tuple[str, Point]] = field(default_factory=list)
    circled: list[tuple[str, Point]] = field(default_factory=list)  # of the points: those that have a ring
    crossed: list[tuple[str, Point]] = field(default_factory=list)
    sides: list[tuple[str, tuple[Side, ...]]] = field(default_factory=list)  # any one of these: they are alike
    regions: list[tuple[str, Outline]] = field(default_factory=list)
    ringed: list[tuple[str, Outline]] = field(default_factory=list)  # of the regions: a ring stands at these
    wholes: list[str] = field(default_factory=list)  # options that are framed
    ways: list[tuple[str, tuple[Point, ...]]] = field(default_factory=list)  # where a marker may come by
    turn_deg: float | None = None  # shown by its words, and by an arc where it is any turn at all
    texts: list[str] = field(default_factory=list)  # written and pointed at
    apart: float = 0.0  # how far from its place a dot may stand, where several would lie on each other
    is_required: bool = True  # else it may be shown, and need not be


def told_by(step: Step, solution: Solution) -> list[Told]:
    """What the facts of a step speak of, as far as its sentences do."""
    return [told for fact in step.facts for told in _of(fact, step, solution, " ".join(step.narration))]


def of_choice(facts: Sequence[Fact], label: str) -> list[Told]:
    """What the facts of a choice speak of: the option alone is seen."""
    found = []
    for fact in facts:
        match fact:
            case SieveFact():
                found.append(_of_sieve(fact, outlines=False))
            case WalkFact():
                found.append(_of_walk(fact, outlines=False))
            case DifferenceFact():
                found.append(_of_difference_on_option(fact))
            case SameFact():
                found.append(Told(wholes=[label]))
    return found


def _of(fact: Fact, step: Step, solution: Solution, said: str) -> Iterator[Told]:
    match fact:
        case StrategyFact():
            yield from _of_strategy(fact, step, solution)
        case SieveFact():
            yield _of_sieve(fact)
        case WalkFact():
            yield _of_walk(fact)
        case DifferenceFact():
            yield _of_difference(fact)
        case SameFact():
            yield Told(wholes=[fact.label])
        case OutlineFact():
            yield from _of_outline(fact, step, said)
        case LandmarkFact():
            yield _of_landmark(fact, said)
        case TallyFact():
            places = [(BASE, place) for place, _ in (*fact.corners.stay, *fact.corners.vanish)]
            met, gone = ([(BASE, at) for at, _ in found] for found in (fact.corners.met, fact.corners.vanish))
            yield Told(points=places, circled=met, crossed=gone, texts=list(fact.sums()), apart=0.32)
        case PieceFact():
            sides = _marked_sides(fact.piece.name, step, solution)
            if step.subject is not None:  # else all marks of the sheet are named at once
                yield Told(sides=sides, is_required=fact.narration()[0] in said or "hint" in step.stage)
        case TurnFact():
            yield Told(turn_deg=fact.turn_deg)
        case TurnGoalFact():
            yield Told(sides=_marked_sides(fact.name, step, solution))
        case MeetFact():
            yield Told(sides=_marked_sides(fact.name, step, solution), is_required=False)


def _of_sieve(fact: SieveFact, *, outlines: bool = True) -> Told:
    told = Told()
    shapes = [(OUTLINE, fact.outline)] if outlines else []
    for owner, shape in (*shapes, *((option(each.label), each.outline) for each in fact.options)):
        points, sides = _counted(fact, shape)
        told.points += [(owner, point) for point in points]
        told.sides += [(owner, alike) for alike in sides]
    return told


def _counted(fact: SieveFact, shape: Outline) -> tuple[list[Point], list[tuple[Side, ...]]]:
    ring = shape.exterior
    kinds = [corner.kind for corner in counted.seen(ring)]
    walk = _sides(ring)
    match fact:
        case CountSieve(counted=Counted.HOLES):
            return [], [(side,) for hole in shape.holes for side in _sides(hole)]
        case CountSieve(counted=Counted.CORNERS):
            return list(ring), []
        case CountSieve():
            return [at for at, kind in zip(ring, kinds, strict=True) if kind == fact.counted.value], []
        case BetweenSieve():
            first, last = (index for index, kind in enumerate(kinds) if kind == fact.kind.value)
            is_shorter = last - first <= len(ring) - (last - first)
            between = walk[first:last] if is_shorter else walk[last:] + walk[:first]
            return [ring[first], ring[last]], [(side,) for side in between]
        case NeighbourSieve():
            wanted = {kind.value for kind in fact.kinds}
            found = [walk[i] for i in range(len(ring)) if {kinds[i], kinds[(i + 1) % len(ring)]} == wanted]
            ends = [end for side in found for end in side] or [
                at for at, kind in zip(ring, kinds, strict=True) if kind in wanted
            ]
            return list(dict.fromkeys(ends)), [(side,) for side in found]
        case LengthSieve():
            return _compared(fact.pair.value, ring, kinds)
    raise TypeError(f"no places are known for a {type(fact).__name__}")


def _compared(pair: str, ring: Ring, kinds: Sequence[str]) -> tuple[list[Point], list[tuple[Side, ...]]]:
    walk = _sides(ring)
    lengths = [math.dist(*side) for side in walk]
    longest = tuple(side for side, length in zip(walk, lengths, strict=True) if length >= max(lengths) * (1 - 1e-9))
    match pair.split("-"):
        case ["at", kind]:
            at = kinds.index(kind)
            return [ring[at]], [(walk[at - 1],), (walk[at],)]
        case ["gap", kind]:
            at = next(i for i in range(len(ring)) if kinds[i] == kinds[(i + 1) % len(ring)] == kind)
            return list(walk[at]), [(walk[at],), longest]
        case ["longest"]:
            two = sorted(lengths)[-2]
            next_longest = tuple(side for side, length in zip(walk, lengths, strict=True) if length >= two * (1 - 1e-9))
            return [], [longest, next_longest]
        case _:
            shortest = tuple(
                side for side, length in zip(walk, lengths, strict=True) if length <= min(lengths) * (1 + 1e-9)
            )
            return [], [longest, shortest]


def _of_walk(fact: WalkFact, *, outlines: bool = True) -> Told:
    told = Told()
    pairs = [(option(fact.label), fact.option)]
    for owner, shape in ([(OUTLINE, fact.outline)] if outlines else []) + pairs:
        path = fact.path_on(shape)
        told.points.append((owner, path[0]))
        told.circled.append((owner, path[0]))
        told.points += [(owner, corner) for corner in fact.corners_on(shape)]
        told.sides += [(owner, (side,)) for side in fact.sides_on(shape)]
        told.sides += [(owner, (side,)) for hole in fact.holes_on(shape) for side in _sides(hole)]
        told.ways.append((owner, fact.path_on(shape, whole=True)))
    return told


def _of_difference(fact: DifferenceFact) -> Told:
    """Where an option lies on the outline: its places are those of the outline too."""
    place = (OUTLINE, fact.place)
    told = Told(regions=[place], ringed=[place])
    match fact:
        case CornerAngleFact() | CornerCountFact():
            told.points = [(OUTLINE, fact.corner)]
        case SideLengthFact():
            told.sides = [(OUTLINE, (fact.side,)), (OUTLINE, (fact.other_side,))]
        case SideRatioFact():
            told.sides = [(OUTLINE, (side,)) for side in (*fact.pair, *fact.other_pair)]
        case PartElsewhereFact():
            told.sides = [(OUTLINE, (fact.side,))]
            told.regions.append((OUTLINE, fact.home))
    return told


def _of_difference_on_option(fact: DifferenceFact) -> Told:
    owner = option(fact.label)
    told = Told(regions=[(owner, fact.place)], ringed=[(owner, fact.place)])
    match fact:
        case CornerAngleFact():
            told.points = [(owner, fact.corner)]
        case CornerCountFact() if fact.on_option:
            told.points = [(owner, fact.corner)]
        case SideLengthFact():
            told.sides = [(owner, (fact.side,))]
        case SideRatioFact():
            told.sides = [(owner, (side,)) for side in fact.pair]
            (x, y), *_ = set(fact.pair[0]) & set(fact.pair[1])  # the ring is said to stand where they meet
            off = 1e-3 * math.dist(*fact.pair[0])
            about = Outline.of(((x - off, y - off), (x + off, y - off), (x + off, y + off), (x - off, y + off)))
            told.regions = told.ringed = [(owner, about)]
    return told


def _of_outline(fact: OutlineFact, step: Step, said: str) -> Iterator[Told]:
    """Corners and holes, where a sentence says how many there are."""
    if f" {fact.corners} corner" not in said:
        return
    label = next((each.label for each in step.facts if isinstance(each, SameFact)), None)
    owners = [OUTLINE] if label is None else [OUTLINE, option(label)]
    yield Told(
        points=[(owner, corner) for owner in owners for ring in fact.outline.rings for corner in ring],
        sides=[(owner, (side,)) for owner in owners for hole in fact.outline.holes for side in _sides(hole)],
    )


def _of_landmark(fact: LandmarkFact, said: str) -> Told:
    told = Told(points=[(OUTLINE, fact.corner)], circled=[(OUTLINE, fact.corner)])
    if fact.of_round()[0] in said:
        told.sides = [(OUTLINE, (fact.ahead,)), (OUTLINE, (fact.behind,))]
    return told


def _marked_sides(name: str, step: Step, solution: Solution) -> list[tuple[str, tuple[Side, ...]]]:
    """The marked side of a piece and the one that it must meet."""
    assert isinstance(solution, JoinAndCutSolution)
    names = [placement.piece.name for placement in solution.placements]
    index = names.index(name)
    placement = solution.placements[index]
    is_on_sheet = "hint" in step.stage
    of = placement.piece.of
    partner = piece(names.index(of) + 1) if of in names and is_on_sheet else BASE
    return [(piece(index + 1), (placement.side,)), (partner, (placement.partner,))]


def _of_strategy(fact: StrategyFact, step: Step, solution: Solution) -> Iterator[Told]:
    """By the strategy: its sentences speak of all of its evidence, of a part of it, or of none."""
    evidence = fact.evidence
    match fact.strategy:
        case Strategy.EASY_FIRST | Strategy.NEVER_FLIP:
            return
        case Strategy.LAY_ON:
            (difference,) = evidence
            assert isinstance(difference, DifferenceFact)
            yield _of_difference(difference)
        case Strategy.WALK:
            walk, _ = evidence
            assert isinstance(walk, WalkFact)
            yield _of_walk(walk)
        case Strategy.UNCHANGED:
            same, shape = evidence
            assert isinstance(same, SameFact) and isinstance(shape, OutlineFact)
            corners = [corner for ring in shape.outline.rings for corner in ring]
            owners = (OUTLINE, option(same.label))
            yield Told(
                points=[(owner, corner) for owner in owners for corner in corners],
                sides=[(owner, (side,)) for owner in owners for hole in shape.outline.holes for side in _sides(hole)],
            )
        case Strategy():
            (sieve,) = evidence
            assert isinstance(sieve, SieveFact)
            yield _of_sieve(sieve)
        case PieceStrategy.TURN_THEN_SLIDE | PieceStrategy.HALF_TURN | PieceStrategy.NO_TURN:
            (turn,) = evidence
            assert isinstance(turn, TurnFact)
            yield Told(turn_deg=turn.turn_deg)
        case PieceStrategy.TICK_OFF:
            yield Told(texts=[placement.piece.name for placement in solution.placements])  # type: ignore[attr-defined]
        case PieceStrategy.GAP:
            (change,) = evidence
            assert isinstance(change, ChangeFact)
            yield Told(regions=[(BASE, Outline.of(change.ring))])
        case PieceStrategy.COVERED:
            meet = evidence[0]
            assert isinstance(meet, MeetFact)
            yield Told(sides=[(BASE, (meet.partner,))])
        case PieceStrategy():
            meet = evidence[-1]
            assert isinstance(meet, MeetFact)
            yield Told(sides=_marked_sides(meet.name, step, solution))
        case _:
            assert isinstance(fact, OutlineStrategyFact)
            yield from (_of_landmark(each, "") for each in evidence if isinstance(each, LandmarkFact))


def _sides(ring: Ring) -> list[Side]:
    return list(zip(ring, (*ring[1:], ring[0]), strict=True))

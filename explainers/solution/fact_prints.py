"""A short print of a fact: it changes with the figures and places that words may speak of, and with nothing else.

Two prints agree where a sentence about the one fact is as true of the other. Shifting a whole item, another way to type
the same corners, or another way to lay an option that is told alike, change none. No words here.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable

from ..geometry.angles import wrapped_deg
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Similarity
from ..item.model import BASE
from .agreement import AgreementFact
from .facts import (
    ChangeFact,
    CornerAngleFact,
    CornerCountFact,
    DifferenceFact,
    ExtraPartFact,
    Fact,
    HardStepFact,
    HoleFact,
    HolePlace,
    MeetFact,
    MirrorFact,
    MissingPartFact,
    OutlineFact,
    PieceFact,
    SameFact,
    SideLengthFact,
    TurnFact,
)
from .part_facts import PartElsewhereFact, SideRatioFact
from .slips.slip_fact import SlipFact

__all__ = ["fact_print", "print_of"]

Grains = tuple[object, ...]

# Counted from an odd offset: figures such as 0.5 or 1/8 would else lie on the border between two grains.
OFFSET = 0.3171
ANGLE_GRAINS = 10.0  # a degree has so many: a tenth is more than anyone says
LENGTH_GRAINS = 100.0  # a unit has so many


def fact_print(fact: Fact, origin: Point) -> str:
    """The print of one fact.

    origin : the lower left of the item's base; places are taken from there
    Raises : TypeError for a kind of fact that it does not know
    """
    return print_of(_grains(fact, origin))


def print_of(parts: object) -> str:
    """Twelve hexadecimal digits for anything whose ``repr`` says all there is to it."""
    return hashlib.sha256(repr(parts).encode()).hexdigest()[:12]


def _grains(fact: Fact, origin: Point) -> Grains:
    match fact:
        case PieceFact():
            return _piece(fact, origin)
        case TurnFact():
            shown = _points(fact.shown_ring, _lower_left(fact.shown_ring))
            return ("turn", fact.name, fact.mark, fact.does.value, _angle(fact.turn_deg), shown)
        case MeetFact():
            places = (_points(fact.partner, origin), _points(fact.ring, origin))
            return ("meet", fact.name, fact.mark, fact.does.value, fact.of, *places)
        case ChangeFact():
            areas = tuple(_length(area) for area in (fact.piece_area, fact.area_before, fact.area_after))
            return ("change", fact.name, fact.does.value, areas, _shape(fact.after, origin))
        case OutlineFact():
            return ("outline", fact.corners, fact.holes, _length(fact.area), _shape(fact.outline, origin))
        case SameFact():
            return ("same", fact.label, _angle(fact.turn_deg), _shape(fact.outline, origin))
        case MirrorFact():
            return ("mirror", fact.label)
        case DifferenceFact():
            return (*_difference(fact), fact.label, _shape(fact.place, origin))
        case AgreementFact():
            agreeing = sorted(_points(side, origin) for side in fact.agreeing)
            return ("agreement", fact.label, fact.sides, tuple(agreeing))
        case SlipFact():
            return ("slip", fact.label, tuple((case.slip, case.piece) for case in fact.cases))
        case HardStepFact():
            evidence = tuple(_grains(shown, origin) for shown in fact.evidence)
            return ("hard", fact.kind.value, fact.name, fact.label, _angle(fact.turn_deg), evidence)
    raise TypeError(f"no print is known for a {type(fact).__name__}")


def _piece(fact: PieceFact, origin: Point) -> Grains:
    piece = fact.piece
    turned = Similarity(turn_deg=wrapped_deg(piece.turned))
    corners = turned.apply(piece.corners)
    marked = _points(turned.apply(piece.side), _lower_left(corners))
    # What it meets is written in the partner's own coordinates, whose origin says nothing but for the base.
    start = origin if piece.of == BASE else _lower_left(piece.meets)
    return ("piece", piece.name, piece.does.value, piece.of, piece.mark, marked, _points(piece.meets, start))


def _difference(fact: DifferenceFact) -> Grains:
    match fact:
        case CornerCountFact():
            return ("corners", fact.option_corners, fact.outline_corners, fact.on_option)
        case CornerAngleFact():
            return ("angle", _angle(fact.angle_deg))
        case SideLengthFact():
            return ("side", _length(fact.length), _length(fact.other_length))
        case SideRatioFact():
            return ("ratio", _length(fact.ratio), _length(fact.other_ratio))
        case PartElsewhereFact():
            return ("elsewhere", fact.filled, fact.adjacent)
        case HoleFact():
            at = () if fact.at is HolePlace.HOLE else (fact.at.value,)
            return ("holes", fact.option_holes, fact.outline_holes, *at)
        case ExtraPartFact():
            return ("extra", _length(fact.area))
        case MissingPartFact():
            return ("missing", _length(fact.area))
    raise TypeError(f"no print is known for a {type(fact).__name__}")


def _angle(angle_deg: float) -> int:
    return math.floor(angle_deg * ANGLE_GRAINS + OFFSET)


def _length(length: float) -> int:
    return math.floor(length * LENGTH_GRAINS + OFFSET)


def _points(points: Iterable[Point], origin: Point) -> tuple[tuple[int, int], ...]:
    """The places of points, whatever their order."""
    return tuple(sorted((_length(x - origin[0]), _length(y - origin[1])) for x, y in points))


def _shape(outline: Outline, origin: Point) -> tuple[object, ...]:
    return tuple(_points(ring, origin) for ring in (outline.exterior, *sorted(outline.holes)))


def _lower_left(points: Iterable[Point]) -> Point:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys)

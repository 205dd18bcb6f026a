"""Findings in brief, for a teacher at the command line: one line an option, the plan of a solution."""

from __future__ import annotations

from ..geometry.locate import contains
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring
from ..item.model import BASE, Does
from ..solution.facts import (
    CornerAngleFact,
    CornerCountFact,
    ExtraPartFact,
    Fact,
    HoleFact,
    HolePlace,
    MirrorFact,
    MissingPartFact,
    SameFact,
    SideLengthFact,
)
from ..solution.model import Placement, Solution, Verdict
from ..solution.part_facts import PartElsewhereFact, SideRatioFact, shared_corner
from ..solution.slips.slip_fact import SlipFact
from ..words.names import (
    a_turn_in_words,
    area_in_words,
    degrees_in_words,
    is_half_turn,
    is_no_turn,
    length_in_words,
    lengths_in_words,
    list_in_words,
    number_of,
    the_piece,
)
from .choices import reasons_known
from .held import said
from .slips import slip_in_brief

__all__ = ["plan_lines", "reason_in_brief"]


def reason_in_brief(verdict: Verdict) -> str:
    """Why an option fits or not, in one line without a full stop: the slip behind it first, where one is known."""
    facts = verdict.reasons[:1] if verdict.same else reasons_known(verdict)
    brief = [phrase for fact in facts for phrase in said(fact, (_brief(fact),))]
    return "; ".join(brief) or "differs, but by too little to be pointed at"


def _brief(fact: Fact) -> str:
    match fact:
        case SameFact():
            if is_no_turn(fact.turn_deg):
                return "fits without a turn"
            return f"fits after {a_turn_in_words(fact.turn_deg)}"
        case SlipFact():
            return slip_in_brief(fact)
        case MirrorFact():
            return "the outline flipped over"
        case CornerCountFact():
            whose = "its " if fact.on_option else "the outline's "
            corners = f"{number_of(fact.option_corners, 'corner')}, where the outline has {fact.outline_corners}"
            return f"{corners}; {whose}corner at {_at(fact.corner)} has no partner"
        case CornerAngleFact():
            return f"a corner of {degrees_in_words(fact.angle_deg)} at {_at(fact.corner)}, where the outline has none"
        case SideLengthFact():
            length, other = lengths_in_words(fact.length, fact.other_length)
            return f"a side of {length} from {_at(fact.side[0])} to {_at(fact.side[1])}, where the outline has {other}"
        case SideRatioFact():
            ratio, other = length_in_words(fact.ratio), length_in_words(fact.other_ratio)
            corner = shared_corner(fact.pair, fact.tolerance)
            assert corner is not None  # the fact holds
            return f"sides of ratio {ratio} at {_at(corner)}, where the outline has {other}"
        case PartElsewhereFact():
            thing = "part" if fact.filled else "gap"
            where = "on the next side" if fact.adjacent else "on another side"
            return f"a {thing} around {_at(fact.ring_centre)}, which the outline has {where}"
        case HoleFact():
            return _holes(fact)
        case ExtraPartFact():
            return f"a part too many, {area_in_words(fact.area)} in size, around {_at(fact.ring_centre)}"
        case MissingPartFact():
            return f"a part missing, {area_in_words(fact.area)} in size, around {_at(fact.ring_centre)}"
    raise TypeError(f"no words are known for a reason of kind {type(fact).__name__}")


def _holes(fact: HoleFact) -> str:
    holes = number_of(fact.option_holes, "hole") if fact.option_holes else "no hole"
    counted, spot = f"{holes}, where the outline has {fact.outline_holes or 'none'}", _at(fact.ring_centre)
    if fact.at is HolePlace.HOLE:
        return f"{counted}, around {spot}"
    owner = "it" if contains(fact.option, fact.ring_centre) else "the outline"
    closed = f"{owner} closes one" if fact.at is HolePlace.WALL else f"{owner} parts two"
    return f"{counted}: {closed} at {spot}"


def plan_lines(solution: Solution) -> list[str]:
    """The solution as a readable plan: each piece in order, the finished outline, the options.

    Warnings and the reasons why an item is unsound are not in it: whoever prints the plan prints them apart.
    """
    lines = [f"{solution.item.title} ({solution.item.name})"]
    for number, placement in enumerate(solution.placements, start=1):
        lines.append(f"{number}. {_placement(placement)}")
    lines.append(f"The finished outline: {_outline(solution.outline)}.")
    lines += [f"   corners {_ring(solution.outline.exterior)}"]
    lines += [f"   hole    {_ring(hole)}" for hole in solution.outline.holes]
    for verdict in solution.verdicts:
        fits = "fits" if verdict.same else "out "
        lines.append(f"   {verdict.label} {fits}  {reason_in_brief(verdict)}")
    if solution.sound:
        lines.append(f"The answer is {solution.key}.")
    else:
        fitting = [verdict.label for verdict in solution.verdicts if verdict.same]
        who = f"{list_in_words(fitting)} fit" if fitting else "no option fits"
        lines.append(f"There is no one answer: {who}.")
    return lines


def _placement(placement: Placement) -> str:
    piece = placement.piece
    name = the_piece(piece.name)
    partner = "the base" if piece.of == BASE else the_piece(piece.of)
    turn = a_turn_in_words(placement.turn_deg)
    if is_half_turn(placement.turn_deg):
        turn += ", either way"
    if piece.does is Does.CUT:
        does, mark = f"Cut away {name}", f"mark {piece.mark} on {partner}"
    else:
        does, mark = f"Join {name} to {partner}", f"mark {piece.mark}"
    start, end = placement.partner
    return f"{does}: {turn}, so that {mark} lies from {_at(start)} to {_at(end)}."


def _outline(outline: Outline) -> str:
    counted = [number_of(outline.corner_count, "corner")]
    if outline.holes:
        counted.append(number_of(len(outline.holes), "hole"))
    return f"{list_in_words(counted)}, {area_in_words(outline.area)} in size"


def _ring(ring: Ring) -> str:
    return " ".join(_at(point) for point in ring)


def _at(point: Point) -> str:
    return f"({_coordinate(point[0])}, {_coordinate(point[1])})"


def _coordinate(number: float) -> str:
    return f"{round(number, 3) + 0.0:g}"

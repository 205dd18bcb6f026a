"""Facts as short plain lines, for a teacher who compares what was true with what is true now; never spoken.

A line has the figures and names of its fact and no coordinates. The facts of a step have been held to when the step
was told, so they are not recomputed here.
"""

from __future__ import annotations

from collections.abc import Iterable

from ..item.model import BASE, Does
from ..solution.agreement import AgreementFact
from ..solution.facts import (
    ChangeFact,
    CornerAngleFact,
    CornerCountFact,
    ExtraPartFact,
    Fact,
    HardStepFact,
    HoleFact,
    MeetFact,
    MirrorFact,
    MissingPartFact,
    OutlineFact,
    PieceFact,
    SameFact,
    SideLengthFact,
    TurnFact,
)
from ..solution.part_facts import PartElsewhereFact, SideRatioFact
from ..solution.slips.slip_fact import SlipFact
from ..words.names import (
    a_turn_in_words,
    area_in_words,
    degrees_in_words,
    length_in_words,
    lengths_in_words,
    list_in_words,
    number_of,
    the_option,
    the_piece,
    with_unit,
)
from .remember import remember_headline
from .slips import in_brief

__all__ = ["fact_line", "fact_lines", "options_line", "pause_line"]


def fact_lines(facts: Iterable[Fact]) -> tuple[str, ...]:
    """A line for each fact, in order, each line once."""
    return tuple(dict.fromkeys(fact_line(fact) for fact in facts))


def pause_line(seconds: float) -> str:
    """How long a step waits."""
    return f"the pause: {seconds:g} seconds"


def options_line(labels: Iterable[str]) -> str:
    """Which options are shown."""
    return f"the options: {list_in_words(tuple(labels))}"


def fact_line(fact: Fact) -> str:
    """One fact, without a full stop.

    Raises : TypeError for a kind of fact that it does not know
    """
    match fact:
        case PieceFact():
            piece = fact.piece
            partner = "the base" if piece.of == BASE else the_piece(piece.of)
            return f"{the_piece(piece.name)}: {_to_do(piece.does)} where mark {piece.mark} meets {partner}"
        case TurnFact():
            return f"{the_piece(fact.name)}: {a_turn_in_words(fact.turn_deg)}"
        case MeetFact():
            partner = "the base" if fact.of == BASE else the_piece(fact.of)
            where = "on top of" if fact.does is Does.CUT else "beside"
            return f"{the_piece(fact.name)}: {where} {partner}, the marks {fact.mark} together"
        case ChangeFact():
            done = "cut away" if fact.does is Does.CUT else "joined"
            areas = f"{length_in_words(fact.area_before)} square units become {length_in_words(fact.area_after)}"
            return f"{the_piece(fact.name)}: {done}, {areas}"
        case OutlineFact():
            counted = f"{number_of(fact.corners, 'corner')}, {number_of(fact.holes, 'hole')}"
            return f"the outline: {counted}, {area_in_words(fact.area)}"
        case SameFact():
            return f"{the_option(fact.label)}: the outline, after {a_turn_in_words(fact.turn_deg)}"
        case AgreementFact():
            sides = number_of(fact.sides, "side")
            return f"{the_option(fact.label)}: {sides}, of which {len(fact.agreeing)} fit the outline"
        case SlipFact():
            slips = ", with ".join(in_brief(case, fact.item) for case in fact.cases)
            return f"{the_option(fact.label)}: {slips}"
        case HardStepFact():
            about = f" ({the_piece(fact.name)})" if fact.name else f" ({the_option(fact.label)})" if fact.label else ""
            return f"to remember: {remember_headline(fact)}{about}"
    return _difference_line(fact)


def _difference_line(fact: Fact) -> str:
    match fact:
        case MirrorFact():
            return f"{the_option(fact.label)}: the outline flipped over"
        case CornerCountFact():
            return f"{the_option(fact.label)}: {number_of(fact.option_corners, 'corner')}, not {fact.outline_corners}"
        case CornerAngleFact():
            return f"{the_option(fact.label)}: a corner of {degrees_in_words(fact.angle_deg)}, the outline has none"
        case SideLengthFact():
            length, other = lengths_in_words(fact.length, fact.other_length)
            return f"{the_option(fact.label)}: a side of {with_unit(length, 'unit')}, not {other}"
        case SideRatioFact():
            ratio, other = length_in_words(fact.ratio), length_in_words(fact.other_ratio)
            return f"{the_option(fact.label)}: two sides in the ratio {ratio}, not {other}"
        case PartElsewhereFact():
            thing = "part" if fact.filled else "gap"
            where = "on the next side" if fact.adjacent else "on another side"
            return f"{the_option(fact.label)}: a {thing} {where}"
        case HoleFact():
            holes = number_of(fact.option_holes, "hole")
            return f"{the_option(fact.label)}: {holes}, not {fact.outline_holes or 'none'}"
        case ExtraPartFact():
            return f"{the_option(fact.label)}: a part too many, {area_in_words(fact.area)}"
        case MissingPartFact():
            return f"{the_option(fact.label)}: a part missing, {area_in_words(fact.area)}"
    raise TypeError(f"no line is known for a {type(fact).__name__}")


def _to_do(does: Does) -> str:
    return "to cut away" if does is Does.CUT else "to join"

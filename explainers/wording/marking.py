"""The marking sheet: for every option what a learner who chose it probably did, and what to practise; for teachers."""

from __future__ import annotations

from dataclasses import dataclass

from ..errors import FactError
from ..solution.facts import (
    CornerAngleFact,
    CornerCountFact,
    ExtraPartFact,
    Fact,
    HoleFact,
    MirrorFact,
    MissingPartFact,
    SideLengthFact,
)
from ..solution.model import Verdict
from ..solution.part_facts import PartElsewhereFact, SideRatioFact
from ..solution.slips.model import SlipCase
from ..words.messages import message, say, say_count
from ..words.names import degrees_in_words, length_in_words, lengths_in_words, sentence_case
from .choices import reasons_known
from .held import said
from .slips import did_in_words, practise, slip_in_brief

__all__ = ["MarkingEntry", "marking_entry", "reason_on_sheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkingEntry:
    """One option's line on the marking sheet."""

    label: str
    right: bool
    cases: tuple[SlipCase, ...]  # the slip behind it, or a pair; () where none is known, and for the right one
    did: str
    practise: str


def marking_entry(verdict: Verdict) -> MarkingEntry:
    """What choosing an option tells of a learner.

    Raises : FactError where what is said of the option does not hold, or nothing can be said of a wrong one
    """
    if verdict.same:
        text = say("Right: this is the finished outline.")
        practice = say("Ask how they know: which sides met, which way it turned.")
        return MarkingEntry(label=verdict.label, right=True, cases=(), did=text, practise=practice)
    if verdict.slip is not None:
        cases = verdict.slip.cases
        text = did_in_words(verdict.slip)
        practice = " ".join(dict.fromkeys(practise(case) for case in cases))
        return MarkingEntry(label=verdict.label, right=False, cases=cases, did=text, practise=practice)
    fact = _best(verdict)
    hasty = say("Probably did not compare closely.")
    text = f"{hasty} {_difference(fact)}"
    return MarkingEntry(label=verdict.label, right=False, cases=(), did=text, practise=say(_PRACTISE[type(fact)]))


def reason_on_sheet(verdict: Verdict) -> str:
    """Why a wrong option is out, as one short sentence that needs no picture.

    Raises : FactError where it does not hold, or nothing is known
    """
    if verdict.slip is not None:
        return f"{sentence_case(slip_in_brief(verdict.slip))}."
    return _difference(_best(verdict))


def _best(verdict: Verdict) -> Fact:
    facts = reasons_known(verdict)
    if not facts:
        raise FactError(
            f"option {verdict.label} is not the finished outline, but differs from it by too little to be told: "
            "make the difference larger, or leave the option out"
        )
    said(facts[0], (f"option {verdict.label} differs",))
    return facts[0]


_PRACTISE: dict[type[Fact], str] = {
    MirrorFact: message("Practise telling a turned outline from a flipped one."),
    CornerCountFact: message("Practise counting the corners of an outline before you choose."),
    CornerAngleFact: message("Practise comparing corners: square, sharper or blunter."),
    SideLengthFact: message("Practise comparing the lengths of sides, one after the other."),
    SideRatioFact: message("Practise comparing a side with the one next to it."),
    PartElsewhereFact: message("Practise following the outline side by side, and finding where each part sits."),
    HoleFact: message("Practise looking for holes first."),
    ExtraPartFact: message("Practise laying one outline on another in your head, or with tracing paper."),
    MissingPartFact: message("Practise laying one outline on another in your head, or with tracing paper."),
}


def _difference(fact: Fact) -> str:
    """What a wrong option has, in a sentence; no place is named, since the sheet has no ring to show it."""
    match fact:
        case MirrorFact():
            return say("It is the outline flipped over.")
        case CornerCountFact():
            return say_count(
                "It has {count} corner, where the outline has {others}.",
                "It has {count} corners, where the outline has {others}.",
                fact.option_corners,
                others=fact.outline_corners,
            )
        case CornerAngleFact():
            angle = degrees_in_words(fact.angle_deg)
            return say("It has a corner of {angle}, where the outline has none.", angle=angle)
        case SideLengthFact():
            length, other = lengths_in_words(fact.length, fact.other_length)
            return say("It has a side of {length} where the outline has one of {other}.", length=length, other=other)
        case SideRatioFact():
            ratio, other = length_in_words(fact.ratio), length_in_words(fact.other_ratio)
            return say(
                "It has a side {ratio} times as long as the next, where in the outline it is {other} times as long.",
                ratio=ratio,
                other=other,
            )
        case PartElsewhereFact(filled=True):
            return say("It has a part that the outline has on another side.")
        case PartElsewhereFact():
            return say("It has a gap that the outline has on another side.")
        case HoleFact():
            if fact.option_holes == 0:
                return say("It has no hole, where the outline has {others}.", others=fact.outline_holes)
            return say_count(
                "It has {count} hole, where the outline has {others}.",
                "It has {count} holes, where the outline has {others}.",
                fact.option_holes,
                others=fact.outline_holes,
            )
        case ExtraPartFact():
            return say("It has a part too many.")
        case MissingPartFact():
            return say("A part of it is missing.")
    raise TypeError(f"no words are known for a reason of kind {type(fact).__name__}")

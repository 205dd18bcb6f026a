"""The marking sheet: for every option what a learner who chose it probably did, and what to practise; for teachers."""

from __future__ import annotations

from dataclasses import dataclass

from ..errors import FactError
from ..solution.facts import (
    CornerAngleFact,
    CornerCountFact,
    DifferenceFact,
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
from .choices import reasons_known
from .held import said
from .names import area_in_words, degrees_in_words, length_in_words, lengths_in_words, number_of, sentence_case
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
        text, practice = (
            "Right: this is the finished outline.",
            "Ask how they know: which sides met, which way it turned.",
        )
        return MarkingEntry(label=verdict.label, right=True, cases=(), did=text, practise=practice)
    if verdict.slip is not None:
        cases = verdict.slip.cases
        text = f"Probably {did_in_words(verdict.slip)}."
        practice = " ".join(dict.fromkeys(practise(case) for case in cases))
        return MarkingEntry(label=verdict.label, right=False, cases=cases, did=text, practise=practice)
    fact = _best(verdict)
    text = f"Probably did not compare closely: it has {_differs(fact)}."
    if isinstance(fact, MirrorFact):
        text = "Probably did not see that it is the outline flipped over."
    return MarkingEntry(label=verdict.label, right=False, cases=(), did=text, practise=_PRACTISE[type(fact)])


def reason_on_sheet(verdict: Verdict) -> str:
    """Why a wrong option is out, as one short sentence that needs no picture.

    Raises : FactError where it does not hold, or nothing is known
    """
    if verdict.slip is not None:
        return f"{sentence_case(slip_in_brief(verdict.slip))}."
    fact = _best(verdict)
    if isinstance(fact, MirrorFact):
        return "The outline flipped over."
    return f"It has {_differs(fact)}."


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
    MirrorFact: "Practise telling a turned outline from a flipped one.",
    CornerCountFact: "Practise counting the corners of an outline before you choose.",
    CornerAngleFact: "Practise comparing corners: square, sharper or blunter.",
    SideLengthFact: "Practise comparing the lengths of sides, one after the other.",
    SideRatioFact: "Practise comparing a side with the one next to it.",
    PartElsewhereFact: "Practise following the outline side by side, and finding where each part sits.",
    HoleFact: "Practise looking for holes first.",
    ExtraPartFact: "Practise laying one outline on another in your head, or with tracing paper.",
    MissingPartFact: "Practise laying one outline on another in your head, or with tracing paper.",
}


def _differs(fact: Fact) -> str:
    """What a wrong option has, after "it has"; no place is named, since the sheet has no ring to show it."""
    if not isinstance(fact, DifferenceFact):
        raise TypeError(f"no words are known for a reason of kind {type(fact).__name__}")
    match fact:
        case CornerCountFact():
            return f"{number_of(fact.option_corners, 'corner')}, where the outline has {fact.outline_corners}"
        case CornerAngleFact():
            return f"a corner of {degrees_in_words(fact.angle_deg)}, where the outline has none"
        case SideLengthFact():
            length, other = lengths_in_words(fact.length, fact.other_length)
            return f"a side of {length} where the outline has one of {other}"
        case SideRatioFact():
            return _ratio(fact)
        case PartElsewhereFact():
            where = "on the next side" if fact.adjacent else "on another side"
            return f"a {'part' if fact.filled else 'gap'} that the outline has {where}"
        case HoleFact():
            holes = number_of(fact.option_holes, "hole") if fact.option_holes else "no hole"
            return f"{holes}, where the outline has {fact.outline_holes or 'none'}"
        case ExtraPartFact():
            return f"a part too many, {area_in_words(fact.area)} in size"
        case MissingPartFact():
            return f"a part missing, {area_in_words(fact.area)} in size"
    raise TypeError(f"no words are known for a reason of kind {type(fact).__name__}")


def _ratio(fact: SideRatioFact) -> str:
    def ratio(value: float) -> str:
        return "as long as" if abs(value - 1.0) < 0.005 else f"{length_in_words(value)} times as long as"

    return f"a side {ratio(fact.ratio)} the next, where in the outline it is {ratio(fact.other_ratio)} the next"

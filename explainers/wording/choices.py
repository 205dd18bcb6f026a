"""The options, one by one: why an option is out, why one fits, the answer."""

from __future__ import annotations

from collections.abc import Sequence

from ..errors import FactError
from ..geometry.locate import contains
from ..solution.facts import (
    CornerAngleFact,
    CornerCountFact,
    DifferenceFact,
    ExtraPartFact,
    Fact,
    HoleFact,
    MirrorFact,
    MissingPartFact,
    SameFact,
    SideLengthFact,
)
from ..solution.model import Verdict
from .held import said
from .names import (
    degrees_in_words,
    is_no_turn,
    lengths_in_words,
    list_in_words,
    number_of,
    sentence_case,
    the_option,
    with_unit,
)
from .steps import turn_command

__all__ = ["answer", "keep", "options_shown", "reason", "reasons_known", "reasons_said", "rule_out"]


def options_shown(labels: Sequence[str]) -> tuple[str, ...]:
    """The options come back into view."""
    return (f"Here are the options {list_in_words(labels)}.", "Let us try them one by one.")


def reasons_known(verdict: Verdict) -> tuple[Fact, ...]:
    """The facts that speak best against a wrong option: a flip if it is one, then one with a place; () for none."""
    located = [fact for fact in verdict.reasons if isinstance(fact, DifferenceFact)]
    flips = [fact for fact in verdict.reasons if isinstance(fact, MirrorFact)]
    return (*flips[:1], *located[:1])


def reasons_said(verdict: Verdict) -> tuple[Fact, ...]:
    """The facts that ``rule_out`` puts into words, in that order; the last one has the place to be ringed.

    A flip is told together with a place, because a learner must see where the option goes wrong.

    Raises : FactError where no reason with a place is known, as for an option that differs by a hair
    """
    facts = reasons_known(verdict)
    if not facts or not isinstance(facts[-1], DifferenceFact):
        raise FactError(
            f"option {verdict.label} is not the finished outline, but differs from it by too little to be pointed at: "
            "make the difference larger, or leave the option out"
        )
    return facts


def rule_out(verdict: Verdict) -> tuple[str, ...]:
    """Why a wrong option is out: laid on the outline, then what differs, then the verdict.

    Raises : FactError where a reason does not hold, or none can be pointed at
    """
    sentences = [f"Lay {the_option(verdict.label)} on the outline."]
    for fact in reasons_said(verdict):
        sentences += reason(fact)
    return (*sentences, f"So {the_option(verdict.label)} is out.")


def reason(fact: Fact) -> tuple[str, ...]:
    """One reason in words: true of the option, false of the finished outline.

    Raises : FactError where it does not hold; TypeError for a fact that is no reason against an option
    """
    return said(fact, _reason(fact))


def _reason(fact: Fact) -> tuple[str, ...]:
    match fact:
        case MirrorFact():
            option = sentence_case(the_option(fact.label))
            return (f"{option} is the outline flipped over.", "No turn can undo a flip.")
        case CornerCountFact():
            return _corner_count(fact)
        case CornerAngleFact():
            return _corner_angle(fact)
        case SideLengthFact():
            return _side_length(fact)
        case HoleFact():
            return _holes(fact)
        case ExtraPartFact():
            return (_here(the_option(fact.label), filled=True),)
        case MissingPartFact():
            return (_here(the_option(fact.label), filled=False),)
    raise TypeError(f"no words are known for a reason of kind {type(fact).__name__}")


def keep(fact: SameFact) -> tuple[str, ...]:
    """The right option is laid on the outline."""
    option = the_option(fact.label)
    if is_no_turn(fact.turn_deg):
        first = f"{sentence_case(option)} needs no turn."
    else:
        first = turn_command(option, fact.turn_deg)
    return said(fact, (first, "Lay it on the outline.", "Every corner and every side fits."))


def answer(label: str) -> tuple[str, ...]:
    """The answer."""
    return (f"The answer is {label}.",)


def _corner_count(fact: CornerCountFact) -> tuple[str, ...]:
    option = the_option(fact.label)
    if fact.on_option:
        here = f"Here {option} has a corner, but the outline has none."
    else:
        here = f"Here the outline has a corner, but {option} has none."
    count = number_of(fact.option_corners, "corner")
    if fact.option.holes or fact.outline.holes:
        count += " in all"
    return (here, f"{sentence_case(option)} has {count}, but the outline has {fact.outline_corners}.")


def _corner_angle(fact: CornerAngleFact) -> tuple[str, ...]:
    option = the_option(fact.label)
    degrees = degrees_in_words(fact.angle_deg)
    if fact.angle_deg > 180.0:
        return (
            f"Here {option} has a corner that points into the shape.",
            f"Measured inside, it is {degrees}.",
            f"The outline has no corner of {degrees}.",
        )
    return (f"Here {option} has a corner of {degrees}.", f"The outline has no corner of {degrees}.")


def _side_length(fact: SideLengthFact) -> tuple[str, ...]:
    longer = "longer" if fact.length > fact.other_length else "shorter"
    length, other = lengths_in_words(fact.length, fact.other_length)
    return (
        f"Here a side of {the_option(fact.label)} is {longer} than the outline's side.",
        f"It is {with_unit(length, 'unit')} long, but the outline's side is {other}.",
    )


def _holes(fact: HoleFact) -> tuple[str, ...]:
    option = the_option(fact.label)
    holes = number_of(fact.option_holes, "hole") if fact.option_holes else "no hole"
    outline = "none" if fact.outline_holes == 0 else str(fact.outline_holes)
    # Which of the two has its hole at the ring is read from the outlines: the counts alone do not say.
    filled = contains(fact.option, fact.ring_centre)
    return (f"{sentence_case(option)} has {holes}, but the outline has {outline}.", _here(option, filled=filled))


def _here(option: str, *, filled: bool) -> str:
    if filled:
        return f"Here {option} is filled, but the outline is empty."
    return f"Here the outline is filled, but {option} is empty."

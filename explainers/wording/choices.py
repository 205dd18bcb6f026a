"""The options: why one is out, or several for one fault, why one fits, the answer."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence

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
    OutlineFact,
    SameFact,
    SideLengthFact,
)
from ..solution.model import Verdict
from ..solution.part_facts import PartElsewhereFact, SideRatioFact
from ..solution.slips.slip_fact import SlipFact
from .held import said
from .names import (
    degrees_in_words,
    is_no_turn,
    length_in_words,
    lengths_in_words,
    list_in_words,
    number_of,
    sentence_case,
    the_option,
    with_unit,
)
from .slips import FLIPPED, shared_slip, slip_words
from .steps import turn_command

__all__ = [
    "answer",
    "common_fault",
    "keep",
    "laid_on",
    "options_shown",
    "place_said",
    "reason",
    "reasons_known",
    "reasons_said",
    "rule_out",
    "rule_out_each",
    "rule_out_together",
    "slip_said",
]


def options_shown(labels: Sequence[str]) -> tuple[str, ...]:
    """The options come back into view."""
    return (f"Here are the options {list_in_words(labels)}.", "Let us try them one by one.")


def reasons_known(verdict: Verdict) -> tuple[Fact, ...]:
    """The facts that speak best against a wrong option, in the order in which they are told; () for none.

    The slip that makes it, that it is flipped where the slip does not say so, then one with a place.
    """
    located = [fact for fact in verdict.reasons if isinstance(fact, DifferenceFact)]
    slips = [verdict.slip] if verdict.slip is not None else []
    flips = [] if _says_flipped(verdict.slip) else [fact for fact in verdict.reasons if isinstance(fact, MirrorFact)]
    return (*slips, *flips[:1], *located[:1])


def reasons_said(verdict: Verdict) -> tuple[Fact, ...]:
    """The facts that ``rule_out`` puts into words, in that order; the last one has the place to be ringed.

    A slip or a flip is told together with a place, because a learner must see where the option goes wrong.

    Raises : FactError where no reason with a place is known, as for an option that differs by a hair
    """
    facts = reasons_known(verdict)
    if not facts or not isinstance(facts[-1], DifferenceFact):
        raise FactError(
            f"option {verdict.label} is not the finished outline, but differs from it by too little to be pointed at: "
            "make the difference larger, or leave the option out"
        )
    return facts


def slip_said(verdict: Verdict) -> tuple[str, ...]:
    """What gives a wrong option, to be said while the slip is replayed; () where no slip is known.

    Raises : FactError where the slip does not give the option, or is that of another option
    """
    if verdict.slip is None:
        return ()
    if verdict.slip.label != verdict.label:
        raise FactError(f"a slip of option {verdict.slip.label} is told of option {verdict.label}")
    return slip_words(verdict.slip)


def rule_out(verdict: Verdict, *, agreed: Sequence[str] = (), replayed: bool = False) -> tuple[str, ...]:
    """Why a wrong option is out: laid on the outline, what agrees, the slip behind it, what differs, then the verdict.

    agreed   : sentences about what agrees, made from facts of their own
    replayed : whether ``slip_said`` has been said already, so that it is not said again
    Raises   : FactError where a reason does not hold, or none can be pointed at
    """
    sentences = [laid_on(verdict.label), *agreed, *([] if replayed else slip_said(verdict))]
    for fact in reasons_said(verdict):
        if not isinstance(fact, SlipFact):
            sentences += reason(fact)
    return (*sentences, f"So {the_option(verdict.label)} is out.")


def common_fault(verdicts: Sequence[Verdict]) -> list[tuple[Verdict, ...]]:
    """The wrong options in groups that share a fault, in the order of each group's first; most stand alone.

    Options with the same number of holes, another than the outline's, come first, for that is seen at a glance; then
    those of the same slip; then those without a slip whose clearest difference has the same figures.
    """
    alone = [verdict for verdict in verdicts if not verdict.same]
    order = [verdict.label for verdict in alone]
    groups: list[tuple[Verdict, ...]] = []
    for fault_of in _FAULTS:
        by_fault: dict[Hashable, list[Verdict]] = {}
        for verdict in alone:
            by_fault.setdefault(fault_of(verdict), []).append(verdict)
        found = [tuple(group) for fault, group in by_fault.items() if fault is not None and len(group) > 1]
        groups += found
        alone = [verdict for verdict in alone if not any(verdict in group for group in found)]
    groups += [(verdict,) for verdict in alone]
    return sorted(groups, key=lambda group: order.index(group[0].label))


def rule_out_together(verdicts: Sequence[Verdict]) -> tuple[str, ...]:
    """Why the options of one fault are out, in one go: the parts of ``rule_out_each`` one after the other."""
    return tuple(sentence for part in rule_out_each(verdicts) for sentence in part)


def rule_out_each(verdicts: Sequence[Verdict]) -> tuple[tuple[str, ...], ...]:
    """Why the options of one fault are out, a part for each: first the fault that they share, last the verdict on all.

    verdicts : one group of ``common_fault``; an option alone is ruled out alone
    Raises   : FactError as ``rule_out``, and where the options share no fault
    """
    if len(verdicts) == 1:
        return (rule_out(verdicts[0]),)
    options = f"options {list_in_words([verdict.label for verdict in verdicts])}"
    located = [_located(verdict) for verdict in verdicts]
    fault_of = next((fault_of for fault_of in _FAULTS if _is_shared(fault_of, verdicts)), None)
    if fault_of is None:
        raise FactError(f"{options} do not share a fault, so they cannot be ruled out together")
    if fault_of is _slip_fault:
        shared: tuple[str, ...] = (shared_slip([verdict.slip for verdict in verdicts if verdict.slip is not None]),)
    else:
        (shared,) = {said(fact, _shared_figures(fact)) for fact in located}
    parts = []
    for verdict, fact in zip(verdicts, located, strict=True):
        # Figures that all of them share have been told: of each only the place is left to tell.
        told = reason(fact) if fault_of is _slip_fault else (place_said(fact),)
        parts.append((*slip_said(verdict), laid_on(verdict.label), *told))
    first, *between, last = parts
    return ((f"Look at {options} together.", *shared, *first), *between, (*last, f"So {options} are out."))


def laid_on(label: str) -> str:
    """The sentence with which an option is laid on the outline."""
    return f"Lay {the_option(label)} on the outline."


def reason(fact: Fact) -> tuple[str, ...]:
    """One reason in words: true of the option, false of the finished outline.

    Raises : FactError where it does not hold; TypeError for a fact that is no reason against an option
    """
    return slip_words(fact) if isinstance(fact, SlipFact) else said(fact, _reason(fact))


def place_said(fact: DifferenceFact) -> str:
    """The one sentence of a reason that speaks of its place: the ring comes with it.

    Raises : as ``reason``
    """
    return next(sentence for sentence in reason(fact) if sentence.startswith("Here "))


def _located(verdict: Verdict) -> DifferenceFact:
    fact = reasons_said(verdict)[-1]
    assert isinstance(fact, DifferenceFact)  # reasons_said makes sure of it
    return fact


def _hole_fault(verdict: Verdict) -> Hashable:
    fact = next((fact for fact in verdict.reasons if isinstance(fact, DifferenceFact)), None)
    return (fact.option_holes, fact.outline_holes) if isinstance(fact, HoleFact) else None


def _slip_fault(verdict: Verdict) -> Hashable:
    slip = verdict.slip
    return slip.cases[0].slip if slip is not None and len(slip.cases) == 1 else None


def _figure_fault(verdict: Verdict) -> Hashable:
    fact = next((fact for fact in verdict.reasons if isinstance(fact, DifferenceFact)), None)
    if verdict.slip is not None or not isinstance(fact, CornerAngleFact | CornerCountFact):
        return None
    return _shared_figures(fact)


# From the fault that is seen soonest. Each gives None for an option without such a fault.
_FAULTS: tuple[Callable[[Verdict], Hashable], ...] = (_hole_fault, _slip_fault, _figure_fault)


def _is_shared(fault_of: Callable[[Verdict], Hashable], verdicts: Sequence[Verdict]) -> bool:
    faults = {fault_of(verdict) for verdict in verdicts}
    return len(faults) == 1 and None not in faults


def _shared_figures(fact: DifferenceFact) -> tuple[str, ...]:
    """What a fact says of each of several options that have just been named."""
    match fact:
        case HoleFact():
            holes = f"each have {number_of(fact.option_holes, 'hole')}" if fact.option_holes else "have no hole"
            return (f"They {holes}, but the outline has {fact.outline_holes or 'none'}.",)
        case CornerCountFact():
            in_all = " in all" if fact.option.holes or fact.outline.holes else ""
            corners = f"{number_of(fact.option_corners, 'corner')}{in_all}"
            return (f"They each have {corners}, but the outline has {fact.outline_corners}.",)
        case CornerAngleFact():
            degrees = degrees_in_words(fact.angle_deg)
            if fact.angle_deg > 180.0:
                return ("They each have a corner that points into the shape.", f"Measured inside, it is {degrees}.")
            return (f"They each have a corner of {degrees}, but the outline has none.",)
    raise TypeError(f"no words are known for several options with a {type(fact).__name__}")


def _says_flipped(slip: SlipFact | None) -> bool:
    return slip is not None and [case.slip for case in slip.cases] == [FLIPPED]


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
        case SideRatioFact():
            return _side_ratio(fact)
        case PartElsewhereFact():
            return _part_elsewhere(fact)
        case HoleFact():
            return _holes(fact)
        case ExtraPartFact():
            return (_here(the_option(fact.label), filled=True),)
        case MissingPartFact():
            return (_here(the_option(fact.label), filled=False),)
    raise TypeError(f"no words are known for a reason of kind {type(fact).__name__}")


def keep(fact: SameFact, outline: OutlineFact | None = None) -> tuple[str, ...]:
    """The right option is confirmed feature by feature, then laid on the outline.

    outline : the finished outline in figures, which are the option's too; without it the option is only laid on
    Raises  : FactError where one of the two does not hold, or they speak of two outlines
    """
    option = the_option(fact.label)
    if is_no_turn(fact.turn_deg):
        turned = f"{sentence_case(option)} needs no turn."
    else:
        turned = turn_command(option, fact.turn_deg)
    laid = said(fact, (turned, "Lay it on the outline.", "Every corner and every side fits."))
    if outline is None:
        return laid
    if outline.outline != fact.outline:
        raise FactError(f"{option} is the same as one outline, and the figures are those of another")
    return (*said(outline, _features(option, outline)), *laid)


def _features(option: str, outline: OutlineFact) -> tuple[str, ...]:
    corners = number_of(outline.corners, "corner")
    if not outline.holes:
        return (f"{sentence_case(option)} has {corners}, like the outline.",)
    return (
        f"{sentence_case(option)} has {number_of(outline.holes, 'hole')}, like the outline.",
        f"Both have {corners} in all.",
    )


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
            "The outline has no such corner.",
        )
    return (f"Here {option} has a corner of {degrees}.", "The outline has no such corner.")


def _side_length(fact: SideLengthFact) -> tuple[str, ...]:
    longer = "longer" if fact.length > fact.other_length else "shorter"
    length, other = lengths_in_words(fact.length, fact.other_length)
    return (
        f"Here a side of {the_option(fact.label)} is {longer} than the outline's side.",
        f"It is {with_unit(length, 'unit')} long, but the outline's side is {other}.",
    )


def _side_ratio(fact: SideRatioFact) -> tuple[str, ...]:
    option = the_option(fact.label)
    is_equal, is_equal_there = fact.are_equal
    if is_equal:
        here = f"Here two sides of {option} that meet are equally long."
        return (here, f"In the outline, one of them is {_times(fact.other_ratio)} as long as the other.")
    here = f"Here a side of {option} is {_times(fact.ratio)} as long as the next."
    if is_equal_there:
        return (here, "In the outline, the two sides are equally long.")
    if fact.other_ratio > 1.0:
        return (here, f"In the outline, it is {_times(fact.other_ratio)} as long.")
    return (here, f"In the outline, the next one is longer: {_times(1.0 / fact.other_ratio)} as long as it.")


def _times(ratio: float) -> str:
    return f"{length_in_words(ratio)} times"


def _part_elsewhere(fact: PartElsewhereFact) -> tuple[str, ...]:
    thing, there = ("part", "empty") if fact.filled else ("gap", "filled")
    where = "the side next to this one" if fact.adjacent else "another side"
    return (
        f"Here {the_option(fact.label)} has a {thing}, but the outline is {there}.",
        f"In the outline, that {thing} is on {where}.",
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

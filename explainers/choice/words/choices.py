"""The options: why one is out, or several for one fault, why one fits, the answer."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence

from ...errors import FactError
from ...words.messages import say, say_count
from ...words.names import is_no_turn, list_in_words
from ...words.turning import turn_option
from ..differences.difference import DifferenceFact, ReasonFact
from ..differences.mirror import MirrorFact
from ..fact import verified
from ..finished import OutlineFact
from ..model import Verdict
from ..same import SameFact
from ..slip import FLIPPED, SlipFact

__all__ = [
    "answer",
    "common_fault",
    "keep",
    "laid_on",
    "lay_it_on",
    "located_reasons",
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
    return (say("Here are the options {labels}.", labels=list_in_words(labels)), say("Let us try them one by one."))


def reasons_known(verdict: Verdict) -> tuple[SlipFact | ReasonFact, ...]:
    """The facts that speak best against a wrong option, in the order in which they are told; () for none.

    The slip that makes it, that it is flipped where the slip does not say so, then one with a place.
    """
    located = located_reasons(verdict)
    slips = [verdict.slip] if verdict.slip is not None else []
    flips = [] if _says_flipped(verdict.slip) else [fact for fact in verdict.reasons if isinstance(fact, MirrorFact)]
    return (*slips, *flips[:1], *located[:1])


def located_reasons(verdict: Verdict) -> list[DifferenceFact]:
    """The differences that have a place, the clearest first."""
    return [fact for fact in verdict.reasons if isinstance(fact, DifferenceFact)]


def reasons_said(verdict: Verdict) -> tuple[SlipFact | ReasonFact, ...]:
    """The facts that ``rule_out`` puts into words, in that order; the last one has the place to be ringed.

    A slip or a flip is told together with a place, because a learner must see where the option goes wrong.

    Raises : FactError where no reason with a place is known, as for an option that differs by a hair
    """
    facts = reasons_known(verdict)
    if not facts or not isinstance(facts[-1], DifferenceFact):
        raise FactError(
            f"option {verdict.label} is not the same outline, but differs from it by too little to be pointed at: "
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
    return verdict.slip.words()


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
    return (*sentences, say("So option {label} is out.", label=verdict.label))


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
    labels = list_in_words([verdict.label for verdict in verdicts])
    located = [_located(verdict) for verdict in verdicts]
    fault_of = next((fault_of for fault_of in _FAULTS if _is_shared(fault_of, verdicts)), None)
    if fault_of is None:
        raise FactError(f"options {labels} do not share a fault, so they cannot be ruled out together")
    if fault_of is _slip_fault:
        slips = [verdict.slip for verdict in verdicts if verdict.slip is not None]
        shared: tuple[str, ...] = (slips[0].shared_words(slips),)
    else:
        (shared,) = {verified(fact, fact.of_several()) for fact in located}
    parts = []
    for verdict, fact in zip(verdicts, located, strict=True):
        # Figures that all of them share have been told: of each only the place is left to tell.
        told = reason(fact) if fault_of is _slip_fault else (place_said(fact),)
        parts.append((*slip_said(verdict), laid_on(verdict.label), *told))
    first, *between, last = parts
    look, out = (
        say("Look at options {labels} together.", labels=labels),
        say("So options {labels} are out.", labels=labels),
    )
    return ((look, *shared, *first), *between, (*last, out))


def laid_on(label: str) -> str:
    """The sentence with which an option is laid on the outline."""
    return say("Lay option {label} on the outline.", label=label)


def lay_it_on() -> str:
    """The sentence with which the option that has just been turned is laid on the outline."""
    return say("Lay it on the outline.")


def reason(fact: SlipFact | ReasonFact) -> tuple[str, ...]:
    """One reason in words: true of the option, false of the outline.

    Raises : FactError where it does not hold
    """
    return fact.words() if isinstance(fact, SlipFact) else verified(fact, fact.over_outline())


def place_said(fact: DifferenceFact) -> str:
    """The one sentence of a reason that speaks of its place: the ring comes with it.

    Raises : as ``reason``
    """
    return verified(fact, (fact.where_over_outline(),))[0]


def _located(verdict: Verdict) -> DifferenceFact:
    fact = reasons_said(verdict)[-1]
    assert isinstance(fact, DifferenceFact)  # reasons_said makes sure of it
    return fact


def _plain_fault(verdict: Verdict) -> Hashable:
    located = located_reasons(verdict)
    return located[0].of_several() or None if located and located[0].is_seen_at_once else None


def _slip_fault(verdict: Verdict) -> Hashable:
    slip = verdict.slip
    return slip.cases[0].slip if slip is not None and len(slip.cases) == 1 else None


def _figure_fault(verdict: Verdict) -> Hashable:
    located = located_reasons(verdict)
    return located[0].of_several() or None if located and verdict.slip is None else None


# From the fault that is seen soonest. Each gives None for an option without such a fault.
_FAULTS: tuple[Callable[[Verdict], Hashable], ...] = (_plain_fault, _slip_fault, _figure_fault)


def _is_shared(fault_of: Callable[[Verdict], Hashable], verdicts: Sequence[Verdict]) -> bool:
    faults = {fault_of(verdict) for verdict in verdicts}
    return len(faults) == 1 and None not in faults


def _says_flipped(slip: SlipFact | None) -> bool:
    return slip is not None and [case.slip for case in slip.cases] == [FLIPPED]


def keep(fact: SameFact, outline: OutlineFact | None = None) -> tuple[str, ...]:
    """The right option is confirmed feature by feature, then laid on the outline.

    outline : the outline in figures, which are the option's too; without it the option is only laid on
    Raises  : FactError where one of the two does not hold, or they speak of two outlines
    """
    if is_no_turn(fact.turn_deg):
        turned = say("Option {label} needs no turn.", label=fact.label)
    else:
        turned = turn_option(fact.label, fact.turn_deg)
    laid = verified(fact, (turned, lay_it_on(), say("Every corner and every side fits.")))
    if outline is None:
        return laid
    if outline.outline != fact.outline:
        raise FactError(f"option {fact.label} is the same as one outline, and the figures are those of another")
    return (*verified(outline, _features(fact.label, outline)), *laid)


def _features(label: str, outline: OutlineFact) -> tuple[str, ...]:
    if not outline.holes:
        return (
            say_count(
                "Option {label} has {count} corner, like the outline.",
                "Option {label} has {count} corners, like the outline.",
                outline.corners,
                label=label,
            ),
        )
    return (
        say_count(
            "Option {label} has {count} hole, like the outline.",
            "Option {label} has {count} holes, like the outline.",
            outline.holes,
            label=label,
        ),
        say_count("Both have {count} corner in all.", "Both have {count} corners in all.", outline.corners),
    )


def answer(label: str) -> tuple[str, ...]:
    """The answer."""
    return (say("The answer is {label}.", label=label),)

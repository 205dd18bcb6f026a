"""The options: why one is out, why one fits, the answer."""

from __future__ import annotations

from collections.abc import Sequence

from ...errors import FactError
from ...words.messages import once, say, say_count
from ...words.names import is_no_turn
from ...words.turning import turn_and_fit
from ..differences.difference import DifferenceFact, ReasonFact
from ..differences.mirror import MirrorFact
from ..fact import Fact, verified
from ..finished import OutlineFact
from ..model import Verdict
from ..same import SameFact
from ..sieves.sieve import out
from ..slip import FLIPPED, SlipFact
from ..walk import WalkFact

__all__ = [
    "answer",
    "flips_known",
    "keep",
    "laid_on",
    "located_reasons",
    "look_first",
    "options_shown",
    "place_said",
    "reason",
    "reasons_known",
    "reasons_said",
    "rule_out",
    "walked",
    "walked_alike",
]


def options_shown(*, sifted: bool) -> tuple[str, ...]:
    """The options come back into view.

    sifted : whether some are ruled out by what can be seen before any is tried
    """
    if sifted:
        return (look_first(),)
    return (say("Here are the options."), say("Let us try them one by one."))


def look_first() -> str:
    """Options are looked at before any is laid on."""
    return once(say("Which can you rule out at once?"), later=say("Here are the options."))


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


def reasons_said(verdict: Verdict, *, slips_told: bool = True) -> tuple[SlipFact | ReasonFact, ...]:
    """The facts that ``rule_out`` puts into words, in that order; the last one has the place to be ringed.

    A slip or a flip is told together with a place, because a learner must see where the option goes wrong.

    slips_told : whether the slip is told; where it would have said that the option is flipped, that is said else
    Raises : FactError where no reason with a place is known, as for an option that differs by a hair
    """
    facts = reasons_known(verdict)
    if not facts or not isinstance(facts[-1], DifferenceFact):
        raise FactError(
            f"option {verdict.label} is not the same outline, but differs from it by too little to be pointed at: "
            "make the difference larger, or leave the option out"
        )
    if not slips_told and _says_flipped(verdict.slip):
        flips = [fact for fact in verdict.reasons if isinstance(fact, MirrorFact)]
        return (*facts[:-1], *flips[:1], facts[-1])
    return facts


def rule_out(verdict: Verdict, *, number: int = 0, slips_told: bool = True) -> tuple[str, ...]:
    """Why a wrong option is out: laid on the outline, what differs, the slip behind it in short, then the verdict.

    number     : how many options are out already, so that the verdict is not said in the same way each time
    slips_told : whether the slip is told
    Raises     : FactError where a reason does not hold, or none can be pointed at
    """
    slip = verdict.slip.in_short() if verdict.slip is not None and slips_told else ()
    if verdict.slip is not None and verdict.slip.label != verdict.label:
        raise FactError(f"a slip of option {verdict.slip.label} is told of option {verdict.label}")
    said = reasons_said(verdict, slips_told=slips_told)
    seen = [sentence for fact in said if not isinstance(fact, SlipFact) for sentence in reason(fact)]
    return (laid_on(verdict.label), *seen, *slip, out((verdict.label,), number))


def said_short(verdict: Verdict) -> str:
    """Why a wrong option is out, in a heading.

    Raises : as ``rule_out``
    """
    fact = reasons_said(verdict)[-1]
    assert isinstance(fact, DifferenceFact)
    return verified(fact, (fact.heading(),))[0]


def walked(label: str, fact: WalkFact) -> tuple[str, ...]:
    """Why a flipped option is out: walked round with the outline.

    Raises : FactError where the walk does not hold
    """
    return verified(
        fact,
        (
            *fact.beginning(),
            *fact.order(),
            once(
                say("So {label} is flipped: no turn undoes that.", label=label),
                "what a flip is",
                later=say("So {label} is flipped.", label=label),
            ),
        ),
    )


def walked_alike(fact: WalkFact, *, is_known: bool) -> tuple[str, ...]:
    """The right option is walked round with the outline.

    is_known : whether another has been walked round from the same place
    """
    if is_known:
        return (fact.order_again(),)
    return (*fact.beginning(), *fact.order())


def flips_known(verdict: Verdict) -> tuple[Fact, ...]:
    """The facts that say that an option is flipped."""
    return tuple(fact for fact in reasons_known(verdict) if isinstance(fact, MirrorFact) or _is_flip(fact))


def laid_on(label: str) -> str:
    """The sentence with which an option is laid on the outline."""
    return say("Lay option {label} on the outline.", label=label)


def reason(fact: ReasonFact) -> tuple[str, ...]:
    """One reason in words: true of the option, false of the outline.

    Raises : FactError where it does not hold
    """
    return verified(fact, fact.over_outline())


def place_said(fact: DifferenceFact) -> str:
    """The one sentence of a reason that speaks of its place: the ring comes with it.

    Raises : as ``reason``
    """
    return verified(fact, (fact.where_over_outline(),))[0]


def _is_flip(fact: Fact) -> bool:
    return isinstance(fact, SlipFact) and _says_flipped(fact)


def _says_flipped(slip: SlipFact | None) -> bool:
    return slip is not None and [case.slip for case in slip.cases] == [FLIPPED]


def keep(fact: SameFact, outline: OutlineFact | None = None, *, walked: Sequence[str] = ()) -> tuple[str, ...]:
    """The right option is confirmed feature by feature, then laid on the outline.

    outline : the outline in figures, which are the option's too; without it the option is only laid on
    walked  : what is said while both are walked round, made from a fact of its own
    Raises  : FactError where one of the two does not hold, or they speak of two outlines
    """
    if is_no_turn(fact.turn_deg):
        turned = say("Option {label} needs no turn: it fits all the way round.", label=fact.label)
    else:
        turned = turn_and_fit(fact.label, fact.turn_deg)
    laid = verified(fact, (turned,))
    if outline is None or walked:  # the features are named on the walk
        return (*walked, *laid)
    if outline.outline != fact.outline:
        raise FactError(f"option {fact.label} is the same as one outline, and the figures are those of another")
    return (*verified(outline, _features(fact.label, outline)), *walked, *laid)


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

"""The marking sheet: for every option what a learner who chose it probably did, and what to practise; for teachers."""

from __future__ import annotations

from dataclasses import dataclass

from ...errors import FactError
from ...words.messages import say
from ...words.names import sentence_case
from ..differences.difference import ReasonFact
from ..differences.mirror import MirrorFact
from ..fact import verified
from ..model import Verdict
from ..sieves.sieve import SieveFact
from ..slip import SlipCase
from ..walk import WalkFact
from .choices import reasons_known

__all__ = ["MarkingEntry", "marking_entry", "reason_on_sheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkingEntry:
    """One option's line on the marking sheet."""

    label: str
    right: bool
    cases: tuple[SlipCase, ...]  # the slip behind it, or a pair; () where none is known, and for the right one
    did: str
    practise: str


def marking_entry(
    verdict: Verdict,
    *,
    ask_why: str,
    outline_given: bool = False,
    sieve: SieveFact | None = None,
    walk: WalkFact | None = None,
) -> MarkingEntry:
    """What choosing an option tells of a learner.

    sieve         : what can be counted or seen of the option, where that rules it out
    walk          : the walk round it and the outline, where that tells that it is flipped
    ask_why       : what to ask whoever chose the right one, as its kind of question says it
    outline_given : as `Question.outline_given`
    Raises        : FactError where what is said of the option does not hold, or nothing can be said of a wrong one
    """
    if verdict.same:
        text = say("Right: this is the same outline.") if outline_given else say("Right: this is the finished outline.")
        return MarkingEntry(label=verdict.label, right=True, cases=(), did=text, practise=ask_why)
    seen = _seen(sieve, walk)
    if verdict.slip is not None:
        cases = verdict.slip.cases
        fact = _ringed(verdict)
        if not seen and fact is not None and not verdict.mirrored:  # the slip says of a flipped one that it is
            seen = verified(fact, (fact.in_marking(),))
        text = " ".join((verdict.slip.did(), *seen))
        practice = " ".join(dict.fromkeys(verdict.slip.practise(case) for case in cases))
        return MarkingEntry(label=verdict.label, right=False, cases=cases, did=text, practise=practice)
    best = _best(verdict)
    hasty = say("Probably did not compare closely.")
    seen = seen or (best.in_marking(),)
    return MarkingEntry(
        label=verdict.label, right=False, cases=(), did=" ".join((hasty, *seen)), practise=best.practise()
    )


def reason_on_sheet(verdict: Verdict, sieve: SieveFact | None = None, walk: WalkFact | None = None) -> str:
    """Why a wrong option is out, in a sentence or two that need no picture: as the lesson tells it.

    What is seen comes first; the slip behind it follows only where nothing can be counted or walked round, for what is
    ringed in the lesson is said here without its place.

    sieve  : what can be counted or seen of the option, where that rules it out
    walk   : the walk round it and the outline, where that tells that it is flipped
    Raises : FactError where it does not hold, or nothing is known
    """
    seen = _seen(sieve, walk)
    if seen:
        return " ".join(seen if sieve is not None else (say("It is flipped over."), *seen))
    slip: tuple[str, ...] = () if verdict.slip is None else (f"{sentence_case(verdict.slip.in_brief())}.",)
    if verdict.mirrored:
        flip = next(fact for fact in verdict.reasons if isinstance(fact, MirrorFact))
        return verified(flip, (flip.on_answers(),))[0]
    fact = _ringed(verdict)
    if fact is None and slip:  # it is known as what a slip makes, but differs by too little to be pointed at
        return slip[0]
    fact = fact or _best(verdict)
    return " ".join((*verified(fact, (fact.on_answers(),)), *slip))


def _ringed(verdict: Verdict) -> ReasonFact | None:
    """What the lesson shows in a ring where it lays the option on the outline."""
    return next((fact for fact in reversed(reasons_known(verdict)) if isinstance(fact, ReasonFact)), None)


def _seen(sieve: SieveFact | None, walk: WalkFact | None) -> tuple[str, ...]:
    """What the lesson shows of an option without laying it on; nothing where it has to lay it on."""
    if sieve is not None:
        return verified(sieve, (sieve.in_marking(),))
    return () if walk is None else verified(walk, (walk.in_marking(),))


def _best(verdict: Verdict) -> ReasonFact:
    facts = [fact for fact in reasons_known(verdict) if isinstance(fact, ReasonFact)]
    if not facts:
        raise FactError(
            f"option {verdict.label} is not the same outline, but differs from it by too little to be told: "
            "make the difference larger, or leave the option out"
        )
    verified(facts[0], (f"option {verdict.label} differs",))
    return facts[0]

"""The marking sheet: for every option what a learner who chose it probably did, and what to practise; for teachers."""

from __future__ import annotations

from dataclasses import dataclass

from ...errors import FactError
from ...words.messages import say
from ...words.names import sentence_case
from ..differences.difference import ReasonFact
from ..fact import verified
from ..model import Verdict
from ..sieves.sieve import SieveFact
from ..slip import SlipCase
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
    verdict: Verdict, *, ask_why: str, outline_given: bool = False, sieve: SieveFact | None = None
) -> MarkingEntry:
    """What choosing an option tells of a learner.

    sieve         : what can be counted or seen of the option, where that rules it out
    ask_why       : what to ask whoever chose the right one, as its kind of question says it
    outline_given : as `Question.outline_given`
    Raises        : FactError where what is said of the option does not hold, or nothing can be said of a wrong one
    """
    if verdict.same:
        text = say("Right: this is the same outline.") if outline_given else say("Right: this is the finished outline.")
        return MarkingEntry(label=verdict.label, right=True, cases=(), did=text, practise=ask_why)
    if verdict.slip is not None:
        cases = verdict.slip.cases
        text = " ".join((verdict.slip.did(), *(() if sieve is None else _seen(sieve))))
        practice = " ".join(dict.fromkeys(verdict.slip.practise(case) for case in cases))
        return MarkingEntry(label=verdict.label, right=False, cases=cases, did=text, practise=practice)
    fact = _best(verdict)
    hasty = say("Probably did not compare closely.")
    seen = (fact.in_marking(),) if sieve is None else _seen(sieve)
    return MarkingEntry(
        label=verdict.label, right=False, cases=(), did=" ".join((hasty, *seen)), practise=fact.practise()
    )


def reason_on_sheet(verdict: Verdict, sieve: SieveFact | None = None) -> str:
    """Why a wrong option is out, in a sentence or two that need no picture: as the lesson tells it.

    sieve  : what can be counted or seen of the option, where that rules it out
    Raises : FactError where it does not hold, or nothing is known
    """
    if sieve is not None:
        return " ".join(_seen(sieve))
    if verdict.slip is not None:
        return f"{sentence_case(verdict.slip.in_brief())}."
    return _best(verdict).in_marking()


def _seen(sieve: SieveFact) -> tuple[str, ...]:
    return verified(sieve, (sieve.in_marking(),))


def _best(verdict: Verdict) -> ReasonFact:
    facts = [fact for fact in reasons_known(verdict) if isinstance(fact, ReasonFact)]
    if not facts:
        raise FactError(
            f"option {verdict.label} is not the same outline, but differs from it by too little to be told: "
            "make the difference larger, or leave the option out"
        )
    verified(facts[0], (f"option {verdict.label} differs",))
    return facts[0]

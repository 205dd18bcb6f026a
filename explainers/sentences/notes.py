"""What a teacher may point at or ask at each step; read by the teacher, never spoken."""

from __future__ import annotations

from collections.abc import Sequence

from ..choice.same import SameFact
from ..choice.slip import SlipFact
from ..words.messages import say

__all__ = [
    "compare_note",
    "keep_note",
    "outline_note",
    "remember_note",
    "rule_out_note",
    "sift_note",
    "slip_note",
    "task_note",
    "your_turn_note",
]


def task_note() -> str:
    """The question is read out."""
    return say("Let a learner say the task again in their own words before you go on.")


def your_turn_note(*, outline_given: bool = False) -> str:
    """The learners try.

    outline_given : whether they see the outline, else it is for them to work out
    """
    if outline_given:
        return say("Give the whole pause. Let learners turn the outline in their minds, or a paper one by hand.")
    return say("Give the whole pause. Let learners sketch the outline, or turn a paper piece, before they choose.")


def compare_note() -> str:
    """A question without its solution ends."""
    return say("Let learners show their options all at once, then hear a reason for each. The solution can wait.")


def outline_note() -> str:
    """The finished outline stands alone."""
    return say("Let learners count the corners themselves before the number is said.")


def rule_out_note(label: str) -> str:
    """An option is ruled out."""
    return say(
        "Ask: where does option {label} differ? Let a learner point at the place before it is ringed.", label=label
    )


def sift_note(labels: Sequence[str]) -> str:
    """Several options are ruled out by one thing that can be seen."""
    if len(labels) == 1:
        return say("Let learners count for themselves first. Ask: which option does that rule out?")
    return say("Let learners count for themselves first. Ask: which options does that rule out?")


def slip_note(fact: SlipFact) -> str:
    """A slip is replayed: what to ask, and what to practise with those who chose the option."""
    tips = dict.fromkeys(fact.practise(case) for case in fact.cases)
    ask = say("Ask, without naming anyone: how could option {label} come about?", label=fact.label)
    return " ".join((ask, *tips))


def keep_note(fact: SameFact) -> str:
    """The right option is laid on the outline."""
    return say("Let learners follow the outline of option {label} with a finger, corner by corner.", label=fact.label)


def remember_note() -> str:
    """The thing to remember."""
    return say("Ask: where else in this question did that matter?")

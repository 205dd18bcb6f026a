"""What agrees between a wrong option and the outline."""

from __future__ import annotations

from ..solution.agreement import AgreementFact
from ..words.messages import say_count
from .held import said

__all__ = ["agrees"]


def agrees(fact: AgreementFact) -> tuple[str, ...]:
    """How many sides are where they should be; nothing is said where hardly any are.

    Raises : FactError where the fact does not hold
    """
    fitting = len(fact.agreeing)
    if fitting < 2:
        return ()
    if fitting == fact.sides:
        every = say_count("Its {count} side fits the outline.", "All its {count} sides fit the outline.", fact.sides)
        return said(fact, (every,))
    some = say_count(
        "Of its {count} side, {fitting} fit the outline.",
        "Of its {count} sides, {fitting} fit the outline.",
        fact.sides,
        fitting=fitting,
    )
    return said(fact, (some,))

"""What agrees between a wrong option and the outline."""

from __future__ import annotations

from ..solution.agreement import AgreementFact
from .held import said
from .names import number_of

__all__ = ["agrees"]


def agrees(fact: AgreementFact) -> tuple[str, ...]:
    """How many sides are where they should be; nothing is said where hardly any are.

    Raises : FactError where the fact does not hold
    """
    if len(fact.agreeing) < 2:
        return ()
    if len(fact.agreeing) == fact.sides:
        return said(fact, (f"All its {number_of(fact.sides, 'side')} fit the outline.",))
    return said(fact, (f"Of its {number_of(fact.sides, 'side')}, {len(fact.agreeing)} fit the outline.",))

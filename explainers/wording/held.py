"""The gate through which every sentence about a figure passes: its fact must hold."""

from __future__ import annotations

from collections.abc import Iterable

from ..errors import FactError
from ..solution.facts import Fact

__all__ = ["said"]


def said(fact: Fact, sentences: Iterable[str]) -> tuple[str, ...]:
    """The sentences, once their fact has been recomputed from its own geometry.

    Raises : FactError where the fact does not hold: a build stops rather than say what is not so
    """
    words = tuple(sentences)
    if not fact.holds():
        raise FactError(
            f"a {type(fact).__name__} does not hold, so this cannot be said: {' '.join(words)!r}; "
            "this is a fault of the program, not of the item: please report it with the item's file"
        )
    return words

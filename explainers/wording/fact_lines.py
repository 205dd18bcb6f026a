"""Facts as short plain lines, for a teacher who compares what was true with what is true now; never spoken.

A line has the figures and names of its fact and no coordinates. The facts of a step have been held to when the step
was told, so they are not recomputed here.
"""

from __future__ import annotations

from collections.abc import Iterable

from ..choice.fact import Fact
from ..kinds.join_and_cut.solving.hard_step import HardStepFact
from ..kinds.join_and_cut.words.remember import remember_headline
from ..words.names import list_in_words, the_option, the_piece

__all__ = ["fact_line", "fact_lines", "options_line", "pause_line"]


def fact_lines(facts: Iterable[Fact]) -> tuple[str, ...]:
    """A line for each fact, in order, each line once."""
    return tuple(dict.fromkeys(fact_line(fact) for fact in facts))


def pause_line(seconds: float) -> str:
    """How long a step waits."""
    return f"the pause: {seconds:g} seconds"


def options_line(labels: Iterable[str]) -> str:
    """Which options are shown."""
    return f"the options: {list_in_words(tuple(labels))}"


def fact_line(fact: Fact) -> str:
    """One fact, without a full stop.

    Raises : TypeError for a kind of fact that it does not know
    """
    if isinstance(fact, HardStepFact):
        about = f" ({the_piece(fact.name)})" if fact.name else f" ({the_option(fact.label)})" if fact.label else ""
        return f"to remember: {remember_headline(fact)}{about}"
    return fact.as_line()

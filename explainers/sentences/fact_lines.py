"""Facts as short plain lines, for a teacher who compares what was true with what is true now; never spoken.

A line has the figures and names of its fact and no coordinates. The facts of a step have been held to when the step
was told, so they are not recomputed here.
"""

from __future__ import annotations

from collections.abc import Iterable

from ..choice.fact import Fact
from ..words.names import list_in_words

__all__ = ["fact_lines", "options_line", "pause_line"]


def fact_lines(facts: Iterable[Fact]) -> tuple[str, ...]:
    """A line for each fact, in order, each line once."""
    return tuple(dict.fromkeys(fact.as_line() for fact in facts))


def pause_line(seconds: float) -> str:
    """How long a step waits."""
    return f"the pause: {seconds:g} seconds"


def options_line(labels: Iterable[str]) -> str:
    """Which options are shown."""
    return f"the options: {list_in_words(tuple(labels))}"

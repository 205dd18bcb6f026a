"""What stands round questions of the turned outline: chapter, headings, notes of its close look; first and last words.

All of it may be read before the solution, so nothing in here says which option fits.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from ....item.model import Manner
from ....sentences.lesson import Chapter, Framing
from ....words.messages import message, say
from ..solution import TurnedOutlineSolution

__all__ = ["CLOSE_LOOK", "LookHeading", "ask_why", "corner_note", "framing", "look_heading", "page_words", "round_note"]

CLOSE_LOOK = Chapter(title=message("A close look"), of_item=message("{title}: a close look"))


class LookHeading(StrEnum):
    """Which step of the close look a heading stands over."""

    CORNER = message("A corner to know again")
    ROUND = message("Go round from there")


def look_heading(kind: LookHeading) -> str:
    """The line at the top of the stage."""
    return say(kind.value)


def framing(shown: Sequence[tuple[Manner, TurnedOutlineSolution]]) -> Framing:
    """What stands round these questions.

    shown : in order, each with how it is shown
    """
    about = (
        say("An outline is shown, with options beside it."),
        say("Which option shows this outline, turned?"),
        say("You may turn options, but never flip them."),
    )
    is_looked_at = {manner for manner, _ in shown} != {Manner.QUICK_CHECK}
    routine = (say("Find a corner that you will know again."),) if is_looked_at else ()
    return Framing(heading=say("Turn and compare"), about=about, routine=routine)


def ask_why() -> str:
    """What a teacher may ask whoever chose the right option."""
    return say("Ask how they know: which corner they found again, which way it turned.")


def corner_note() -> str:
    """A corner is ringed."""
    return say("Ask first: which corner would you find again, however the outline is turned?")


def round_note() -> str:
    """The way round is shown."""
    return say("Let learners go round the outline with a finger, then round an option, both in that direction.")


def page_words() -> dict[str, str]:
    """No texts: an option is chosen as in any question, and nothing else is handled."""
    return {}

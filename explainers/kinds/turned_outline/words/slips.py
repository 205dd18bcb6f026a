"""What happens in each slip, in whole messages: as a sentence of its own, in an option, and in brief.

No blame: it is told what becomes of the outline, never what somebody forgot or did wrongly.
"""

from __future__ import annotations

from dataclasses import dataclass

from ....words.messages import message, message_as, say

__all__ = ["HAPPENINGS", "SHARED", "Happening", "SlipMessages", "in_brief"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Happening:
    """One slip in one form; placeholder: label."""

    within: str  # it happens in an option
    also: str  # it happens besides another slip
    brief: str  # a phrase for a table
    did: tuple[str, str]  # the same for a teacher, of whoever chose the option: after "probably"


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipMessages:
    """One slip, in whatever form."""

    brief: str
    practise: str


# By how a change is told: the slip's name, and what becomes of the part where there are two ways.
HAPPENINGS = {
    "flipped": Happening(
        within=message("In option {label}, the outline is flipped over."),
        also=message("Also, the outline is flipped over."),
        brief=message("the outline flipped over"),
        did=message_as("probably", "flipped the outline over"),
    ),
    "part-moved": Happening(
        within=message("In option {label}, one part sits on another side."),
        also=message("Also, one part sits on another side."),
        brief=message("one part on another side"),
        did=message_as("probably", "knew a part again, but not where it sits"),
    ),
    "part-resized, larger": Happening(
        within=message("In option {label}, one part is made larger."),
        also=message("Also, one part is made larger."),
        brief=message("one part made larger"),
        did=message_as("probably", "took a part that is too large for the right one"),
    ),
    "part-resized, smaller": Happening(
        within=message("In option {label}, one part is made smaller."),
        also=message("Also, one part is made smaller."),
        brief=message("one part made smaller"),
        did=message_as("probably", "took a part that is too small for the right one"),
    ),
    "angle-changed": Happening(
        within=message("In option {label}, one corner is moved along a side."),
        also=message("Also, one corner is moved along a side."),
        brief=message("one corner moved along a side"),
        did=message_as("probably", "took a corner with another angle for the right one"),
    ),
}

SHARED = {
    "flipped": SlipMessages(
        brief=message("the outline flipped over"),
        practise=message("Practise telling a turned outline from a flipped one."),
    ),
    "part-moved": SlipMessages(
        brief=message("one part on another side"),
        practise=message("Practise going round an outline and saying what comes after what."),
    ),
    "part-resized": SlipMessages(
        brief=message("one part made larger or smaller"),
        practise=message("Practise holding the length of one side against the next."),
    ),
    "angle-changed": SlipMessages(
        brief=message("one corner moved along a side"),
        practise=message("Practise holding a corner of paper against an angle."),
    ),
}


def in_brief(slip: str) -> str:
    """A slip as a phrase about no question in particular."""
    return say(SHARED[slip].brief)

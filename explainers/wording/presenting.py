"""The words of a deck in the browser where it is presented, or read aloud by a recorded voice."""

from __future__ import annotations

from ..words.messages import say, say_as

__all__ = ["hearing_words", "presenting_words"]


def presenting_words() -> dict[str, str]:
    """Each text by the key under which the page looks it up."""
    return {
        "presenter_view": say_as("a button", "Presenter view (P)"),
        "presenter_title": say("Presenter view"),
        "presenter_blocked": say("The browser has not let a second window open."),
        "presenter_here": say_as("a button", "Show the presenter view in this window"),
        "presenter_close": say_as("a button", "Close the presenter view"),
        "presenter_gone": say("The deck has been closed or loaded again. Go to it and press P for a new view."),
        "presenter_now": say("On the screen now"),
        "presenter_next": say("Next slide"),
        "presenter_notes": say("Notes for the teacher"),
        "presenter_no_notes": say("There are no notes on this slide."),
        "presenter_said": say("What is said"),
        "presenter_time": say("Time since the start"),
        "presenter_restart": say_as("a button", "Start the time again"),
    }


def hearing_words(*, scratch: bool) -> dict[str, str]:
    """The same of a page with takes.

    scratch : whether the voice is a machine's
    """
    words = {
        "hear": say_as("a button", "Hear it"),
        "hear_pause": say_as("a button", "Pause the voice"),
        "hear_each": say("Read each slide aloud"),
        "hear_failed": say("This browser cannot play the voice."),
    }
    if scratch:
        words["hear_scratch"] = say("This is a machine's scratch voice, to judge the pace.")
    return words

"""The words of a deck in the browser where it is presented, or read aloud by a recorded voice."""

from __future__ import annotations

from .messages import say

__all__ = ["presenting_words"]


def presenting_words(*, scratch: bool = False) -> dict[str, str]:
    """Texts of the page by their keys; {minutes}, {number} and the like are filled in by the page.

    scratch : whether the voice is a machine's
    """
    words = {
        "presenterView": say("Presenter view"),
        "presenterHelp": say("The presenter view opens in a window of its own: notes, time and the next slide."),
        "presenterBlocked": say("The browser has not let a second window open."),
        "presenterHere": say("Show the presenter view in this window"),
        "presenterClose": say("Close the presenter view"),
        "presenterGone": say("The deck has been closed or loaded again. Go to it and press P for a new view."),
        "presenterNow": say("On the screen now"),
        "presenterNext": say("Next slide"),
        "presenterLast": say("This is the last slide."),
        "presenterNotes": say("Notes for the teacher"),
        "presenterNoNotes": say("There are no notes on this slide."),
        "presenterSaid": say("What is said"),
        "presenterTime": say("Time since the start"),
        "presenterRestart": say("Start the time again"),
        "presenterSlide": say("Slide {number} of {count}"),
        "hearIt": say("Hear it"),
        "hearStop": say("Pause the voice"),
        "hearEach": say("Read each slide aloud"),
        "hearFailed": say("This browser cannot play the voice."),
    }
    if scratch:
        words["hearScratch"] = say("This is a machine's scratch voice, to judge the pace.")
    return words

"""The words of the page of a deck, beside those of the lesson itself: buttons, choices, notices.

Among them are those of the page from which it is presented, and of a deck that is read aloud by a recorded voice.

Texts with a placeholder are filled by the page; the others are shown as they are.
"""

from __future__ import annotations

from ..words.messages import say, say_as
from .moving import moving_words

__all__ = ["deck_words", "hearing_words", "needs_scripting", "presenting_words"]


def deck_words() -> dict[str, str]:
    """Each text by the key under which the page looks it up."""
    number, count, text = "{number}", "{count}", "{text}"
    return {
        "slides": say("Slides"),
        "position": say("Slide {number} of {count}", number=number, count=count),
        "back": say_as("a button", "Back"),
        "next": say_as("a button", "Next"),
        "again": say_as("a button", "Play again"),
        "menu": say_as("a button", "Menu"),
        "close": say_as("a button", "Close"),
        "contents": say("Contents"),
        "closed": say("not open yet"),
        "before": say_as("a picture", "Before"),
        "after": say_as("a picture", "After"),
        "before_picture": say("Before: {text}", text=text),
        "after_picture": say("After: {text}", text=text),
        "larger": say_as("a button", "Larger picture"),
        "smaller": say_as("a button", "Whole picture"),
        "larger_region": say("The picture, larger. Scroll to see all of it."),
        "in_words": say("The picture in words"),
        "movement": say("Movement"),
        "calm": say("Show before and after, and let nothing move"),
        "colours": say("Colours"),
        "palette_auto": say("As this device is set"),
        "palette_light": say_as("colours", "Light"),
        "palette_dark": say_as("colours", "Dark"),
        "palette_contrast": say_as("colours", "High contrast"),
        "palette_own": say("This lesson has colours of its own. It is shown in these alone."),
        "more": say("More"),
        "print": say_as("a button", "Print the slides opened so far"),
        "sealed": say("The solution is still closed. Choose an option, or ask for the solution."),
        "reveal": say_as("a button", "Show me the solution"),
        "packed": say("Solutions are packed, so that nobody reads them by chance. They are not secret."),
        "cannot_open": say("This browser cannot open what is packed. Try a newer one."),
        "last": say("This is the last slide."),
        "keys": say(
            "Page Up and Page Down go back and on, and so do the arrow keys, save while they move a piece. "
            "Home and End go to the first and the last slide."
        ),
        "own_words": say("the teacher's own words"),
        **moving_words(),
    }


def needs_scripting() -> str:
    """What is said where a browser runs no scripts."""
    return say("Here is the first slide. To go on, let your browser run the script of this page.")


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
    """The words of a page with takes, by the key under which it looks them up.

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

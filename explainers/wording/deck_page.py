"""The words of the page on which a lesson is handled, beside those of the lesson itself: buttons, choices, notices.

Texts with a placeholder are filled by the page; the others are shown as they are.
"""

from __future__ import annotations

from ..words.messages import say, say_as

__all__ = ["deck_words", "needs_scripting"]


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
        "keys": say("The arrow keys go back and on. Home and End go to the first and the last slide."),
        "own_words": say("the teacher's own words"),
    }


def needs_scripting() -> str:
    """What is said where a browser runs no scripts."""
    return say("Here is the first slide. To go on, let your browser run the script of this page.")

"""What stands on the prompter page round a lesson's own words, for whoever reads it aloud."""

from __future__ import annotations

from ..words.messages import say, say_as

__all__ = ["prompter_about", "prompter_buttons", "prompter_done", "steps_read"]


def prompter_about() -> str:
    """How the page is used, before the first step."""
    return say(
        "Start your recorder, then press the space bar. Read each step aloud; press the space bar to go on, A to read "
        "the same step again, the left arrow to go back one. Of a step that you read twice, the last time counts. "
        "Leave a breath of silence before you go on."
    )


def prompter_done() -> str:
    """After the last step; the command to type follows."""
    return say(
        "That was the last step. Stop your recorder. The times have been saved as a file; fit the recording with it:"
    )


def steps_read() -> str:
    """Names the bar that fills, for whoever cannot see it."""
    return say_as("on the prompter", "Steps read")


def prompter_buttons() -> dict[str, str]:
    """Words of the buttons, and of what the page counts; {number}, {total} and {seconds} are filled in by the page."""
    return {
        "start": say_as("a button", "Start"),
        "next": say_as("a button", "Next"),
        "back": say_as("a button", "Back"),
        "again": say_as("a button", "Again"),
        "save": say_as("a button", "Save the times again"),
        "count": say_as("on the prompter", "{number} of {total}", number="{number}", total="{total}"),
        "left": say_as("on the prompter", "{seconds} s left", seconds="{seconds}"),
    }

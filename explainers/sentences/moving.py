"""The words of the controls with which a learner moves about what lies in a picture."""

from __future__ import annotations

from ..words.messages import say

__all__ = ["moving_words"]


def moving_words() -> dict[str, str]:
    """Each text by the key under which the page looks it up; {count} is filled there."""
    count = "{count}"
    return {
        "handle.finger": say("Slide it with one finger. Turn it with two fingers, or by the round grip."),
        "handle.mouse": say("Drag it to move it. Drag the round grip to turn it."),
        "handle.keys": say(
            "Arrow keys move it a little, with Shift farther. R turns it clockwise, L anticlockwise, "
            "with Shift only a little. Page Down goes on, Page Up goes back."
        ),
        "handle.steps": say("Move and turn it"),
        "handle.loose": say("Try it here with your hands"),
        "handle.whichOne": say("Which one to move"),
        "handle.turnLeft": say("Turn anticlockwise"),
        "handle.turnRight": say("Turn clockwise"),
        "handle.left": say("Move left"),
        "handle.right": say("Move right"),
        "handle.up": say("Move up"),
        "handle.down": say("Move down"),
        "handle.large": say("Large steps"),
        "handle.putBack": say("Put back"),
        "handle.turnedLeft": say("Turned {count} degrees anticlockwise.", count=count),
        "handle.turnedRight": say("Turned {count} degrees clockwise.", count=count),
        "handle.turnedLeftByOne": say("Turned 1 degree anticlockwise."),
        "handle.turnedRightByOne": say("Turned 1 degree clockwise."),
        "handle.movedLeft": say("Moved left."),
        "handle.movedRight": say("Moved right."),
        "handle.movedUp": say("Moved up."),
        "handle.movedDown": say("Moved down."),
        "handle.edge": say("It can go no farther this way."),
        "handle.back": say("It is back where it was."),
        "handle.allBack": say("All are back where they were."),
    }

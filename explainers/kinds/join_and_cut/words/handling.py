"""The words of the controls with which a learner lays a piece by hand."""

from __future__ import annotations

from ....words.messages import say

__all__ = ["handling_words"]


def handling_words() -> dict[str, str]:
    """The texts of the page where a piece is laid, by key; {count} and {piece} are filled there."""
    return {
        "handle.title": say("Try it yourself"),
        "handle.lead": say("Turn the piece and slide it until the marks meet."),
        "handle.pad": say("Move the piece with the arrow keys, turn it with R and L"),
        "handle.keys": say(
            "Arrow keys move the piece a little, with Shift farther. R turns it clockwise, L anticlockwise, "
            "with Shift only a little."
        ),
        "handle.steps": say("Move and turn the piece"),
        "handle.turnLeft": say("Turn anticlockwise"),
        "handle.turnRight": say("Turn clockwise"),
        "handle.left": say("Move left"),
        "handle.right": say("Move right"),
        "handle.up": say("Move up"),
        "handle.down": say("Move down"),
        "handle.large": say("Large steps"),
        "handle.putBack": say("Put back"),
        "handle.show": say("Show me"),
        "handle.turnedLeft": say("Turned {count} degrees anticlockwise.", count="{count}"),
        "handle.turnedRight": say("Turned {count} degrees clockwise.", count="{count}"),
        "handle.turnedLeftByOne": say("Turned 1 degree anticlockwise."),
        "handle.turnedRightByOne": say("Turned 1 degree clockwise."),
        "handle.movedLeft": say("Moved left."),
        "handle.movedRight": say("Moved right."),
        "handle.movedUp": say("Moved up."),
        "handle.movedDown": say("Moved down."),
        "handle.edge": say("This is the edge of the picture."),
        "handle.back": say("The piece is back where it was."),
        "handle.apart": say("The marks do not meet yet."),
        "handle.turnIsNear": say("The turn is nearly right. Now slide the piece."),
        "handle.turnIsRight": say("The turn is right. Now slide the piece."),
        "handle.placeIsNear": say("The place is nearly right. Now turn the piece."),
        "handle.placeIsRight": say("The place is right. Now turn the piece."),
        "handle.again": say("To try again, put the piece back."),
    }

"""What is said while a learner lays a piece by hand; the words of the controls are those of the page."""

from __future__ import annotations

from ....words.messages import say

__all__ = ["handling_words"]


def handling_words() -> dict[str, str]:
    """The texts of the page where a piece is laid, by key."""
    return {
        "handle.title": say("Try it yourself"),
        "handle.lead": say("Turn the piece and slide it until the marks meet."),
        "handle.show": say("Show me"),
        "handle.apart": say("The marks do not meet yet."),
        "handle.turnIsNear": say("The turn is nearly right. Now slide the piece."),
        "handle.turnIsRight": say("The turn is right. Now slide the piece."),
        "handle.placeIsNear": say("The place is nearly right. Now turn the piece."),
        "handle.placeIsRight": say("The place is right. Now turn the piece."),
        "handle.again": say("To try again, put the piece back."),
    }

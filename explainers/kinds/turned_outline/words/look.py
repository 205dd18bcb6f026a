"""What a teacher may ask while the outline is looked at closely; read by the teacher, never spoken."""

from __future__ import annotations

from ....words.messages import say

__all__ = ["corner_note", "round_note"]


def corner_note() -> str:
    """A corner is ringed."""
    return say("Ask first: which corner would you find again, however the outline is turned?")


def round_note() -> str:
    """The way round is shown."""
    return say("Let learners go round the outline with a finger, then round an option, both in that direction.")

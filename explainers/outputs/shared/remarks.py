"""What must be said of a lesson wherever its words are written down or sounded: a draft language, a machine's voice."""

from __future__ import annotations

from ...sentences.writers import scratch_note
from ...storyboard.timeline import Timeline
from ...words.messages import speaking

__all__ = ["remarks_on"]


def remarks_on(timeline: Timeline) -> tuple[str, ...]:
    """A line each; () for words that are read, and a voice that is a person's, or none."""
    board = timeline.storyboard
    draft = (board.imprint.draft,) if board.imprint.draft else ()
    if timeline.narration is None or not timeline.narration.scratch:
        return draft
    with speaking(board.language):
        return (*draft, scratch_note())

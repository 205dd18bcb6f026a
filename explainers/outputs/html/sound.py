"""The takes of a lesson as sounds that stand in a page themselves, for a deck that is read aloud.

The page's policy allows `media-src data:` only where there are takes.
"""

from __future__ import annotations

import base64
from collections.abc import Callable

from ...storyboard.timeline import Timeline

__all__ = ["MEDIA_FROM", "sound_of", "spoken_by_machine"]

MEDIA_FROM = "data:"  # where the policy of a page with takes lets sounds come from


def sound_of(timeline: Timeline) -> Callable[[str], str | None]:
    """A function that gives the take of a step, by its id, as a data URI; None for a step without one.

    Raises : RecordingError, when it is called, for a take that cannot be read
    """
    narration = timeline.narration
    if narration is None or not narration.takes:
        return lambda step_id: None
    takes = narration.takes

    def sound(step_id: str) -> str | None:
        path = takes.get(step_id)
        if path is None:
            return None
        # Here, so that a deck without a voice loads no coders.
        from ...voice.sound import read_sound
        from ...voice.take_file import MEDIA_TYPE, take_file

        return f"data:{MEDIA_TYPE};base64,{base64.b64encode(take_file(read_sound(path))).decode()}"

    return sound


def spoken_by_machine(timeline: Timeline) -> bool:
    """Whether the voice is a scratch one, which a page that plays it must say."""
    return timeline.narration is not None and timeline.narration.scratch

"""What is seen, as WebVTT of the kind "descriptions": a program reads it out to who cannot see the clip.

A picture is described from the moment at which it stands until the next one is, and never beyond its step. A pause is
long enough to hear all of a picture, so that there it is described once more and whole. No two descriptions overlap.
"""

from __future__ import annotations

from ...storyboard.timeline import Timeline
from ..shared.captions import vtt_of
from ..shared.seen_and_said import MomentKind, moments

__all__ = ["descriptions_vtt_text"]


def descriptions_vtt_text(timeline: Timeline) -> str:
    """The descriptions as WebVTT, one line a cue."""
    seen = [moment for moment in moments(timeline) if moment.kind is not MomentKind.SAID]
    # Where a pause begins with a new picture, the pause tells it.
    waits = {moment.start_s for moment in seen if moment.kind is MomentKind.WAIT}
    told = [moment for moment in seen if moment.kind is MomentKind.WAIT or moment.start_s not in waits]
    return vtt_of((moment.start_s, moment.end_s, (moment.text,)) for moment in told if moment.text)

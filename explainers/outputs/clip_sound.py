"""The sound of a clip: the takes of its steps, laid along its timeline and coded once."""

from __future__ import annotations

from ..storyboard.timeline import Timeline
from ..video.assembly import CodedSound

__all__ = ["clip_sound"]


def clip_sound(timeline: Timeline) -> CodedSound | None:
    """The narration as it goes into the file; None for a lesson without a voice.

    Raises : RecordingError for a take that cannot be read, OutputError where it cannot be brought below the ceiling
    """
    narration = timeline.narration
    if narration is None or not narration.takes:
        return None
    # Here, so that a clip without a voice loads no filters.
    from ..voice.sound import read_sound
    from ..voice.track import AAC_FRAME, BIT_RATE, coded, laid

    takes = {
        timeline.step_span(step_id)[0] / timeline.fps: read_sound(path) for step_id, path in narration.takes.items()
    }
    target = narration.loudness_lufs
    track = coded(laid(takes, timeline.seconds, target), target)
    return CodedSound(packets=track.packets, run_up=track.run_up, samples=AAC_FRAME, bit_rate=BIT_RATE)

"""The captioned clip of a lesson: an MP4 file, with its captions beside it as VTT and SRT."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path

from ...errors import OutputError
from ...safe_write import whole_file, work_folder
from ...storyboard.excerpt import excerpt
from ...storyboard.timeline import Timeline
from ...video.assembly import CodedSound, write_mp4, written_parts
from ...video.encoder import EncoderOptions
from ..shared import captions
from .assembly import clip_job, clip_labels, coded_frames, placed_spans
from .drawing_process import Progress
from .drawn_shots import have_drawn
from .key_frames import KeyFrames
from .sound import clip_sound

__all__ = ["PREVIEW_SIZE", "SIZE", "KeyFrames", "write_clip"]

SIZE = (1920, 1080)
PREVIEW_SIZE = (640, 360)


def write_clip(
    timeline: Timeline,
    folder: Path,
    *,
    preview: bool = False,
    key_frames: KeyFrames = KeyFrames.SEEKING,
    step: str | None = None,
    options: EncoderOptions | None = None,
    progress: Progress | None = None,
) -> tuple[Path, ...]:
    """Write NAME.mp4, NAME.vtt and NAME.srt; all of them, or none.

    Only what was never drawn before is drawn; see `drawn_shots`.

    preview  : small and fast, to look at
    step     : the id of the one step that is wanted, or what the ids of several begin with, as those of one piece
    options  : encoder options other than the package's own, for the frame rate of the timeline; they set the size too
    progress : called with the pictures drawn so far and the pictures to draw; never, if there are none
    Raises   : OutputError if it cannot be drawn or written, FontError for a missing typeface or character
    """
    if step is not None:
        timeline = excerpt(timeline, step)
    if options is None:
        width, height = PREVIEW_SIZE if preview else SIZE
        options = EncoderOptions(width=width, height=height, fps=timeline.fps)
    places = placed_spans(timeline, key_frames)
    name = timeline.storyboard.name
    clip, vtt, srt = (folder / f"{name}.{suffix}" for suffix in ("mp4", "vtt", "srt"))
    with work_folder(folder) as work, ExitStack() as stack:
        have_drawn(clip_job(timeline, options, places), work, progress)
        unfinished = stack.enter_context(whole_file(clip))
        sound = clip_sound(timeline)
        frames = coded_frames(timeline, options, work, places)
        write_mp4(unfinished, options, frames, clip_labels(timeline), sound)
        _check(unfinished, timeline, sound)
        stack.enter_context(whole_file(vtt)).write_text(captions.vtt_text(timeline), encoding="utf-8", newline="")
        stack.enter_context(whole_file(srt)).write_text(captions.srt_text(timeline), encoding="utf-8", newline="")
    return clip, vtt, srt


def _check(path: Path, timeline: Timeline, sound: CodedSound | None) -> None:
    """Open the file again: what was planned must be in it."""
    parts = written_parts(path)
    planned = (timeline.frames, len(timeline.chapters), len(timeline.cues))
    if (parts.frames, parts.chapters, parts.captions) != planned:
        raise OutputError(
            f"{path.name}: {parts.frames} frames, {parts.chapters} chapters and {parts.captions} captions were written "
            f"where {planned[0]}, {planned[1]} and {planned[2]} were planned; nothing was kept"
        )
    if parts.sounds != (len(sound.packets) if sound is not None else 0):
        raise OutputError(f"{path.name}: the narration was not written in full; nothing was kept")

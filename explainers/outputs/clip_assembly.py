"""From the spans of a timeline to the shots to draw, and from drawn shots back to the frames of a clip.

Equal stills and equal motions are one shot, however often they are seen.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from ..errors import OutputError
from ..figure.model import Figure
from ..frames.content_key import drawing_key
from ..storyboard.timeline import Timeline
from ..video.assembly import ChapterMark, CodedFrame, Labels, TextCue, stream_header
from ..video.encoder import EncoderOptions
from ..video.segment import Segment, read_segment
from ..video.skip_packets import hold_packets
from .drawing_job import Job, Shot, segment_path, skips_path

__all__ = ["Placed", "clip_job", "clip_labels", "coded_frames", "placed_spans"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A span of the timeline and the segment that fills it."""

    shot: str
    shows_still: bool
    frames: int
    idr_id: int


def placed_spans(timeline: Timeline) -> tuple[Placed, ...]:
    """The spans in order, each with the name of its shot.

    A span of a single frame is one IDR picture alone. The next span starts with another, and two in a row must not bear
    the same id; everywhere else the id is 0.
    """
    keys: dict[int, str] = {}  # by identity: spans share their figures
    placed: list[Placed] = []
    for span in timeline.spans:
        shows = span.shows
        if id(shows) not in keys:
            keys[id(shows)] = drawing_key(shows)
        still = isinstance(shows, Figure)
        name = f"still-{keys[id(shows)]}" if still else f"motion-{keys[id(shows)]}-{span.frames}"
        alone = bool(placed) and placed[-1].frames == 1
        idr_id = 1 - placed[-1].idr_id if alone else 0
        placed.append(Placed(shot=name, shows_still=still, frames=span.frames, idr_id=idr_id))
    return tuple(placed)


def clip_job(timeline: Timeline, options: EncoderOptions) -> Job:
    """Every different still and motion, in the order in which they are first seen."""
    ids: dict[str, set[int]] = {}
    shows: dict[str, Shot] = {}
    for span, place in zip(timeline.spans, placed_spans(timeline), strict=True):
        ids.setdefault(place.shot, set()).add(place.idr_id)
        shows.setdefault(
            place.shot, Shot(name=place.shot, shows=span.shows, frames=1 if place.shows_still else place.frames)
        )
    return Job(
        options=options,
        shots=tuple(
            Shot(name=name, shows=shot.shows, frames=shot.frames, idr_ids=tuple(sorted(ids[name])))
            for name, shot in shows.items()
        ),
    )


def coded_frames(timeline: Timeline, options: EncoderOptions, folder: Path) -> Iterator[CodedFrame]:
    """Every frame of the clip in order, from the segments in the folder.

    Raises : OutputError where a segment was encoded with other parameter sets than the clip's
    """
    header = stream_header(options)
    skips = read_segment(skips_path(folder)).packets if skips_path(folder).exists() else None
    known: dict[tuple[str, int], Segment] = {}
    for place in placed_spans(timeline):
        key = (place.shot, place.idr_id)
        if key not in known:
            known[key] = read_segment(segment_path(folder, *key))
            if known[key].header != header:
                raise OutputError("parts of the clip were encoded in different ways and cannot be put together")
        segment = known[key]
        packets = hold_packets(segment, place.frames, skips) if place.shows_still else segment.packets
        for packet in packets:
            yield CodedFrame(packet=packet, is_idr=packet == segment.packets[0])


def clip_labels(timeline: Timeline) -> Labels:
    """Title, language, chapters and captions of the clip."""
    return Labels(
        title=timeline.storyboard.title,
        language=timeline.storyboard.language,
        chapters=[ChapterMark(title=part.title, start=part.start, end=part.end) for part in timeline.chapters],
        cues=[TextCue(start_s=cue.start_s, end_s=cue.end_s, text="\n".join(cue.lines)) for cue in timeline.cues],
    )

"""From the spans of a timeline to the shots to draw, and from drawn shots back to the frames of a clip.

Equal stills and equal motions are one shot, however often they are seen. How long a still is held is no part of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from pathlib import Path

from ...errors import OutputError
from ...figure.model import Figure
from ...frames.content_key import drawing_keys
from ...storyboard.timeline import Timeline
from ...video.assembly import ChapterMark, CodedFrame, Labels, TextCue, stream_header
from ...video.encoder import EncoderOptions
from ...video.plain_encoding import plainly_encoded, segments_can_be_joined
from ...video.segment import Segment, read_segment
from ...video.skip_packets import LONGEST_GOP, hold_packets, run_lengths
from ..shared.remarks import remarks_on
from .drawing_job import DrawingJob, Shot, segment_path, skips_path
from .key_frames import KeyFrames

__all__ = ["Placed", "clip_job", "clip_labels", "coded_frames", "placed_spans"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A span of the timeline and the segment that fills it."""

    shot: str
    key: str  # the drawing key of what is shown
    shows_still: bool
    runs: tuple[int, ...]  # how many frames each key frame carries, itself included
    idr_id: int

    @property
    def frames(self) -> int:
        """Length of the span."""
        return sum(self.runs)

    @property
    def key_frames(self) -> tuple[int, ...]:
        """Frames of the span that are key frames, counted from 0."""
        return tuple(accumulate(self.runs[:-1], initial=0))


def placed_spans(timeline: Timeline, key_frames: KeyFrames = KeyFrames.SEEKING) -> tuple[Placed, ...]:
    """The spans in order, each with the name of its shot.

    A span of a single frame is one IDR picture alone. The next span starts with another, and two in a row must not bear
    the same id; everywhere else the id is 0.
    """
    longest = LONGEST_GOP if key_frames is KeyFrames.SEEKING else None
    placed: list[Placed] = []
    for span, key in zip(timeline.spans, drawing_keys(span.shows for span in timeline.spans), strict=True):
        still = isinstance(span.shows, Figure)
        runs = run_lengths(span.frames, longest)
        name = f"still-{key}" if still else f"motion-{key}-{span.frames}-{len(runs)}"
        alone = bool(placed) and placed[-1].frames == 1
        idr_id = 1 - placed[-1].idr_id if alone else 0
        placed.append(Placed(shot=name, key=key, shows_still=still, runs=runs, idr_id=idr_id))
    return tuple(placed)


def clip_job(timeline: Timeline, options: EncoderOptions, places: Sequence[Placed] | None = None) -> DrawingJob:
    """Every different still and motion, in the order in which they are first seen.

    places : the `placed_spans`, where the caller has them already
    """
    places = placed_spans(timeline) if places is None else places
    ids: dict[str, set[int]] = {}
    for place in places:
        ids.setdefault(place.shot, set()).add(place.idr_id)
    shots: dict[str, Shot] = {}
    for span, place in zip(timeline.spans, places, strict=True):
        if place.shot not in shots:
            shots[place.shot] = Shot(
                name=place.shot,
                shows=span.shows,
                frames=1 if place.shows_still else place.frames,
                idr_ids=tuple(sorted(ids[place.shot])),
                key_frames=(0,) if place.shows_still else place.key_frames,
                key=place.key,
            )
    return DrawingJob(options=options, shots=tuple(shots.values()))


def coded_frames(
    timeline: Timeline, options: EncoderOptions, folder: Path, places: Sequence[Placed] | None = None
) -> Iterator[CodedFrame]:
    """Every frame of the clip in order, from the segments in the folder.

    Raises : OutputError where a segment was encoded with other parameter sets than the clip's
    """
    places = placed_spans(timeline) if places is None else places
    header = stream_header(options)
    skips = read_segment(skips_path(folder)).packets if skips_path(folder).exists() else None

    def segments() -> Iterator[tuple[Placed, Segment]]:
        for place in places:  # one at a time: those of a whole lesson are as large as its clip
            segment = read_segment(segment_path(folder, place.shot, place.idr_id))
            if segment.header != header:
                raise OutputError("parts of the clip were encoded in different ways and cannot be put together")
            yield place, segment

    if skips is None and not segments_can_be_joined(options):
        yield from plainly_encoded(options, ((segment, place.runs) for place, segment in segments()))
        return
    for place, segment in segments():
        if place.shows_still:
            longest = max(place.runs)
            for packet in hold_packets(segment, place.frames, skips, longest):
                yield CodedFrame(packet=packet, is_idr=packet == segment.packets[0])
        else:
            starts = set(place.key_frames)
            for number, packet in enumerate(segment.packets):
                yield CodedFrame(packet=packet, is_idr=number in starts)


def clip_labels(timeline: Timeline) -> Labels:
    """Title, credit, licence, language, chapters and captions of the clip."""
    imprint = timeline.storyboard.imprint
    return Labels(
        title=timeline.storyboard.title,
        artist=imprint.credit,
        copyright=imprint.licence,
        album=imprint.series,
        track=imprint.number,
        comment="\n".join(remarks_on(timeline)),
        language=timeline.storyboard.language,
        chapters=[ChapterMark(title=part.title, start=part.start, end=part.end) for part in timeline.chapters],
        cues=[TextCue(start_s=cue.start_s, end_s=cue.end_s, text="\n".join(cue.lines)) for cue in timeline.cues],
    )

"""What is seen at one moment of a timeline."""

from __future__ import annotations

from bisect import bisect_right
from math import floor

from ..figure.model import Figure
from ..figure.motion import Motion
from ..storyboard.timeline import Timeline

__all__ = ["figure_at", "frame_figure"]

_SAME_FRAME = 1e-6  # in frames: k / fps times fps seldom is k


def figure_at(timeline: Timeline, t_s: float) -> Figure:
    """The figure at a time from 0 to the end of the clip, motions between frames included; ValueError outside."""
    if not 0.0 <= t_s <= timeline.seconds + _SAME_FRAME:
        raise ValueError(f"{t_s:g} s is outside the clip, which lasts {timeline.seconds:g} s")
    at = t_s * timeline.fps
    nearest = round(at)
    return _figure(timeline, float(nearest) if abs(at - nearest) < _SAME_FRAME else at)


def frame_figure(timeline: Timeline, k: int) -> Figure:
    """The figure of frame k, counted from 0; ValueError outside the clip."""
    if not 0 <= k < timeline.frames:
        raise ValueError(f"frame {k} is outside the clip, which has {timeline.frames} frames")
    return _figure(timeline, float(k))


def _figure(timeline: Timeline, at_frame: float) -> Figure:
    index = bisect_right(timeline.spans, floor(at_frame), key=lambda span: span.start) - 1
    span = timeline.spans[index]
    if isinstance(span.shows, Motion):
        return span.shows.figure_at((at_frame - span.start) / span.frames)
    return span.shows

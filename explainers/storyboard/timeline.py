"""The timeline: when each still and motion is seen and each cue is read. The only place that holds seconds of a clip.

Everything is planned in whole frames from absolute times: boundaries are rounded, never durations, so nothing drifts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from ..figure.model import Figure
from ..figure.motion import Motion
from .model import Storyboard

__all__ = ["FPS", "Cue", "Narration", "Span", "TimedChapter", "Timeline"]

FPS = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """Consecutive frames that show one still, or one motion.

    Frame k of a motion (k = 0 .. frames - 1) shows `motion.figure_at(k / frames)`: the end figure is the first frame of
    the hold that follows, the start figure the first frame of the motion.
    """

    step_id: str
    shows: Figure | Motion
    start: int  # frame, counted from 0
    frames: int

    @property
    def end(self) -> int:
        """The first frame after the span."""
        return self.start + self.frames


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    """A caption: one or two lines, read while they stand."""

    id: str  # the step's id and a number, such as "corner-block.flag.turn/2"
    step_id: str
    start_s: float
    end_s: float
    lines: tuple[str, ...]

    @property
    def text(self) -> str:
        """The words on one line."""
        return " ".join(self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedChapter:
    """A stretch of the clip with a title; chapters follow each other without a gap."""

    title: str
    start: int  # frame
    end: int  # first frame after it


@dataclass(frozen=True, slots=True, kw_only=True)
class Narration:
    """A voice that speaks the lesson: each step's take begins with the first frame of its step."""

    takes: Mapping[str, Path]  # step id -> its sound alone, from the first word to the last
    loudness_lufs: float
    scratch: bool = False  # a machine's voice, to judge the pace


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """A storyboard with its times."""

    storyboard: Storyboard
    spans: tuple[Span, ...]  # without a gap from frame 0 to `frames`
    cues: tuple[Cue, ...]  # in order, not overlapping, at least one a spoken step
    chapters: tuple[TimedChapter, ...]
    fps: int = FPS
    narration: Narration | None = None  # None: it is to be read, or spoken live

    @property
    def frames(self) -> int:
        """Length of the clip in frames."""
        return self.spans[-1].end

    @property
    def seconds(self) -> float:
        """Length of the clip."""
        return self.frames / self.fps

    def step_span(self, step_id: str) -> tuple[int, int]:
        """First frame of a step, and the first frame after it."""
        spans = [span for span in self.spans if span.step_id == step_id]
        return spans[0].start, spans[-1].end

"""What is seen and what is said in a lesson, in the order of time, for those who read it or have it read to them.

Transcript, descriptions and script all stand on it. Within a chapter only the sentences of an alternative text that
are new are told; a list after a colon is never told without its head.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import Enum

from ...figure.model import Figure
from ...storyboard.model import Step
from ...storyboard.timeline import Timeline

__all__ = ["Moment", "MomentKind", "moments"]

_SENTENCES = re.compile(r"(?<=[.!?])\s+")


class MomentKind(Enum):
    """What a moment is for its reader."""

    SEEN = "seen"
    SAID = "said"
    WAIT = "wait"  # a pause begins


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """Something newly seen, a sentence, or the beginning of a pause."""

    kind: MomentKind
    step: Step
    start_s: float
    end_s: float  # when the picture changes again or its step ends; of a sentence, when it is over
    text: str  # of a pause: the whole picture that it is spent with

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return self.end_s - self.start_s


def moments(timeline: Timeline) -> Iterator[Moment]:
    """All moments of a lesson in order.

    A picture that is like the one before it is not told again; of one that has more to it than the one before, only
    what is new is told, unless a chapter begins with it.
    """
    shown, chapter = "", ""
    for step in timeline.storyboard.steps:
        found = [*_said(step, timeline), *_pause(step, timeline)]
        for start_s, end_s, figure in _stills(step, timeline):
            if figure.alt != shown:
                text = figure.alt if step.chapter != chapter else _new_in(figure.alt, shown)
                found.append(Moment(kind=MomentKind.SEEN, step=step, start_s=start_s, end_s=end_s, text=text))
            shown, chapter = figure.alt, step.chapter
        # A picture is seen when its words begin; a pause is told after the picture that it begins with.
        order = {MomentKind.SEEN: 0, MomentKind.WAIT: 1, MomentKind.SAID: 2}
        yield from _until_next(sorted(found, key=lambda moment: (moment.start_s, order[moment.kind])))


def _stills(step: Step, timeline: Timeline) -> Iterator[tuple[float, float, Figure]]:
    """Each still with the time from when it stands to the end of the step."""
    end_s = timeline.step_span(step.id)[1] / timeline.fps
    for span in timeline.spans:
        if span.step_id == step.id and isinstance(span.shows, Figure):
            yield span.start / timeline.fps, end_s, span.shows


def _pause(step: Step, timeline: Timeline) -> Iterator[Moment]:
    """The stills of fixed length as one pause."""
    if step.pause_s <= 0.0:
        return
    spans = [span for span in timeline.spans if span.step_id == step.id]
    waits = [span for span, beat in zip(spans, step.beats, strict=True) if getattr(beat, "hold_s", None) is not None]
    start_s, end_s = waits[0].start / timeline.fps, waits[-1].end / timeline.fps
    yield Moment(kind=MomentKind.WAIT, step=step, start_s=start_s, end_s=end_s, text=step.picture.alt)


def _said(step: Step, timeline: Timeline) -> Iterator[Moment]:
    """Each sentence with the time of the captions that are cut from it."""
    cues = iter([cue for cue in timeline.cues if cue.step_id == step.id])
    for sentence in step.narration:
        left = len(sentence.split())
        own = []
        while left > 0 and (cue := next(cues, None)) is not None:
            own.append(cue)
            left -= len(cue.text.split())
        if own:
            yield Moment(kind=MomentKind.SAID, step=step, start_s=own[0].start_s, end_s=own[-1].end_s, text=sentence)


def _until_next(found: list[Moment]) -> Iterator[Moment]:
    """Moments in their order, each picture ended where the next one is told or a pause begins."""
    told = [moment.start_s for moment in found if moment.kind is not MomentKind.SAID]
    for moment in found:
        after = [start_s for start_s in told if start_s > moment.start_s]
        ends_early = moment.kind is MomentKind.SEEN and after
        yield replace(moment, end_s=min(moment.end_s, after[0])) if ends_early else moment


def _new_in(alt: str, shown: str) -> str:
    """The sentences of a picture after those that it begins with like the one before."""
    now, before = _SENTENCES.split(alt), _SENTENCES.split(shown)
    same = len([*itertools.takewhile(lambda pair: pair[0] == pair[1], zip(now, before, strict=False))])
    rest = " ".join(now[same:])
    # A list after a colon belongs to the sentence before it, which says of what it is a list.
    return rest if rest and ":" not in rest else alt

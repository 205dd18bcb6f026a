"""When everything happens, from a voice that was recorded: a storyboard and the takes of its steps become a timeline.

A take begins with the first frame of its step. Motions keep their natural length, holds stretch to the take, captions
stand while their words are said, and a motion starts with the words that speak of it; all by the rules of ``pacing``,
which is only told when each caption is spoken. A step without a take keeps its planned time.

Where in a take a caption begins is found from how long its words should take and from the silences: sentences begin
after silences where there are some near, and captions that share a stretch of speech divide it by their words.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from .model import Step, Storyboard
from .pacing import SCHOOL_PACE, Pace, SpokenCaption, paced_by, spoken_captions
from .phrasing import CaptionShape, captions_of
from .spoken import seconds_to_say, spoken_words
from .timeline import Timeline

__all__ = ["Take", "retime"]

_SPREAD = 0.20  # of the logarithm of a caption's length beside what its words make expect
_PRICE_NO_SILENCE = 3.0  # two sentences run together
_PRICE_SILENCE_INSIDE = 0.3  # a caption that begins at a silence inside a sentence
_LONG_SILENCE_S = 0.5  # silences between sentences are rather this long
_LINGER_S = 1.0  # a caption stays this long after its words, where a long silence follows


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """One step, spoken."""

    speech: tuple[tuple[float, float], ...]  # stretches between silences, seconds from the first word; in order

    def __post_init__(self) -> None:
        times = [moment for stretch in self.speech for moment in stretch]
        if not times or any(after <= before for before, after in itertools.pairwise(times)):
            raise ValueError("a take has one stretch of speech or more, each longer than nothing, in order")

    @property
    def seconds(self) -> float:
        """From its first word to its last."""
        return self.speech[-1][1]


def retime(storyboard: Storyboard, takes: Mapping[str, Take], profile: Pace = SCHOOL_PACE) -> Timeline:
    """The storyboard with its times, as its takes are spoken.

    takes : by step id; those of steps that are not there, or say nothing, are passed over
    """
    profile = profile.speaking(storyboard.language)

    def spoken(step: Step) -> tuple[SpokenCaption, ...]:
        take = takes.get(step.id)
        return spoken_captions(step, profile) if take is None else _captions_in(step, take, profile)

    return paced_by(storyboard, spoken, profile)


def _captions_in(step: Step, take: Take, profile: Pace) -> tuple[SpokenCaption, ...]:
    shape = _shape_at(step, take, profile)
    cuts = [
        (index, lines)
        for index, cut in enumerate(cut for cut in (captions_of(said, shape) for said in step.narration) if cut)
        for lines in cut
    ]
    if not cuts:
        return ()
    begins_sentence = [True, *(after[0] != before[0] for before, after in itertools.pairwise(cuts))]
    due_s = [seconds_to_say(" ".join(lines), profile.shape.language) for _, lines in cuts]
    starts_s = _starts(due_s, begins_sentence, take)
    captions = []
    for (index, lines), (start_s, end_s) in zip(cuts, itertools.pairwise([*starts_s, take.seconds]), strict=True):
        last_word_s = max((min(after, end_s) for first, after in take.speech if first < end_s), default=end_s)
        gone_s = max(last_word_s + _LINGER_S, start_s + profile.least_caption_s)
        # Taken away only where the gap that this leaves is long enough to look meant.
        early = gone_s if end_s - gone_s >= profile.least_gap_s else None
        captions.append(SpokenCaption(lines=lines, sentence=index, end_s=end_s, gone_s=early))
    return tuple(captions)


def _shape_at(step: Step, take: Take, profile: Pace) -> CaptionShape:
    """Captions of fewer words where somebody speaks so slowly that a full one would stand too long."""
    words = sum(spoken_words(said, profile.shape.language) for said in step.narration)
    most = math.floor((profile.longest_caption_s - profile.rest_s) * words / take.seconds)
    return replace(profile.shape, max_words=max(3, min(profile.shape.max_words, most)))


def _starts(expected_s: Sequence[float], begins_sentence: Sequence[bool], take: Take) -> list[float]:
    """The moment at which each caption begins, by dynamic programming over the silences.

    A place is how much speech lies before it; between two places lies a caption, and the price is how far its length is
    from the expected one at the speed of the whole take.
    """
    lengths = [after - first for first, after in take.speech]
    spoken_s = math.fsum(lengths)
    scale = spoken_s / math.fsum(expected_s)
    silences = list(itertools.accumulate(lengths))[:-1]
    gaps = [after[0] - before[1] for before, after in itertools.pairwise(take.speech)]
    expected = list(itertools.accumulate(length * scale for length in expected_s))
    reached: dict[float, tuple[float, tuple[float, ...]]] = {0.0: (0.0, (0.0,))}  # place -> price, places so far
    for index, length in enumerate(expected_s):
        last = index + 1 == len(expected_s)
        sentence = not last and begins_sentence[index + 1]
        if last:
            places = [(spoken_s, 0.0)]
        else:
            places = [(expected[index], _PRICE_NO_SILENCE if sentence else 0.0)]
            for place, gap_s in zip(silences, gaps, strict=True):
                short = max(0.0, 1.0 - gap_s / _LONG_SILENCE_S)
                places.append((place, short if sentence else _PRICE_SILENCE_INSIDE))
        after: dict[float, tuple[float, tuple[float, ...]]] = {}
        for place, cost in places:
            for before, (price, row) in reached.items():
                if place - before <= 1e-6:
                    continue
                off = math.log((place - before) / (length * scale)) / _SPREAD
                total = price + cost + 0.5 * off * off
                if place not in after or total < after[place][0]:
                    after[place] = (total, (*row, place))
        reached = after
    if not reached:  # fewer moments than captions: they share the take evenly
        return [take.seconds * index / len(expected_s) for index in range(len(expected_s))]
    _, row = min(reached.values())
    return [_moment(place, take) for place in row[:-1]]


def _moment(place: float, take: Take) -> float:
    """Where in the take so much speech has been heard; at a silence, its end."""
    before = 0.0
    for first, after in take.speech:
        if place < before + (after - first) - 1e-9:
            return first + max(0.0, place - before)
        before += after - first
    return take.seconds

"""When everything happens, from the words alone: a storyboard becomes a timeline.

Words are spoken from the first moment of a step, in captions that follow each other without a gap. Motions keep their
natural length; the still before a motion waits until the sentence that announces it is over. A step lasts as long as
its words or its motions, whichever is longer, and then rests. Times are added up as seconds and turned into whole
frames at the very end, so that nothing drifts. A motion has the same number of frames whenever it starts, so that other
words before it do not make it another motion; the still after it takes up the difference.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from ..figure.motion import Motion
from .model import Step, Still, Storyboard
from .phrasing import CaptionShape, captions_of
from .spoken import spoken_words
from .timeline import FPS, Cue, Span, TimedChapter, Timeline

__all__ = ["SCHOOL_PACE", "Pace", "SpokenCaption", "pace", "paced_by", "spoken_captions"]

_LEAST_FRAMES = 2  # the assembler of clips cannot take a single frame


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """A reading speed and the silences round it; seconds unless said."""

    words_a_minute: float = 130.0
    least_caption_s: float = 1.5
    longest_caption_s: float = 7.0
    breath_s: float = 0.3  # silence after a sentence
    rest_s: float = 0.7  # silence at the end of a step
    look_s: float = 1.0  # a still is looked at this long before it starts to move, and after it has come to rest
    start_s: float = 0.4  # a still from which a motion starts with the first words of its step
    silent_step_s: float = 2.0
    least_gap_s: float = 1.0  # a shorter gap between two captions looks like a mistake, so the caption runs on
    shape: CaptionShape = field(default_factory=CaptionShape)

    def __post_init__(self) -> None:
        longest_spoken_s = self.seconds_of_words(self.shape.max_words)
        if longest_spoken_s + max(self.breath_s, self.rest_s, self.least_gap_s) > self.longest_caption_s + 1e-9:
            raise ValueError(
                f"{self.shape.max_words} words take {longest_spoken_s:.1f} s, leaving no room for the silence after"
                f" them in a caption of at most {self.longest_caption_s:g} s"
            )

    def seconds_of_words(self, words: int) -> float:
        """Time to say that many words."""
        return words * 60.0 / self.words_a_minute

    def speaking(self, language: str) -> Pace:
        """This pace for words in that language: captions are cut by its own little words."""
        return self if language == self.shape.language else replace(self, shape=replace(self.shape, language=language))


# For learners of 9 to 12: at most 140 words a minute (DCMP Captioning Key, lower level 130, middle 140), two lines of
# 37 characters (BBC Subtitle Guidelines, 3.1), 1.5 to 7 s a caption, and no gap or at least 1 s (BBC, 4.5).
SCHOOL_PACE = Pace()


def pace(storyboard: Storyboard, profile: Pace = SCHOOL_PACE) -> Timeline:
    """The storyboard with its times, planned from its words."""
    profile = profile.speaking(storyboard.language)
    return paced_by(storyboard, lambda step: spoken_captions(step, profile), profile)


def paced_by(storyboard: Storyboard, spoken_of: Callable[[Step], tuple[SpokenCaption, ...]], profile: Pace) -> Timeline:
    """The storyboard with its times, where it is known how long each step's captions are spoken."""
    spans: list[Span] = []
    cues: list[Cue] = []
    start_s = 0.0
    for step in storyboard.steps:
        spoken = spoken_of(step)
        holds_s = _lengths_of_beats(step, spoken, profile)
        bounds_s = list(itertools.accumulate(holds_s, initial=start_s))
        bounds = _bounds(step, holds_s, bounds_s)
        for beat, first, after in zip(step.beats, bounds, bounds[1:], strict=False):
            shows = beat.figure if isinstance(beat, Still) else beat
            spans.append(Span(step_id=step.id, shows=shows, start=first, frames=after - first))
        cues.extend(_cues(step, spoken, start_s, bounds_s[-1], profile))
        start_s = bounds_s[-1]
    return Timeline(storyboard=storyboard, spans=tuple(spans), cues=tuple(cues), chapters=_chapters(storyboard, spans))


def _bounds(step: Step, lengths_s: list[float], bounds_s: list[float]) -> list[int]:
    """The first frame of each beat, and the first after the last, which is where the next step begins."""
    bounds = [_frame_at(bound_s) for bound_s in bounds_s]
    for index, beat in enumerate(step.beats[:-1]):  # what follows the last one belongs to another step
        if isinstance(beat, Motion):
            after = bounds[index] + _frame_at(lengths_s[index])
            bounds[index + 1] = min(after, bounds[index + 2] - _LEAST_FRAMES)
    return bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class SpokenCaption:
    """One caption while it is spoken."""

    lines: tuple[str, ...]
    sentence: int  # index of the sentence it is cut from
    end_s: float  # when the next one may start, counted from the start of the step
    gone_s: float | None = None  # when it is taken away, where that is a good while before the next one


def spoken_captions(step: Step, profile: Pace) -> tuple[SpokenCaption, ...]:
    """The captions of a step as they are planned from its words."""
    captions = []
    end_s = 0.0
    sentences = [cut for cut in (captions_of(sentence, profile.shape) for sentence in step.narration) if cut]
    for index, cut in enumerate(sentences):
        for number, lines in enumerate(cut, start=1):
            # The step's own rest follows the last sentence, so that one takes no breath.
            breath_s = profile.breath_s if number == len(cut) and index + 1 < len(sentences) else 0.0
            spoken_s = profile.seconds_of_words(spoken_words(" ".join(lines), profile.shape.language))
            end_s += max(profile.least_caption_s, spoken_s + breath_s)
            captions.append(SpokenCaption(lines=lines, sentence=index, end_s=end_s))
    return tuple(captions)


def _lengths_of_beats(step: Step, spoken: tuple[SpokenCaption, ...], profile: Pace) -> list[float]:
    """Seconds of each beat, none shorter than the fewest frames allowed."""
    sentence_ends_s = {caption.sentence: caption.end_s for caption in spoken}  # the last caption of each one wins
    last_sentence = len(sentence_ends_s) - 1
    lengths_s: list[float] = []
    motions = 0
    for index, beat in enumerate(step.beats):
        if isinstance(beat, Motion):
            length_s = beat.seconds
            motions += 1
        elif beat.hold_s is not None:
            length_s = beat.hold_s
        else:
            following = step.beats[index + 1] if index + 1 < len(step.beats) else None
            length_s = profile.look_s
            if isinstance(following, Motion):
                heard = following.after_sentences
                if heard == 0 and index == 0:
                    length_s = profile.start_s  # the words that begin the step speak of this motion
                elif heard is None and motions < last_sentence:
                    # Several sentences: each announces its motion, and the last one is spoken while things move.
                    length_s = max(length_s, sentence_ends_s[motions] - math.fsum(lengths_s))
                elif heard is not None and 0 < heard <= len(sentence_ends_s):
                    length_s = max(length_s, sentence_ends_s[heard - 1] - math.fsum(lengths_s))
        if isinstance(beat, Still):
            length_s = max(length_s, beat.least_s)
        lengths_s.append(max(length_s, _LEAST_FRAMES / FPS))
    spoken_s = spoken[-1].end_s if spoken else 0.0
    waiting = _waiting_beat(step)
    if waiting is None:
        return _stretched(lengths_s, len(lengths_s) - 1, spoken_s)
    busy_s = max(math.fsum(lengths_s[:waiting]), spoken_s)
    needed_s = busy_s + profile.rest_s if busy_s > 0.0 else profile.silent_step_s
    return _stretched(lengths_s, waiting, needed_s + math.fsum(lengths_s[waiting + 1 :]))


def _waiting_beat(step: Step) -> int | None:
    """The still that is held until the words are over: the last one, but before any still of fixed length.

    A pause belongs to the learner, so nothing is said in it where a still stands before it that can wait.
    """
    flexible = [i for i, beat in enumerate(step.beats) if isinstance(beat, Still) and beat.hold_s is None]
    exact = [i for i, beat in enumerate(step.beats) if isinstance(beat, Still) and beat.hold_s is not None]
    before = [i for i in flexible if not exact or i < exact[0]]
    return before[-1] if before else flexible[-1] if flexible else None


def _stretched(lengths_s: list[float], index: int, least_s: float) -> list[float]:
    lacking_s = least_s - math.fsum(lengths_s)
    return [length + max(0.0, lacking_s) if i == index else length for i, length in enumerate(lengths_s)]


def _cues(step: Step, spoken: tuple[SpokenCaption, ...], start_s: float, step_end_s: float, profile: Pace) -> list[Cue]:
    """The captions of one step on the frame grid, so that a caption changes with a picture and never beside it."""
    bounds = [_frame_at(start_s), *(_frame_at(start_s + caption.end_s) for caption in spoken)]
    if _frame_at(step_end_s) - bounds[-1] < profile.least_gap_s * FPS:
        bounds[-1] = _frame_at(step_end_s)
    return [
        Cue(
            id=f"{step.id}/{number}",
            step_id=step.id,
            start_s=first / FPS,
            end_s=(after if caption.gone_s is None else min(after, _frame_at(start_s + caption.gone_s))) / FPS,
            lines=caption.lines,
        )
        for number, (caption, (first, after)) in enumerate(
            zip(spoken, itertools.pairwise(bounds), strict=False), start=1
        )
    ]


def _chapters(storyboard: Storyboard, spans: list[Span]) -> tuple[TimedChapter, ...]:
    title_of = {step.id: step.chapter for step in storyboard.steps}
    runs = [(title, [*run]) for title, run in itertools.groupby(spans, key=lambda span: title_of[span.step_id])]
    return tuple(TimedChapter(title=title, start=run[0].start, end=run[-1].end) for title, run in runs)


def _frame_at(seconds: float) -> int:
    # Halves go up, always: round() would send them to the even frame and make equal lengths differ by one. The small
    # lift keeps a sum of floats that falls a hair short of a half on the same side as its exact value.
    return math.floor(seconds * FPS + 0.5 + 1e-6)

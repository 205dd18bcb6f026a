"""A lesson timed by takes: holds stretch, motions do not, captions lie where their words are said."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from explainers.batch import timeline_of
from explainers.figure.motion import Motion
from explainers.frames.content_key import drawing_keys
from explainers.storyboard.model import Storyboard
from explainers.storyboard.pacing import SCHOOL_PACE
from explainers.storyboard.retiming import Take, retime
from explainers.storyboard.said_numbers import as_words
from explainers.storyboard.spoken import phrases_to_say, seconds_to_say, syllables
from explainers.storyboard.timeline import Timeline

LESSON = Path(__file__).parent.parent.parent / "items" / "first-blocks.yaml"


@cache
def planned_lesson() -> Timeline:
    return timeline_of(LESSON)


def board() -> Storyboard:
    return planned_lesson().storyboard


def spoken_at(speed: float, gap_s: float = 0.8) -> tuple[dict[str, Take], dict[str, list[float]]]:
    """Every step, each sentence one stretch; and when each sentence begins."""
    takes, begins = {}, {}
    for step in board().steps:
        if not step.narration:
            continue
        now, speech, starts = 0.0, [], []
        for said in step.narration:
            starts.append(now)
            speech.append((now, now + seconds_to_say(said) / speed))
            now = speech[-1][1] + gap_s
        takes[step.id], begins[step.id] = Take(speech=tuple(speech)), starts
    return takes, begins


def motions(timeline: Timeline) -> list[tuple[str, int]]:
    moving = [span for span in timeline.spans if isinstance(span.shows, Motion)]
    return list(zip(drawing_keys(span.shows for span in moving), (span.frames for span in moving), strict=True))


@pytest.mark.parametrize("speed", [0.6, 1.0, 1.6])
def test_motions_keep_their_frames_and_spans_leave_no_gap(speed: float) -> None:
    fitted = retime(board(), spoken_at(speed)[0])
    assert motions(fitted) == motions(planned_lesson())
    assert fitted.spans[0].start == 0
    assert all(before.end == after.start and before.frames >= 1 for before, after in pairwise(fitted.spans))
    assert [cue.step_id for cue in fitted.cues] == sorted(
        (cue.step_id for cue in fitted.cues), key=[step.id for step in board().steps].index
    )


@pytest.mark.parametrize("speed", [0.7, 1.0, 1.3])
def test_a_caption_begins_with_its_sentence_and_a_step_waits_for_its_voice(speed: float) -> None:
    takes, begins = spoken_at(speed)
    fitted = retime(board(), takes)
    for step in board().steps:
        if not step.narration:
            continue
        first, after = (frame / fitted.fps for frame in fitted.step_span(step.id))
        assert after - first >= takes[step.id].seconds + SCHOOL_PACE.rest_s - 0.05
        starts = [cue.start_s - first for cue in fitted.cues if cue.step_id == step.id]
        for begin in begins[step.id]:
            assert min(abs(start - begin) for start in starts) <= 1.0 / fitted.fps + 1e-6, step.id
        words = " ".join(cue.text for cue in fitted.cues if cue.step_id == step.id)
        assert words == " ".join(step.narration)


def test_a_motion_never_starts_before_the_words_that_speak_of_it() -> None:
    takes, begins = spoken_at(0.8)
    fitted = retime(board(), takes)
    for step in board().steps:
        spans = [span for span in fitted.spans if span.step_id == step.id and isinstance(span.shows, Motion)]
        for span in spans:
            heard = span.shows.after_sentences  # type: ignore[union-attr]
            if heard:
                begin = [*begins[step.id], takes[step.id].seconds][heard]
                start_s = (span.start - fitted.step_span(step.id)[0]) / fitted.fps
                assert start_s >= begin - 1.0 / fitted.fps, step.id


def test_captions_stand_no_longer_than_the_profile_allows_however_slowly_one_speaks() -> None:
    fitted = retime(board(), spoken_at(0.6)[0])
    assert max(cue.end_s - cue.start_s for cue in fitted.cues) <= SCHOOL_PACE.longest_caption_s + 0.5
    assert all(before.end_s <= after.start_s + 1e-9 for before, after in pairwise(fitted.cues))


def test_a_step_without_a_take_keeps_its_planned_time() -> None:
    assert retime(board(), {}) == planned_lesson()
    takes, _ = spoken_at(1.0)
    step_id = next(iter(takes))
    del takes[step_id]
    first, after = retime(board(), takes).step_span(step_id)
    planned = planned_lesson().step_span(step_id)
    assert abs((after - first) - (planned[1] - planned[0])) <= 1


@pytest.mark.parametrize("speech", [(), ((0.0, 0.0),), ((0.0, 2.0), (1.0, 3.0))])
def test_a_take_without_speech_cannot_be_written_down(speech: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(ValueError, match="stretch"):
        Take(speech=speech)


def test_figures_take_the_time_of_the_words_they_are_read_as() -> None:
    assert syllables("135 degrees") == pytest.approx(syllables("one hundred and thirty-five degrees"))
    assert syllables("22.5°") == pytest.approx(syllables("twenty-two point five degrees"))
    assert syllables("...") == 0.0
    assert syllables("Turn it anticlockwise.") > syllables("Turn it left.") > 0.0


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("135", ["einhundertfünfunddreißig"]),
        ("21", ["einundzwanzig"]),
        ("1.001", ["eintausendeins"]),
        ("22,5", ["zweiundzwanzig", "Komma", "fünf"]),
        ("2.000.100", ["zwei", "Millionen", "einhundert"]),
        ("°", ["Grad"]),
    ],
)
def test_figures_are_read_out_in_german(said: str, words: list[str]) -> None:
    assert as_words(said, "de") == words
    assert syllables(said, "de") == pytest.approx(syllables(" ".join(words), "de"))
    assert syllables("Eine neue Seite.", "de") > syllables("Eine neue Seite.", "en")  # no vowel of it is silent


def test_phrases_end_at_full_stops_and_commas() -> None:
    ends = [stop for _, stop in phrases_to_say(("First, turn it. Then stop.", "It is 2.5 units long."))]
    assert ends == [False, True, True, True]
